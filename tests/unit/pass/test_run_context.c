/* A run that rests and goes on, with the fleet as it was read. */
#include "ledger_fixture.h"
#include "records.h"
#include "run_context.h"
#include "test.h"

static const char fleet[] =
    "[site]\nname = x\ntime-zone = Etc/UTC\nledger = " LEDGER "\n"
    "[calendar c]\nworks = mon\n[depot d]\ncalendar = c\n"
    "[job j]\ntitle = J\nclass = own\nevery = 1 year\n"
    "[vehicle K1]\ndepot = d\njobs = j\n[vehicle K2]\ndepot = d\njobs = j\n"
    "[equipment carried]\ncarried-by = K1\n"
    "[equipment loose]\ndepot = d\n";

static struct run_context *
opened_run(struct problems *ps)
{
    const struct run_options options = {.fleet_file = "fleet.conf",
        .today = 20789, /* 2026-12-02 */
        .ledger = LEDGER_WRITE,
        .reads = RUN_FLEET};
    FILE *out = fopen("fleet.conf", "w");
    struct fault f;

    assert_non_null(out);
    assert_true(fputs(fleet, out) >= 0);
    assert_int_equal(fclose(out), 0);
    struct run_context *p = run_open(&options, ps, &f);
    if (p == NULL)
        fail_msg("%s", f.text);
    return p;
}

/* The id of what carries @id, or "". */
static const char *
carrier(const struct run_context *p, const char *id)
{
    const struct subject *s = fleet_subject(run_fleet(p), id);

    return s->carrier ? s->carrier->id : "";
}

static int64_t
move(const char *what, const char *to)
{
    struct record r = {.kind = RECORD_MOVED,
        .subject_id = what,
        .other_id = to,
        .day = 20788,
        .until = DAY_NONE,
        .reading = -1};
    struct ledger *l = opened(LEDGER_WRITE);
    struct fault f;
    int64_t id = 0;

    if (records_add(l, &r, &id, &f))
        fail_msg("%s", f.text);
    ledger_close(l);
    return id;
}

static void
voided(int64_t id)
{
    struct ledger *l = opened(LEDGER_WRITE);

    assert_int_equal(records_void(l, id, NULL, "not so", 0, NULL), 0);
    ledger_close(l);
}

static void
what_moved_goes_back_when_that_is_voided(void **state)
{
    struct problems *ps = problems_new();
    struct run_context *p = opened_run(ps);
    struct fault f;

    (void)state;
    assert_int_equal(run_again(p, RUN_NEEDED, ps, &f), 0);
    assert_string_equal(carrier(p, "carried"), "K1");
    assert_string_equal(carrier(p, "loose"), "");
    run_rest(p);
    assert_null(run_ledger(p));

    int64_t first = move("carried", "K2");
    int64_t second = move("loose", "K1");
    assert_int_equal(run_again(p, RUN_NEEDED, ps, &f), 0);
    assert_string_equal(carrier(p, "carried"), "K2");
    assert_string_equal(carrier(p, "loose"), "K1");
    /* The same once more is the same. */
    assert_int_equal(run_again(p, RUN_NEEDED, ps, &f), 0);
    assert_string_equal(carrier(p, "carried"), "K2");

    voided(first);
    voided(second);
    assert_int_equal(run_again(p, RUN_NEEDED, ps, &f), 0);
    assert_string_equal(carrier(p, "carried"), "K1");
    assert_string_equal(carrier(p, "loose"), "");
    run_close(p);
    problems_free(ps);
}

static void
a_ledger_that_fails_leaves_the_fleet(void **state)
{
    struct problems *ps = problems_new();
    struct run_context *p = opened_run(ps);
    struct fault f;
    FILE *out = fopen(LEDGER, "w");

    (void)state;
    assert_true(fputs("not a ledger", out) >= 0);
    assert_int_equal(fclose(out), 0);
    assert_int_equal(run_again(p, RUN_NEEDED, ps, &f), -1);
    assert_null(run_ledger(p));
    assert_int_equal(run_fleet(p)->n_subjects, 4);
    assert_int_equal(unlink(LEDGER), 0);
    assert_int_equal(run_again(p, RUN_NEEDED, ps, &f), 0);
    run_close(p);
    problems_free(ps);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        TEST(what_moved_goes_back_when_that_is_voided),
        TEST(a_ledger_that_fails_leaves_the_fleet),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
