/* A follow-on: a record of one job makes another due once. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include <cmocka.h>

#include "fixture.h"

/* A torque check within a week of any work on the wheels. */
struct pair {
    struct job *wheels;
    struct job *torque;
};

static struct pair
torque(struct world *w)
{
    struct pair p = {world_loose_job(w, "wheels", "when needed"),
        world_job(w, "torque", "7 days")};
    const struct job **list = arena_take(w->arena, sizeof *list);

    assert_non_null(list);
    list[0] = p.wheels;
    p.torque->follows = list;
    p.torque->n_follows = 1;
    return p;
}

static void
nothing_has_called_for_it(void **state)
{
    struct world *w = *state;
    struct pair p = torque(w);

    assert_null(world_due(w, p.torque, "2026-01-01"));
    world_done(w, p.wheels, "2026-01-05")->kind = RECORD_FAILED;
    assert_null(world_due(w, p.torque, "2026-01-01"));
}

static void
it_runs_from_what_called_for_it(void **state)
{
    struct world *w = *state;
    struct pair p = torque(w);

    world_done(w, p.wheels, "2026-01-05");
    assert_deadline(w, p.torque, "2026-01-12");
    const struct due *d = world_find(w, p.torque, 0);
    assert_int_equal(d->cycle.record, 1);
    assert_day(d->last_done, "-");
    assert_true(says(d, "with: wheels"));
}

/* The newest counts, whichever was entered first. */
static void
the_newest_wheel_work_counts(void **state)
{
    struct world *w = *state;
    struct pair p = torque(w);

    world_done(w, p.wheels, "2026-01-10");
    world_done(w, p.wheels, "2026-01-05");
    assert_deadline(w, p.torque, "2026-01-17");
}

static void
done_it_is_due_no_more(void **state)
{
    struct world *w = *state;
    struct pair p = torque(w);

    world_done(w, p.wheels, "2026-01-05");
    world_done(w, p.torque, "2026-01-06");
    assert_null(world_due(w, p.torque, "2026-01-07"));
    world_done(w, p.wheels, "2026-02-02");
    assert_deadline(w, p.torque, "2026-02-09");
    assert_day(world_find(w, p.torque, 0)->last_done, "2026-01-06");
}

/* Of the same day the order of entry decides. */
static void
both_on_one_day(void **state)
{
    struct world *w = *state;
    struct pair p = torque(w);

    world_done(w, p.torque, "2026-01-05");
    world_done(w, p.wheels, "2026-01-05");
    assert_deadline(w, p.torque, "2026-01-12");
    world_done(w, p.torque, "2026-01-05");
    assert_null(world_due(w, p.torque, "2026-01-07"));
}

static void
a_failed_check_leaves_it_due(void **state)
{
    struct world *w = *state;
    struct pair p = torque(w);

    world_done(w, p.wheels, "2026-01-05");
    world_done(w, p.torque, "2026-01-06")->kind = RECORD_FAILED;
    assert_deadline(w, p.torque, "2026-01-12");
}

/* The file's own completion is older than any record of the same day. */
static void
done_before_by_the_file(void **state)
{
    struct world *w = *state;
    struct pair p = torque(w);

    w->tasks[0].baseline.last = date("2026-01-05");
    world_done(w, p.wheels, "2026-01-05");
    assert_deadline(w, p.torque, "2026-01-12");
    w->tasks[0].baseline.last = date("2026-01-06");
    assert_null(world_due(w, p.torque, "2026-01-07"));
}

/* A job that covers the wheel work calls for it as well. */
static void
wider_work_calls_for_it(void **state)
{
    struct world *w = *state;
    struct pair p = torque(w);
    struct job *brakes = world_loose_job(w, "brakes", "when needed");
    const struct job *covered[] = {p.wheels};

    brakes->covers = covered;
    brakes->n_covers = 1;
    world_done(w, brakes, "2026-01-05");
    assert_deadline(w, p.torque, "2026-01-12");
}

/* It happens once: no cycle comes after it. */
static void
nothing_is_projected(void **state)
{
    struct world *w = *state;
    struct pair p = torque(w);
    size_t n;

    world_done(w, p.wheels, "2026-01-05");
    snapshot_dues(world_snapshot(w, "2026-01-06", "2027-01-01"), &n);
    assert_int_equal(n, 1);
}

/* Within 7 days or 80 km: the meter began at 41000, 20 km a day. */
static void
by_distance_too(void **state)
{
    struct world *w = *state;
    struct pair p = torque(w);

    world_every(w, &p.torque->rule, "7 days or 80 km");
    p.torque->rule.forecast = FORECAST_LIKELY;
    world_reading(w, "2025-12-01", 40300);
    world_reading(w, "2025-12-31", 40900);
    struct record *k = world_done(w, p.wheels, "2026-01-05");
    k->reading = 41000;
    k->meter = METER_DISTANCE;
    assert_deadline(w, p.torque, "2026-01-09");
    assert_int_equal(world_find(w, p.torque, 0)->due_reading, 41080);
}

/* Work that is done when needed is itself never due. */
static void
when_needed_is_never_due(void **state)
{
    struct world *w = *state;
    struct job *j = world_job(w, "puncture", "when needed");

    assert_null(world_due(w, j, "2026-01-01"));
    world_done(w, j, "2025-12-01");
    assert_null(world_due(w, j, "2026-01-01"));
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        WORLD_TEST(nothing_has_called_for_it),
        WORLD_TEST(it_runs_from_what_called_for_it),
        WORLD_TEST(the_newest_wheel_work_counts),
        WORLD_TEST(done_it_is_due_no_more),
        WORLD_TEST(both_on_one_day),
        WORLD_TEST(a_failed_check_leaves_it_due),
        WORLD_TEST(done_before_by_the_file),
        WORLD_TEST(wider_work_calls_for_it),
        WORLD_TEST(nothing_is_projected),
        WORLD_TEST(by_distance_too),
        WORLD_TEST(when_needed_is_never_due),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
