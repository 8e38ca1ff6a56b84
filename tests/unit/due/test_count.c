/* So many within a length of time: four brake tests in any twelve months. */
#include "fixture.h"
#include "test.h"

static struct job *
brake_test(struct world *w)
{
    return world_job(w, "brake-test", "4 within 12 months");
}

static void
the_first_is_as_for_any_job(void **state)
{
    struct world *w = *state;
    struct job *j = brake_test(w);

    assert_int_equal(world_due(w, j, "2026-01-01")->state, DUE_NO_RECORD);
    w->subjects[0].in_service = date("2026-01-10");
    j->rule.first =
        (struct first){ORIGIN_IN_SERVICE, {3, STEP_MONTHS}, DAY_NONE};
    assert_deadline(w, j, "2026-04-10");
}

/* A quarter of twelve months, until there are four. */
static void
too_few_are_spread_evenly(void **state)
{
    struct world *w = *state;
    struct job *j = brake_test(w);

    world_done(w, j, "2025-12-10");
    assert_deadline(w, j, "2026-03-10");
    assert_true(says(world_find(w, j, 0), "only 1 on record"));
    world_done(w, j, "2025-12-20");
    world_done(w, j, "2026-01-31");
    assert_deadline(w, j, "2026-04-30");
    assert_true(says(world_find(w, j, 0), "only 3 on record"));
}

static void
the_fourth_last_decides(void **state)
{
    struct world *w = *state;
    struct job *j = brake_test(w);

    world_done(w, j, "2025-02-10");
    world_done(w, j, "2025-04-10");
    world_done(w, j, "2025-07-10");
    world_done(w, j, "2025-10-10");
    assert_deadline(w, j, "2026-02-10");
    assert_true(
        says(world_find(w, j, 0), "the one of Mon 2025-02-10 is the 4th last"));
    world_done(w, j, "2026-02-09");
    assert_deadline(w, j, "2026-04-10");
}

/* 3 own and 1 annual test; of a second annual test nothing is counted. */
static void
another_job_counts_so_many_times(void **state)
{
    struct world *w = *state;
    struct job *annual = world_loose_job(w, "annual-test", "12 months");
    struct job *j = brake_test(w);

    j->also_counts = (struct also_counts){annual, 1};
    world_done(w, annual, "2025-02-10");
    world_done(w, j, "2025-04-10");
    world_done(w, j, "2025-07-10");
    world_done(w, j, "2025-10-10");
    assert_deadline(w, j, "2026-02-10");
    struct record *k = world_done(w, annual, "2025-03-01");
    assert_deadline(w, j, "2026-03-01"); /* the newer of the two counts */
    k->day = date("2025-12-01");         /* and the fourth is of 10 April */
    assert_deadline(w, j, "2026-04-10");
    const struct due *d = world_find(w, j, 0);
    assert_int_equal(d->cycle.record, 5);
    assert_day(d->last_done, "2025-10-10");
    assert_true(says(d, "with: annual-test"));
    /* With two of them there are but three that count. */
    w->records[1].job = annual;
    k->day = date("2025-05-01");
    assert_deadline(w, j, "2026-01-10");
    j->also_counts.most = 2;
    assert_deadline(w, j, "2026-04-10");
}

static void
a_failed_one_does_not_count(void **state)
{
    struct world *w = *state;
    struct job *j = brake_test(w);

    world_done(w, j, "2025-10-10");
    world_done(w, j, "2025-12-10")->kind = RECORD_FAILED;
    assert_deadline(w, j, "2026-01-10");
}

static void
assert_share(struct world *w, const char *every, const char *deadline)
{
    struct job *j = &w->jobs[0];

    world_every(w, &j->rule, every);
    assert_deadline(w, j, deadline);
}

/* The file's own completion and a record of its day are one. */
static void
the_files_completion_counts_once(void **state)
{
    struct world *w = *state;
    struct job *j = brake_test(w);

    w->tasks[0].baseline.last = date("2025-07-10");
    world_done(w, j, "2025-07-10");
    world_done(w, j, "2025-10-10");
    world_done(w, j, "2025-12-10");
    assert_deadline(w, j, "2026-03-10"); /* three, so a quarter of a year */
    w->tasks[0].baseline.last = date("2025-07-09");
    assert_deadline(w, j, "2026-07-09"); /* four */
}

/* A length that does not divide is cut into days, a month being 28 of them,
 * and rounded down: 12 * 28 / 5 is 67, 365 / 4 is 91, 70 / 3 is 23. */
static void
shares_err_early(void **state)
{
    struct world *w = *state;

    world_done(w, brake_test(w), "2026-01-01");
    assert_share(w, "5 within 12 months", "2026-03-09");
    assert_share(w, "4 within 1 year", "2026-04-02");
    assert_share(w, "3 within 10 weeks", "2026-01-24");
    assert_share(w, "2 within 4 years", "2028-01-01");
    assert_share(w, "7 within 30 days", "2026-01-05");
    assert_share(w, "400 within 1 week", "2026-01-02");
}

/* 15 months between the first and the last: the rule is broken already, and
 * that is said by a deadline that has passed. */
static void
too_thinly_spread_is_overdue_at_once(void **state)
{
    struct world *w = *state;
    struct job *j = brake_test(w);

    world_done(w, j, "2024-10-01");
    world_done(w, j, "2025-03-01");
    world_done(w, j, "2025-08-01");
    world_done(w, j, "2026-01-01");
    const struct due *d = world_due(w, j, "2026-01-02");
    assert_int_equal(d->state, DUE_OVERDUE);
    assert_day(d->deadline, "2025-10-01");
    assert_day(d->plan_day, "-");
    assert_true(d->warnings & WARN_NO_WORKING_DAY);
}

