/* What comes after what: as the snapshot projects it, whatever was asked
 * before, and the first day on which work counts. */
#include "fixture.h"
#include "forward.h"
#include "random_run.h"
#include "select.h"
#include "test.h"

#define AHEAD 6

/* The days on which the snapshot takes the cycles as done, and its dues. */
static int
project(struct world *w, day_t *days, struct due *dues)
{
    int n = 0;

    world_snapshot_to(w, day_of(2026, 1, 1), day_of(2036, 1, 1));
    for (; n < AHEAD; n++) {
        const struct due *d = world_find(w, &w->jobs[0], n);
        if (d == NULL || select_day(d) == DAY_NONE)
            break;
        dues[n] = *d;
        days[n] = select_day(d);
    }
    return n;
}

static void
check_projection(const struct run *run, struct world *w, int number)
{
    day_t days[AHEAD];
    struct due dues[AHEAD];
    struct forward_call call;
    int n = project(w, days, dues);
    struct forward *f = forward_new(&w->facts);

    (void)run;
    (void)number;
    assert_non_null(f);
    for (int k = 0; k < n; k++) {
        assert_int_equal(forward_call(f, 0, days, (size_t)k, &call), 1);
        assert_int_equal(call.deadline, dues[k].deadline);
        assert_int_equal(call.no_return, dues[k].no_return);
    }
    forward_free(f);
}

static void
as_the_snapshot_projects(void **state)
{
    for_tasks(*state, 5, check_projection);
}

/* Days by chance, each after the one before. */
static size_t
chance_days(struct chance *c, day_t *days)
{
    size_t n = (size_t)chance_from(c, 0, AHEAD);
    day_t d = day_of(2027, 12, 31); /* after every record */

    for (size_t i = 0; i < n; i++)
        days[i] = d += chance_from(c, 1, 3) * 40;
    return n;
}

static void
check_memory(const struct run *run, struct world *w, int number)
{
    struct chance c = chance_of(run->seed, 500000 + (uint64_t)number);

    world_group(w);
    struct forward *used = forward_new(&w->facts);
    for (int i = 0; i < 8; i++) {
        struct forward *fresh = forward_new(&w->facts);
        struct forward_call a = {0};
        struct forward_call b = {0};
        day_t days[AHEAD];
        size_t n = chance_days(&c, days);
        assert_non_null(fresh);
        int rc = forward_call(fresh, 0, days, n, &a);
        assert_int_equal(forward_call(used, 0, days, n, &b), rc);
        if (rc == 1) {
            assert_int_equal(a.deadline, b.deadline);
            assert_int_equal(a.from, b.from);
        }
        forward_free(fresh);
    }
    forward_free(used);
}

static void
whatever_was_asked_before(void **state)
{
    for_tasks(*state, 5, check_memory);
}

/* What the planner builds on: doing work earlier never moves the next deadline
 * later.  Left out are a meter's forecasts and spells off the road, which are
 * facts of single days, and the nearest working day, which moves a Monday on
 * and a Tuesday back; and what no fleet file may say, a date kept without a
 * window. */
static void
check_earlier(const struct run *run, struct world *w, int number)
{
    (void)run;
    (void)number;
    for (int i = 0; i < w->jobs[0].rule.n_every; i++)
        if (kind_meter(&w->jobs[0].rule.every[i]) != METER_NONE)
            return;
    if (w->jobs[0].rule.roll == ROLL_NEAREST ||
        (w->jobs[0].rule.runs_from == KEEPS_DATE &&
            w->jobs[0].rule.window.n == 0))
        return;
    w->n_records = 0;
    world_group(w);
    struct forward *f = forward_new(&w->facts);
    struct forward_call now;
    struct forward_call early;
    struct forward_call late;
    assert_non_null(f);
    if (forward_call(f, 0, NULL, 0, &now) == 1 && now.deadline != DAY_NONE &&
        now.deadline < day_of(2060, 1, 1))
        for (day_t d = now.from; d < now.deadline; d++) {
            day_t after = d + 1;
            int a = forward_call(f, 0, &d, 1, &early);
            int b = forward_call(f, 0, &after, 1, &late);
            if (a == 1 && b == 1)
                assert_true(early.deadline <= late.deadline);
        }
    forward_free(f);
}

static void
earlier_is_never_later(void **state)
{
    for_tasks(*state, 5, check_earlier);
}

/* The first day for K7's only job, last done on @last. */
static void
assert_from(struct world *w, struct job *j, const char *last,
    const char *deadline, const char *from)
{
    struct forward_call call;

    w->n_records = 0;
    world_done(w, j, last);
    world_group(w);
    struct forward *f = forward_new(&w->facts);
    assert_non_null(f);
    assert_int_equal(forward_call(f, 0, NULL, 0, &call), 1);
    assert_day(call.deadline, deadline);
    assert_day(call.from, from);
    forward_free(f);
}

