/* One plan, one snapshot and one reading of the ledger serve a whole run.  The
 * linker puts a counter before each function that makes one, see the Makefile.
 */
#include "dues.h"
#include "file_watch.h"
#include "fleet_plan.h"
#include "keyring.h"
#include "ledger_fixture.h"
#include "parts.h"
#include "record_form.h"
#include "records.h"
#include "service.h"
#include "test.h"

#define WRITES (RUN_FEEDS | RUN_SETTLED | RUN_REASONS)

/* How often each was made. */
static struct {
    int plans;
    int snapshots;
    int readings;
} made;

struct fleet_plan *__real_fleet_plan_new(
    const struct facts *facts, const struct fleet_plan_options *options);
struct fleet_plan *__wrap_fleet_plan_new(
    const struct facts *facts, const struct fleet_plan_options *options);
struct snapshot *__real_snapshot_new(
    const struct facts *facts, const struct snapshot_options *options);
struct snapshot *__wrap_snapshot_new(
    const struct facts *facts, const struct snapshot_options *options);
int __real_records_needed(struct ledger *l, const struct fleet *fleet,
    const struct task *only, struct arena *a, struct record **out, size_t *n,
    struct fault *f);
int __wrap_records_needed(struct ledger *l, const struct fleet *fleet,
    const struct task *only, struct arena *a, struct record **out, size_t *n,
    struct fault *f);

struct fleet_plan *
__wrap_fleet_plan_new(
    const struct facts *facts, const struct fleet_plan_options *options)
{
    made.plans++;
    return __real_fleet_plan_new(facts, options);
}

struct snapshot *
__wrap_snapshot_new(
    const struct facts *facts, const struct snapshot_options *options)
{
    made.snapshots++;
    return __real_snapshot_new(facts, options);
}

int
__wrap_records_needed(struct ledger *l, const struct fleet *fleet,
    const struct task *only, struct arena *a, struct record **out, size_t *n,
    struct fault *f)
{
    made.readings++;
    return __real_records_needed(l, fleet, only, a, out, n, f);
}

static void
assert_made(int plans, int snapshots, int readings)
{
    assert_int_equal(made.plans, plans);
    assert_int_equal(made.snapshots, snapshots);
    assert_int_equal(made.readings, readings);
    memset(&made, 0, sizeof made);
}

/* A fleet whose dates follow the plan, with all that a run writes. */
static void
write_fleet(void)
{
    static const char text[] =
        "[site]\nname = x\ntime-zone = Etc/UTC\nledger = " LEDGER "\n"
        "feed-folder = feeds\nplanner = on\n"
        "[mail]\nfrom = a@skerrow.example\nby = folder mail\n"
        "keeper = k@skerrow.example\n"
        "[calendar c]\nworks = mon tue wed thu fri\nvehicles-a-day = 1\n"
        "[depot d]\ncalendar = c\n"
        "[job j]\ntitle = J\nclass = own\nevery = 4 weeks\n"
        "[job k]\ntitle = K\nclass = own\nevery = 6 weeks\n"
        "[vehicle K1]\ndepot = d\njobs = j k\nregistered = 2020-01-01\n"
        "[vehicle K2]\ndepot = d\njobs = j k\nregistered = 2020-01-01\n"
        "[person p]\nmail = p@skerrow.example\ntold = all\n"
        "[feed all]\nshows = all\n[feed one]\nshows = subject K1\n";
    FILE *out = fopen("fleet.conf", "w");

    assert_non_null(out);
    assert_true(fputs(text, out) >= 0);
    assert_int_equal(fclose(out), 0);
}

static void
grant(enum keyring_kind kind, const char *name)
{
    struct keyring_key key = {.kind = kind, .name = name, .made = 1};
    struct ledger *l = opened(LEDGER_WRITE);

    key_hash(name, strlen(name), key.hash);
    assert_int_equal(keyring_add(l, &key, NULL), 0);
    ledger_close(l);
}

static struct run_context *
begun(enum run_reads reads, unsigned serves)
{
    const struct run_options options = {.fleet_file = "fleet.conf",
        .today = DAY_NONE,
        .ledger = LEDGER_WRITE,
        .reads = reads,
        .serves = serves};
    struct problems *ps = problems_new();
    struct fault f;

    struct run_context *p = run_open(&options, ps, &f);
    if (p == NULL)
        fail_msg("%s", f.text);
    problems_free(ps);
    memset(&made, 0, sizeof made);
    return p;
}

