/* Cycles: their names, and the coming ones. */
#include "fixture.h"
#include "test.h"

static void
assert_cycle(int64_t record, const char *start, int ahead, const char *name)
{
    struct cycle c = {record, date(start), ahead};
    char text[CYCLE_TEXT];

    assert_string_equal(due_cycle_text(&c, text), name);
}

static void
names(void **state)
{
    (void)state;
    assert_cycle(42, "2026-03-14", 0, "r42");
    assert_cycle(42, "2026-03-14", 3, "r42+3");
    assert_cycle(0, "2026-03-14", 0, "d2026-03-14");
    assert_cycle(0, "2026-03-14", 1, "d2026-03-14+1");
    assert_cycle(0, "-", 0, "none");
    assert_cycle(0, "-", 12, "none+12");
    assert_cycle(
        INT64_MAX, "2199-12-31", INT32_MAX, "r9223372036854775807+2147483647");
}

static void
assert_named(struct world *w, struct job *j, const char *name)
{
    char text[CYCLE_TEXT];

    assert_string_equal(
        due_cycle_text(&world_due(w, j, "2026-01-01")->cycle, text), name);
}

/* What a cycle is named by, from nothing known to a record. */
static void
what_a_cycle_runs_from(void **state)
{
    struct world *w = *state;
    struct job *j = world_job(w, "job", "12 months");

    assert_named(w, j, "none");
    w->subjects[0].registered = date("2025-05-16");
    j->rule.first =
        (struct first){ORIGIN_REGISTERED, {1, STEP_YEARS}, DAY_NONE};
    assert_named(w, j, "d2025-05-16");
    j->rule.first =
        (struct first){.origin = ORIGIN_ON, .on = date("2026-07-01")};
    assert_named(w, j, "d2026-07-01");
    w->tasks[0].baseline.deadline = date("2026-06-01");
    assert_named(w, j, "d2026-06-01");
    w->tasks[0].baseline.last = date("2025-06-02");
    assert_named(w, j, "d2025-06-02");
    world_done(w, j, "2025-07-01");
    assert_named(w, j, "r1");
    world_done(w, j, "2025-12-01")->kind = RECORD_FAILED;
    assert_named(w, j, "r1");
    world_done(w, j, "2025-12-02");
    assert_named(w, j, "r3");
}

/* A moved deadline is still the same cycle. */
static void
a_moved_deadline_keeps_its_cycle(void **state)
{
    struct world *w = *state;
    struct job *j = world_job(w, "job", "12 months");

    world_done(w, j, "2025-07-01");
    world_off_road(w, "2026-06-01", "2026-08-01");
    assert_named(w, j, "r1");
}

/* Six weeks from each plan day: the Fridays of every sixth week. */
static void
coming_cycles(void **state)
{
    struct world *w = *state;
    struct job *j = world_job(w, "job", "6 weeks");
    const char *days[] = {
        "2026-02-13", "2026-03-27", "2026-05-08", "2026-06-19"};
    size_t n;

    world_done(w, j, "2026-01-03"); /* a Saturday: Sat 14 Feb, Fri the 13th */
    snapshot_dues(world_snapshot(w, "2026-01-05", "2026-06-19"), &n);
    assert_int_equal(n, 4);
    for (int ahead = 0; ahead < 4; ahead++) {
        const struct due *d = world_find(w, j, ahead);
        assert_non_null(d);
        assert_day(d->plan_day, days[ahead]);
        assert_day(d->last_done, "2026-01-03");
        assert_int_equal(d->cycle.record, 1);
        assert_reasoned(d);
    }
    assert_true(says(world_find(w, j, 1), "taken as done on its plan day"));
    /* The horizon is the last day that is looked at. */
    snapshot_dues(world_snapshot(w, "2026-01-05", "2026-06-18"), &n);
    assert_int_equal(n, 3);
    snapshot_dues(world_snapshot(w, "2026-01-05", "-"), &n);
    assert_int_equal(n, 1);
}

/* What cannot be planned has no next cycle. */
static void
nothing_comes_of_no_record(void **state)
{
    struct world *w = *state;
    struct job *j = world_job(w, "job", "6 weeks");
    size_t n;

    snapshot_dues(world_snapshot(w, "2026-01-05", "2027-01-01"), &n);
    assert_int_equal(n, 1);
    world_done(w, j, "2026-01-03");
    world_off_road(w, "2026-02-01", "-");
    snapshot_dues(world_snapshot(w, "2026-01-05", "2027-01-01"), &n);
    assert_int_equal(world_find(w, j, 0)->state, DUE_BEFORE_RETURN);
}

/* A day a cycle for two hundred years would never end. */
static void
a_far_horizon_ends(void **state)
{
    struct world *w = *state;
    struct job *j = world_job(w, "job", "1 day");
    size_t n;

    world_calendar(w, &(struct work_calendar_plan){.works = WEEKDAYS_ALL});
    world_done(w, j, "2026-01-03");
    snapshot_dues(world_snapshot(w, "2026-01-05", "2199-12-31"), &n);
    assert_true(n > 365 && n < 2000);
}

/* Every day but the depot works on weekdays: Saturday's work could only be
 * planned for Friday, which has had its turn.  It has no plan day, and what
 * comes after it comes all the same: Monday to Friday of each week. */
static void
a_cycle_without_a_plan_day_is_not_the_last(void **state)
{
    struct world *w = *state;
    struct job *j = world_job(w, "job", "1 day");
    size_t n;

    world_done(w, j, "2026-01-08"); /* Thursday: Friday the 9th */
    snapshot_dues(world_snapshot(w, "2026-01-08", "2026-01-16"), &n);
    assert_int_equal(n, 8); /* 9 to 16 January */
    assert_day(world_find(w, j, 0)->plan_day, "2026-01-09");
    assert_day(world_find(w, j, 1)->plan_day, "-");
    assert_day(world_find(w, j, 1)->deadline, "2026-01-10");
    assert_day(world_find(w, j, 3)->plan_day, "2026-01-12");
    assert_day(world_find(w, j, 7)->plan_day, "2026-01-16");
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        WORLD_TEST(names),
        WORLD_TEST(what_a_cycle_runs_from),
        WORLD_TEST(a_moved_deadline_keeps_its_cycle),
        WORLD_TEST(coming_cycles),
        WORLD_TEST(nothing_comes_of_no_record),
        WORLD_TEST(a_far_horizon_ends),
        WORLD_TEST(a_cycle_without_a_plan_day_is_not_the_last),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