static void
a_sixth_of_the_interval(void **state)
{
    struct world *w = *state;
    struct job *j = world_job(w, "check", "12 weeks");

    /* 84 days: 14. */
    assert_from(w, j, "2026-03-02", "2026-05-25", "2026-05-11");
    world_every(w, &j->rule, "10 days"); /* 1, so 3 */
    assert_from(w, j, "2026-03-02", "2026-03-12", "2026-03-09");
    world_every(w, &j->rule, "2 years"); /* 121, so 28 */
    assert_from(w, j, "2026-03-02", "2028-03-02", "2028-02-03");
    world_every(w, &j->rule, "2 days"); /* never on the day it was done */
    assert_from(w, j, "2026-03-02", "2026-03-04", "2026-03-03");
}

static void
as_stated(void **state)
{
    struct world *w = *state;
    struct job *j = world_job(w, "check", "12 weeks");

    j->rule.early = (struct span){1, STEP_MONTHS};
    assert_from(w, j, "2026-03-02", "2026-05-25", "2026-04-25");
}

static void
a_window(void **state)
{
    struct world *w = *state;
    struct job *j = world_job(w, "check", "12 months");

    j->rule.ends = ENDS_DAY_BEFORE;
    j->rule.runs_from = KEEPS_DATE;
    j->rule.window = (struct span){1, STEP_MONTHS};
    /* Runs out on 14 May: the window opens on 15 April. */
    assert_from(w, j, "2026-05-15", "2027-05-14", "2027-04-15");
}

/* Without a window, half way from one deadline to the next; of 15 December to
 * 15 December 365 days, rounded up. */
static void
a_rhythm(void **state)
{
    struct world *w = *state;
    struct job *j = world_job(w, "check", "yearly on 15 dec");

    assert_from(w, j, "2026-12-15", "2027-12-15", "2027-06-16");
    j->rule.early = (struct span){2, STEP_WEEKS};
    assert_from(w, j, "2026-12-15", "2027-12-15", "2027-12-01");
    j->rule.early = (struct span){10, STEP_MONTHS}; /* would not count */
    assert_from(w, j, "2026-12-15", "2027-12-15", "2027-06-16");
}

static void
the_road(void **state)
{
    struct world *w = *state;
    struct job *j = world_job(w, "check", "12 weeks");
    struct forward_call call;

    world_done(w, j, "2026-03-02"); /* due on 25 May */
    world_off_road(w, "2026-05-20", "2026-06-05");
    world_group(w);
    struct forward *f = forward_new(&w->facts);
    assert_int_equal(forward_call(f, 0, NULL, 0, &call), 1);
    assert_int_equal(call.state, DUE_BEFORE_RETURN);
    assert_day(call.deadline, "2026-06-05");
    assert_day(call.from, "2026-05-11");
    assert_false(forward_is_off_road(f, 0, date("2026-05-19")));
    assert_true(forward_is_off_road(f, 0, date("2026-05-20")));
    assert_true(forward_is_off_road(f, 0, date("2026-06-05")));
    assert_false(forward_is_off_road(f, 0, date("2026-06-06")));
    forward_free(f);
}

static void
none_to_call_for(void **state)
{
    struct world *w = *state;
    struct job *needed = world_job(w, "needed", "when needed");
    struct job *follows = world_job(w, "follows", "5 days");
    const struct job *of[] = {needed};
    struct forward_call call;
    day_t done = date("2026-03-04");

    follows->follows = of;
    follows->n_follows = 1;
    world_group(w);
    struct forward *f = forward_new(&w->facts);
    assert_int_equal(forward_call(f, 0, NULL, 0, &call), 0);
    assert_int_equal(forward_call(f, 1, NULL, 0, &call), 0);
    forward_free(f);
    world_done(w, needed, "2026-03-02");
    world_group(w);
    f = forward_new(&w->facts);
    assert_int_equal(forward_call(f, 1, NULL, 0, &call), 1);
    assert_day(call.deadline, "2026-03-07");
    assert_int_equal(forward_call(f, 1, &done, 1, &call), 0);
    forward_free(f);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        PROPERTY(as_the_snapshot_projects),
        PROPERTY(whatever_was_asked_before),
        PROPERTY(earlier_is_never_later),
        WORLD_TEST(a_sixth_of_the_interval),
        WORLD_TEST(as_stated),
        WORLD_TEST(a_window),
        WORLD_TEST(a_rhythm),
        WORLD_TEST(the_road),
        WORLD_TEST(none_to_call_for),
    };

    return cmocka_run_group_tests(tests, run_setup, run_teardown);
}
