/* Days that somebody fixed, which are records of the one chain, and the days of
 * the plan kept last. */
#include <sysexits.h>

#include "arena.h"
#include "chain.h"
#include "ledger_fixture.h"
#include "planned.h"
#include "records.h"
#include "test.h"

static const struct job job = {.id = "annual-test"};
static const struct subject bus = {.id = "K7"};
static const struct fleet fleet = {
    .jobs = &job, .n_jobs = 1, .subjects = &bus, .n_subjects = 1};

static const struct record_value for_cycle[] = {
    {.word = "cycle", .text = "r42"}};

static const struct record sample = {
    .kind = RECORD_BOOKED,
    .subject_id = "K7",
    .job_id = "annual-test",
    .values = for_cycle,
    .n_values = 1,
    .day = 20600,
    .until = DAY_NONE,
    .reading = -1,
    .entered = 1700000000,
    .by = "J. Tern",
    .note = "by the early ferry",
};

/* What stands; the texts are in @a. */
static struct record *
standing(struct ledger *l, struct arena *a, size_t *n)
{
    struct record *list;
    struct fault f = {0, ""};

    assert_int_equal(records_standing(l, &fleet, RECORD_BIT(RECORD_BOOKED),
                         NULL, a, &list, n, &f),
        0);
    return list;
}

static void
what_was_booked_is_read(void **state)
{
    struct ledger *l = opened(LEDGER_WRITE);
    struct arena *a = arena_new();
    struct record bare = sample;
    struct fault f = {0, ""};
    int64_t id = 0;
    size_t n;

    (void)state;
    bare.subject_id = "k8";
    bare.by = bare.note = NULL;
    (void)standing(l, a, &n);
    assert_int_equal(n, 0);
    assert_int_equal(records_add(l, &sample, &id, &f), 0);
    assert_int_equal(id, 1);
    assert_int_equal(records_add(l, &bare, NULL, &f), 0);
    struct record *list = standing(l, a, &n);
    assert_int_equal(n, 2);
    assert_ptr_equal(list[0].subject, &bus);
    assert_ptr_equal(list[0].job, &job);
    assert_string_equal(record_text(&list[0], "cycle"), "r42");
    assert_int_equal(list[0].day, 20600);
    assert_int_equal(list[0].entered, 1700000000);
    assert_string_equal(list[0].by, "J. Tern");
    assert_string_equal(list[0].note, "by the early ferry");
    assert_null(list[1].subject);
    assert_null(list[1].by);
    assert_null(list[1].note);
    assert_int_equal(records_find(l, &sample, &id, &f), 1);
    assert_int_equal(id, 1);
    arena_free(a);
    ledger_close(l);
}

static void
a_later_one_replaces_it(void **state)
{
    struct ledger *l = opened(LEDGER_WRITE);
    struct arena *a = arena_new();
    struct record moved = sample;
    struct chain chain;
    struct fault f = {0, ""};
    size_t n;

    (void)state;
    assert_int_equal(records_add(l, &sample, NULL, &f), 0);
    moved.day = 20605;
    assert_int_equal(records_replace(l, 1, &moved, NULL, &f), 0);
    struct record *list = standing(l, a, &n);
    assert_int_equal(n, 1);
    assert_int_equal(list[0].id, 2);
    assert_int_equal(list[0].day, 20605);
    /* Only once. */
    assert_int_equal(records_replace(l, 1, &moved, NULL, &f), -1);
    assert_int_equal(f.code, EX_DATAERR);
    struct record back = moved;
    back.kind = RECORD_UNBOOKED;
    assert_int_equal(records_replace(l, 2, &back, NULL, &f), 0);
    (void)standing(l, a, &n);
    assert_int_equal(n, 0);
    assert_int_equal(chain_verify(l, &chain, &f), 0);
    assert_int_equal(chain.records, 3);
    arena_free(a);
    ledger_close(l);
}

static void
one_can_be_voided(void **state)
{
    struct ledger *l = opened(LEDGER_WRITE);
    struct arena *a = arena_new();
    struct record *all;
    size_t n;

    (void)state;
    assert_int_equal(records_add(l, &sample, NULL, NULL), 0);
    assert_int_equal(records_void(l, 1, "R. Teal", "wrong bus", 5, NULL), 0);
    (void)standing(l, a, &n);
    assert_int_equal(n, 0);
    assert_int_equal(records_read(l, &fleet, a, &all, &n, NULL), 0);
    assert_int_equal(n, 1);
    assert_int_equal(all[0].voided_by, 2);
    assert_string_equal(all[0].voided_note, "wrong bus");
    arena_free(a);
    ledger_close(l);
}

/* What takes a booking back is of a booking, and is not itself taken back:
 * that would seem to bring the booking back, and does not. */
static void
nothing_is_taken_from_nowhere(void **state)
{
    struct ledger *l = opened(LEDGER_WRITE);
    struct record back = sample;
    struct record done = sample;
    struct fault f = {0, ""};

    (void)state;
    back.kind = RECORD_UNBOOKED;
    done.kind = RECORD_COMPLETED;
    done.n_values = 0;
    assert_int_equal(records_add(l, &back, NULL, &f), -1);
    assert_fault(&f, EX_DATAERR);
    assert_int_equal(records_replace(l, 7, &back, NULL, &f), -1);
    assert_int_equal(records_add(l, &done, NULL, &f), 0);
    assert_int_equal(records_replace(l, 1, &back, NULL, &f), -1);
    assert_fault(&f, EX_DATAERR);
    assert_int_equal(records_replace(l, 1, &sample, NULL, &f), -1);
    assert_int_equal(records_add(l, &sample, NULL, &f), 0);
    assert_int_equal(records_replace(l, 2, &done, NULL, &f), -1);
    assert_int_equal(records_replace(l, 2, &back, NULL, &f), 0);
    assert_int_equal(records_void(l, 3, NULL, "no", 5, &f), -1);
    assert_fault(&f, EX_DATAERR);
    ledger_close(l);
}