/* The same test entered twice, and once more with a wider job of that day, is
 * three on three days: a quarter of a year after the last, 10 October. */
static void
one_day_counts_once(void **state)
{
    struct world *w = *state;
    struct job *wider = world_loose_job(w, "inspection", "12 months");
    struct job *j = brake_test(w);
    const struct job *covered[] = {j};

    wider->covers = covered;
    wider->n_covers = 1;
    world_done(w, j, "2025-04-10");
    world_done(w, j, "2025-04-10");
    world_done(w, wider, "2025-04-10");
    world_done(w, j, "2025-07-10");
    world_done(w, j, "2025-10-10");
    assert_deadline(w, j, "2026-01-10");
    assert_true(says(world_find(w, j, 0), "only 3 on record"));
    world_done(w, j, "2025-10-10"); /* nor does the newest */
    assert_deadline(w, j, "2026-01-10");
    world_done(w, j, "2025-02-10");
    assert_deadline(w, j, "2026-02-10"); /* the fourth day, a year on */
}

/* A day of both jobs is one of the job itself, and so leaves the annual test
 * of another day to be counted: 1 Feb, 10 Apr, 10 Jul, 10 Oct. */
static void
a_day_of_both_is_one(void **state)
{
    struct world *w = *state;
    struct job *annual = world_loose_job(w, "annual-test", "12 months");
    struct job *j = brake_test(w);

    j->also_counts = (struct also_counts){annual, 1};
    world_done(w, annual, "2025-02-01");
    world_done(w, j, "2025-04-10");
    world_done(w, j, "2025-07-10");
    world_done(w, j, "2025-10-10");
    assert_deadline(w, j, "2026-02-01");
    world_done(w, annual, "2025-10-10");
    assert_deadline(w, j, "2026-02-01");
    /* Two annual tests of one day are one of those that also count. */
    world_done(w, annual, "2025-02-01");
    assert_deadline(w, j, "2026-02-01");
}

/* Four in one month: the year that these would last is cut to four months. */
static void
not_too_far_apart(void **state)
{
    struct world *w = *state;
    struct job *j = world_job(w, "brake-test", "4 within 12 months");

    world_done(w, j, "2025-12-01");
    world_done(w, j, "2025-12-08");
    world_done(w, j, "2025-12-15");
    world_done(w, j, "2025-12-22");
    assert_deadline(w, j, "2026-12-01");
    world_every(w, &j->rule, "4 within 12 months, apart 4 months");
    assert_deadline(w, j, "2026-04-22");
    assert_true(says(world_find(w, j, 0),
        "no more than 4 months apart, and the last was on Mon 2025-12-22"));
}

/* The earlier of the two: of 10 Feb, 10 Apr, 10 Jul and 10 Oct the first is a
 * year old on 10 Feb, as the last is four months; with 1 Feb it is earlier.
 * With three alone, a quarter of a year. */
static void
the_earlier_of_number_and_gap(void **state)
{
    struct world *w = *state;
    struct job *j =
        world_job(w, "brake-test", "4 within 12 months, apart 4 months");

    world_done(w, j, "2025-04-10");
    world_done(w, j, "2025-07-10");
    world_done(w, j, "2025-10-10");
    assert_deadline(w, j, "2026-01-10");
    world_done(w, j, "2025-02-01");
    assert_deadline(w, j, "2026-02-01");
    assert_false(says(world_find(w, j, 0), "no more than"));
    w->records[3].day = date("2025-03-01");
    assert_deadline(w, j, "2026-02-10");
}

/* The most there may be is counted to the day, whatever the kind of end and of
 * month: by number to 31 January 2026, but four months from 28 February are 28
 * June. */
static void
the_gap_is_to_the_day(void **state)
{
    struct world *w = *state;
    struct job *j =
        world_job(w, "brake-test", "2 within 12 months, apart 4 months");

    j->rule.ends = ENDS_MONTH_END;
    j->rule.month_end = MONTH_END_STICKY;
    world_done(w, j, "2025-01-05");
    world_done(w, j, "2025-02-28");
    assert_deadline(w, j, "2025-06-28");
}

/* The annual test that counts begins the four months as well. */
static void
the_gap_runs_from_what_counts(void **state)
{
    struct world *w = *state;
    struct job *annual = world_loose_job(w, "annual-test", "12 months");
    struct job *j =
        world_job(w, "brake-test", "3 within 12 months, apart 4 months");

    j->also_counts = (struct also_counts){annual, 1};
    world_done(w, j, "2025-09-01");
    world_done(w, j, "2025-10-01");
    world_done(w, annual, "2025-12-01");
    assert_deadline(w, j, "2026-04-01");
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        WORLD_TEST(the_first_is_as_for_any_job),
        WORLD_TEST(too_few_are_spread_evenly),
        WORLD_TEST(the_fourth_last_decides),
        WORLD_TEST(another_job_counts_so_many_times),
        WORLD_TEST(a_failed_one_does_not_count),
        WORLD_TEST(shares_err_early),
        WORLD_TEST(too_thinly_spread_is_overdue_at_once),
        WORLD_TEST(the_files_completion_counts_once),
        WORLD_TEST(one_day_counts_once),
        WORLD_TEST(a_day_of_both_is_one),
        WORLD_TEST(not_too_far_apart),
        WORLD_TEST(the_earlier_of_number_and_gap),
        WORLD_TEST(the_gap_is_to_the_day),
        WORLD_TEST(the_gap_runs_from_what_counts),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
