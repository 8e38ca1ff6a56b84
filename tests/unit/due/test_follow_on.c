/* A follow-on: a record of one job makes another due once. */
#include "chance.h"
#include "fixture.h"
#include "test.h"

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

/* Each call is one of its own: the oldest that is open is due first, whichever
 * was entered first, and no other takes its place. */
static void
the_oldest_open_call_is_due(void **state)
{
    struct world *w = *state;
    struct pair p = torque(w);

    world_done(w, p.wheels, "2026-01-10");
    world_done(w, p.wheels, "2026-01-05");
    assert_deadline(w, p.torque, "2026-01-12");
    const struct due *d = world_due(w, p.torque, "2026-01-13");
    assert_int_equal(d->state, DUE_OVERDUE);
    assert_int_equal(d->cycle.record, 2);
    world_done(w, p.wheels, "2026-01-14");
    d = world_due(w, p.torque, "2026-01-14");
    assert_int_equal(d->state, DUE_OVERDUE);
    assert_day(d->deadline, "2026-01-12");
    assert_int_equal(d->cycle.record, 2);
}

/* 5, 10 and 14 January, each and 7 days. */
static void
the_reasons_name_the_others(void **state)
{
    struct world *w = *state;
    struct pair p = torque(w);

    world_done(w, p.wheels, "2026-01-05");
    assert_false(says(world_due(w, p.torque, "2026-01-05"), "called for"));
    world_done(w, p.wheels, "2026-01-10");
    world_done(w, p.wheels, "2026-01-14");
    const struct due *d = world_due(w, p.torque, "2026-01-14");
    assert_true(says(d, "called for 3 times and not done since"));
    assert_false(says(d, "(record 1), by"));
    assert_true(says(
        d, "after wheels of Sat 2026-01-10 (record 2), by Sat 2026-01-17"));
    assert_true(says(
        d, "after wheels of Wed 2026-01-14 (record 3), by Wed 2026-01-21"));
    assert_reasoned(d);
}

/* Done once, it answers all calls up to that day and none after it. */
static void
it_answers_all_calls_before_it(void **state)
{
    struct world *w = *state;
    struct pair p = torque(w);

    world_done(w, p.wheels, "2026-01-05");
    world_done(w, p.wheels, "2026-01-10");
    world_done(w, p.wheels, "2026-01-14");
    world_done(w, p.torque, "2026-01-12");
    assert_deadline(w, p.torque, "2026-01-21");
    const struct due *d = world_due(w, p.torque, "2026-01-15");
    assert_int_equal(d->cycle.record, 3);
    assert_false(says(d, "open as well"));
    world_done(w, p.torque, "2026-01-14");
    assert_null(world_due(w, p.torque, "2026-01-15"));
}

/* A check before the wheel was off has checked nothing. */
static void
work_before_the_call_answers_nothing(void **state)
{
    struct world *w = *state;
    struct pair p = torque(w);

    world_done(w, p.torque, "2026-01-04");
    world_done(w, p.wheels, "2026-01-05");
    world_done(w, p.torque, "2026-01-03");
    assert_deadline(w, p.torque, "2026-01-12");
}

/* Of two that are due on one day, the one entered first. */
static void
two_calls_of_one_day(void **state)
{
    struct world *w = *state;
    struct pair p = torque(w);

    world_done(w, p.wheels, "2026-01-05");
    world_done(w, p.wheels, "2026-01-05");
    assert_deadline(w, p.torque, "2026-01-12");
    assert_int_equal(world_find(w, p.torque, 0)->cycle.record, 1);
}

/* What only counts towards a number of it is not the check itself. */
static void
what_also_counts_answers_nothing(void **state)
{
    struct world *w = *state;
    struct pair p = torque(w);
    struct job *other = world_loose_job(w, "inspection", "12 months");

    p.torque->also_counts = (struct also_counts){other, 1};
    world_done(w, p.wheels, "2026-01-05");
    world_done(w, other, "2026-01-06");
    assert_deadline(w, p.torque, "2026-01-12");
}