static void
a_night_makes_one_of_each(void **state)
{
    struct buf *notes = buf_new();
    struct fault f;

    (void)state;
    write_fleet();
    struct run_context *p = begun(RUN_LATER, WRITES);
    assert_int_equal(run_read(p, NULL, NULL, &f), 0);
    if (parts_nightly(p, notes, &f))
        fail_msg("%s", f.text);
    assert_int_equal(access("feeds/all.ics", R_OK), 0);
    assert_made(1, 1, 1);
    run_close(p);
    buf_free(notes);
}

static void
show_nothing(void *with)
{
    (void)with;
}

static void
a_round_of_the_daemon_makes_one_of_each(void **state)
{
    struct fault f;
    struct service_options options = {
        .from = {"fleet.conf", DAY_NONE, file_watch_open(&f)},
        .show = show_nothing};

    (void)state;
    write_fleet();
    grant(KEYRING_FLEET, "page");
    grant(KEYRING_DEPOT, "d");
    grant(KEYRING_PERSON, "p");
    grant(KEYRING_FEED, "all");
    struct service *s = service_start(&options, &f);
    assert_non_null(s);
    memset(&made, 0, sizeof made);
    (void)service_go(s, WORK_PASS | WORK_REMIND);
    assert_null(service_fault(s));
    assert_made(1, 1, 1);
    /* Nothing is kept from one round to the next. */
    (void)service_go(s, WORK_PASS);
    assert_made(1, 1, 1);
    service_free(s);
    file_watch_close(options.from.watch);
}

/* --- One task alone ------------------------------------------------------- */

struct field {
    const char *name;
    const char *value;
};

static const char *
value(const void *from, const char *name)
{
    for (const struct field *f = from; f->name != NULL; f++)
        if (strcmp(f->name, name) == 0)
            return f->value;
    return NULL;
}

static const struct task *
task_of(const struct run_context *p)
{
    const struct fleet *f = run_fleet(p);

    return fleet_task(f, fleet_subject(f, "K2"), fleet_job(f, "j"));
}

static void
why_makes_the_plan_once(void **state)
{
    struct fault f;

    (void)state;
    write_fleet();
    struct run_context *p = begun(RUN_LATER, RUN_REASONS);
    struct snapshot *s = dues_of_task(p, task_of(p), 1, NULL, &f);
    assert_non_null(s);
    assert_made(1, 1, 1);
    snapshot_free(s);
    run_close(p);
}

/* The form asks which cycle it is, and the plan does not say that. */
static void
a_form_looks_at_its_task_alone(void **state)
{
    static const uint8_t bytes[FORM_SECRET] = {7};
    struct recorder r = recorder_of(bytes, bytes, "R. Teal", 0);
    struct buf *out = buf_new();
    char token[PAGE_TOKEN];
    char cycle[CYCLE_TEXT];
    char moment[32];
    struct fault f;
    size_t n;

    (void)state;
    write_fleet();
    struct run_context *p = begun(RUN_LATER, WRITES);
    r.page.made = run_moment(p).now;
    snprintf(moment, sizeof moment, "%lld", (long long)r.page.made);
    struct snapshot *s = dues_of_task(p, task_of(p), 0, NULL, &f);
    const struct due *due = snapshot_dues(s, &n);
    assert_int_equal(n, 1);
    r.page.token(&r.page, due, token);
    due_cycle_text(&due->cycle, cycle);
    snapshot_free(s);
    const struct field fields[] = {{"subject", "K2"}, {"job", "j"},
        {"cycle", cycle}, {"made", moment}, {"token", token}, {"on", "today"},
        {"initials", "rt"}, {"result", "completed"}, {NULL, NULL}};
    struct field without[COUNT(fields)];
    const struct record_form form = {value, fields, "/"};
    const struct record_form bare = {value, without, "/"};
    memcpy(without, fields, sizeof without);
    without[COUNT(fields) - 2].name = NULL;
    /* What nobody said is not taken for done. */
    assert_int_equal(run_again(p, RUN_LATER, NULL, &f), 0);
    assert_int_equal(record_form_take(&r, p, &bare, out, &f), FORM_REFUSED);
    assert_non_null(strstr(buf_str(out), "the result is missing"));
    assert_int_equal(run_again(p, RUN_LATER, NULL, &f), 0);
    memset(&made, 0, sizeof made);
    assert_int_equal(record_form_take(&r, p, &form, out, &f), FORM_RECORDED);
    assert_made(0, 1, 1);
    run_close(p);
    buf_free(out);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        TEST(a_night_makes_one_of_each),
        TEST(a_round_of_the_daemon_makes_one_of_each),
        TEST(why_makes_the_plan_once),
        TEST(a_form_looks_at_its_task_alone),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