/* Refused and not guessed at: whoever wrote it was not this program. */
static void
a_body_that_we_do_not_write_is_refused(void **state)
{
    static const char *const bodies[] = {"", "{}", "[]", "1", "{\"cycle\":1}",
        "{\"cycle\": \"r42\"}", "{\"cycle\":\"r42\"} ",
        "{\"cycle\":\"r42\",\"a\":1}", "{\"cycle\":[\"r42\"]}",
        "{\"cycle\":\"r42\",\"cycle\":\"r42\"}", "{\"cycle\":\"\\u00722\"}",
        "{\"cycle\":\"r42\""};
    struct arena *a = arena_new();
    struct record *list;
    size_t n;
    char sql[160];

    (void)state;
    struct ledger *l = opened(LEDGER_WRITE);
    assert_int_equal(records_add(l, &sample, NULL, NULL), 0);
    assert_outside("SELECT body FROM event", "{\"cycle\":\"r42\"}");
    assert_int_equal(run_outside("DROP TRIGGER event_changed"), SQLITE_OK);
    for (size_t i = 0; i < sizeof bodies / sizeof *bodies; i++) {
        struct fault f = {0, ""};
        snprintf(sql, sizeof sql, "UPDATE event SET body = '%s'", bodies[i]);
        assert_int_equal(run_outside(sql), SQLITE_OK);
        assert_int_equal(records_standing(l, &fleet, RECORD_BIT(RECORD_BOOKED),
                             NULL, a, &list, &n, &f),
            -1);
        assert_fault(&f, EX_DATAERR);
    }
    /* A key of its own is what a newer program would write. */
    struct fault newer = {0, ""};
    assert_int_equal(
        run_outside("UPDATE event SET body = '{\"a\":1,\"cycle\":\"r42\"}'"),
        SQLITE_OK);
    assert_int_equal(records_standing(l, &fleet, RECORD_BIT(RECORD_BOOKED),
                         NULL, a, &list, &n, &newer),
        -1);
    assert_fault(&newer, EX_CONFIG);
    assert_int_equal(
        run_outside("UPDATE event SET body = '{\"cycle\":\"d2026-01-02+3\"}'"),
        SQLITE_OK);
    assert_string_equal(
        record_text(standing(l, a, &n), "cycle"), "d2026-01-02+3");
    assert_int_not_equal(
        run_outside("UPDATE event SET body = hex(zeroblob(32769))"), SQLITE_OK);
    arena_free(a);
    ledger_close(l);
}

static void
a_body_that_is_too_long_is_not_written(void **state)
{
    struct ledger *l = opened(LEDGER_WRITE);
    struct record long_one = sample;
    struct fault f = {0, ""};
    char *cycle = calloc(1, 65536);

    (void)state;
    assert_non_null(cycle);
    const struct record_value value = {.word = "cycle", .text = cycle};
    long_one.values = &value;
    memset(cycle, 'x', 65536 - strlen("{\"cycle\":\"\"}"));
    assert_int_equal(records_add(l, &long_one, NULL, &f), 0);
    memset(cycle, 'x', 65537 - strlen("{\"cycle\":\"\"}"));
    assert_int_equal(records_add(l, &long_one, NULL, &f), -1);
    assert_fault(&f, EX_DATAERR);
    free(cycle);
    ledger_close(l);
}

static void
the_last_plan_is_kept(void **state)
{
    static const struct planned first[] = {
        {"K8", "oil", 20700}, {"K7", "oil", 20710}, {"K7", "oil", 20700}};
    static const struct planned second[] = {{"K7", "test", 20800}};
    struct ledger *l = opened(LEDGER_WRITE);
    struct arena *a = arena_new();
    struct fault f = {0, ""};
    struct planned *days;
    size_t n;

    (void)state;
    assert_int_equal(planned_write(l, first, 3, &f), 0);
    assert_int_equal(planned_read(l, a, &days, &n, &f), 0);
    assert_int_equal(n, 3);
    assert_string_equal(days[0].subject, "K7");
    assert_int_equal(days[0].day, 20700);
    assert_int_equal(days[1].day, 20710);
    assert_string_equal(days[2].subject, "K8");
    assert_int_equal(planned_write(l, second, 1, &f), 0);
    assert_int_equal(planned_read(l, a, &days, &n, &f), 0);
    assert_int_equal(n, 1);
    assert_string_equal(days[0].job, "test");
    arena_free(a);
    ledger_close(l);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        TEST(what_was_booked_is_read),
        TEST(a_later_one_replaces_it),
        TEST(one_can_be_voided),
        TEST(nothing_is_taken_from_nowhere),
        TEST(a_body_that_we_do_not_write_is_refused),
        TEST(a_body_that_is_too_long_is_not_written),
        TEST(the_last_plan_is_kept),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