/* Voided, the call is gone, and the next is due: here by leaving it out. */
static void
a_voided_call_is_open_no_more(void **state)
{
    struct world *w = *state;
    struct pair p = torque(w);

    world_done(w, p.wheels, "2026-01-05");
    world_done(w, p.wheels, "2026-01-10");
    w->records[0] = w->records[1];
    w->n_records = 1;
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

/* The file says that the wheels were off, and the ledger that the torque was
 * checked, on one day: which came first nobody can tell, and so it is open. */
static void
what_the_file_and_a_record_say_of_one_day(void **state)
{
    struct world *w = *state;
    struct pair p = torque(w);

    struct task *wheels = world_task(w, &w->subjects[0], p.wheels);
    wheels->baseline.last = date("2026-01-05");
    world_done(w, p.torque, "2026-01-05");
    assert_deadline(w, p.torque, "2026-01-12");
    world_done(w, p.torque, "2026-01-06");
    assert_null(world_due(w, p.torque, "2026-01-07"));
}

/* A job that covers both calls for the check that it cannot have come after. */
static void
one_record_cannot_answer_itself(void **state)
{
    struct world *w = *state;
    struct pair p = torque(w);
    struct job *axle = world_loose_job(w, "axle", "when needed");
    const struct job *covered[] = {p.wheels, p.torque};

    axle->covers = covered;
    axle->n_covers = 2;
    world_done(w, axle, "2026-01-05");
    assert_deadline(w, p.torque, "2026-01-12");
    world_done(w, axle, "2026-01-10"); /* answers the first, and calls */
    assert_deadline(w, p.torque, "2026-01-17");
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

/* 7 days or 80 km.  Of the 1st no reading is known, so the 8th; but of the 3rd,
 * at 41000, and on the 4th the meter shows that the 80 km are over. */
static void
the_meter_counts_for_each_call(void **state)
{
    struct world *w = *state;
    struct pair p = torque(w);

    world_every(w, &p.torque->rule, "7 days or 80 km");
    world_done(w, p.wheels, "2026-01-01");
    assert_deadline(w, p.torque, "2026-01-08");
    struct record *second = world_done(w, p.wheels, "2026-01-03");
    second->meter = METER_DISTANCE;
    second->reading = 41000;
    world_reading(w, "2026-01-04", 41090);
    assert_deadline(w, p.torque, "2026-01-04");
    assert_true(says(world_find(w, p.torque, 0), "called for 2 times"));
}

/* By kilometres alone, and no reading to go by for either: it needs one. */
static void
a_call_that_none_can_date_is_said(void **state)
{
    struct world *w = *state;
    struct pair p = torque(w);

    world_every(w, &p.torque->rule, "80 km");
    world_done(w, p.wheels, "2026-01-01");
    world_done(w, p.wheels, "2026-01-03");
    const struct due *d = world_due(w, p.torque, "2026-01-04");
    assert_int_equal(d->state, DUE_NEEDS_READING);
    assert_int_equal(d->cycle.record, 1);
    assert_true(says(d, "(record 2), by a day that none can tell"));
}

#define FROM "2025-12-01"

static void
something_happens(struct world *w, struct chance *c, const struct pair *p)
{
    const struct job *j = one_in(c, 4) ? p->torque : p->wheels;

    world_done(w, j, FROM)->day += chance_from(c, 0, 20);
}

/* Whether the torque was checked after the record at @i, by the meaning of the
 * words alone. */
static int
was_checked(const struct world *w, size_t i, const struct pair *p)
{
    const struct record *call = &w->records[i];

    for (size_t k = 0; k < w->n_records; k++) {
        const struct record *r = &w->records[k];
        if (r->job == p->torque &&
            (r->day > call->day || (r->day == call->day && r->id > call->id)))
            return 1;
    }
    return 0;
}

static day_t
oldest_unchecked(const struct world *w, const struct pair *p)
{
    day_t oldest = DAY_NONE;

    for (size_t i = 0; i < w->n_records; i++)
        if (w->records[i].job == p->wheels && !was_checked(w, i, p))
            oldest = day_earlier(oldest, w->records[i].day);
    return oldest;
}

/* Whatever is recorded, in whatever order: no call that was not answered is
 * lost, and no other call makes it due later. */
static void
no_open_call_is_lost(void **state)
{
    struct chance c = chance_of(14, 1);
    int open = 0;

    (void)state;
    for (int n = 0; n < 300; n++) {
        struct world *w = world_new();
        struct pair p = torque(w);
        day_t before = DAY_NONE;
        for (int k = chance_from(&c, 1, 12); k > 0; k--) {
            something_happens(w, &c, &p);
            int called = w->records[w->n_records - 1].job == p.wheels;
            day_t oldest = oldest_unchecked(w, &p);
            const struct due *d = world_due(w, p.torque, "2026-01-01");
            assert_int_equal(d != NULL, oldest != DAY_NONE);
            if (d != NULL)
                assert_int_equal(d->deadline, oldest + 7);
            if (called && before != DAY_NONE)
                assert_true(d->deadline <= before);
            before = d != NULL ? d->deadline : DAY_NONE;
            open += d != NULL;
        }
        world_free(w);
    }
    assert_true(open > 500);
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
        WORLD_TEST(the_oldest_open_call_is_due),
        WORLD_TEST(the_reasons_name_the_others),
        WORLD_TEST(it_answers_all_calls_before_it),
        WORLD_TEST(work_before_the_call_answers_nothing),
        WORLD_TEST(two_calls_of_one_day),
        WORLD_TEST(what_also_counts_answers_nothing),
        WORLD_TEST(a_voided_call_is_open_no_more),
        WORLD_TEST(what_the_file_and_a_record_say_of_one_day),
        WORLD_TEST(one_record_cannot_answer_itself),
        WORLD_TEST(the_meter_counts_for_each_call),
        WORLD_TEST(a_call_that_none_can_date_is_said),
        WORLD_TEST(done_it_is_due_no_more),
        WORLD_TEST(both_on_one_day),
        WORLD_TEST(a_failed_check_leaves_it_due),
        WORLD_TEST(done_before_by_the_file),
        WORLD_TEST(wider_work_calls_for_it),
        WORLD_TEST(nothing_is_projected),
        WORLD_TEST(by_distance_too),
        cmocka_unit_test(no_open_call_is_lost),
        WORLD_TEST(when_needed_is_never_due),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
