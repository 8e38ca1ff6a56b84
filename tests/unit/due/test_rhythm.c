/* A fixed rhythm: deadlines run on by themselves, whenever the job is done. */
#include "fixture.h"
#include "test.h"

static struct job *
rhythm(struct world *w, const char *every)
{
    struct job *j = world_job(w, "inspection", every);

    j->rule.runs_from = FROM_DEADLINE;
    j->rule.first =
        (struct first){.origin = ORIGIN_ON, .on = date("2026-01-31")};
    return j;
}

static void
the_first_deadline_begins_it(void **state)
{
    struct world *w = *state;
    struct job *j = rhythm(w, "1 month");

    assert_deadline(w, j, "2026-01-31");
    world_done(w, j, "2026-01-20");
    assert_deadline(w, j, "2026-02-28");
}

/* Anchored at 31 January: 28 February, 31 March, 30 April. */
static void
it_never_drifts(void **state)
{
    struct world *w = *state;
    struct job *j = rhythm(w, "1 month");

    world_done(w, j, "2026-01-30");
    world_done(w, j, "2026-02-27");
    assert_deadline(w, j, "2026-03-31");
    world_done(w, j, "2026-03-30");
    assert_deadline(w, j, "2026-04-30");
}

/* The same where the series begins with what the fleet file or a record has of
 * 31 January, or with a first deadline counted from that day: 28 February, then
 * 31 March and 30 April (manual: "monthly from 31 January 2026 gives 28
 * February, 31 March and 30 April"). */
static void
nor_from_what_was_done_or_registered(void **state)
{
    struct world *w = *state;
    struct job *j = rhythm(w, "1 month");

    for (int from = 0; from < 3; from++) {
        w->n_records = 0;
        j->rule.first = (struct first){.on = DAY_NONE};
        w->tasks[0].baseline.last = DAY_NONE;
        if (from == 0)
            w->tasks[0].baseline.last = date("2026-01-31");
        else if (from == 1)
            world_done(w, j, "2026-01-31");
        else
            j->rule.first =
                (struct first){ORIGIN_REGISTERED, {1, STEP_MONTHS}, DAY_NONE};
        w->subjects[0].registered = date("2026-01-31");
        assert_deadline(w, j, "2026-02-28");
        world_done(w, j, "2026-02-28");
        assert_deadline(w, j, "2026-03-31");
        world_done(w, j, "2026-03-31");
        assert_deadline(w, j, "2026-04-30");
        assert_reasoned(world_find(w, j, 0));
    }
}

/* A first deadline three years after 29 February 2024 and yearly from then on:
 * the 28th, and the 29th in leap years.  Weeks know no months. */
static void
nor_from_a_leap_day(void **state)
{
    struct world *w = *state;
    struct job *j = rhythm(w, "12 months");

    w->subjects[0].registered = date("2024-02-29");
    j->rule.first =
        (struct first){ORIGIN_REGISTERED, {3, STEP_YEARS}, DAY_NONE};
    assert_deadline(w, j, "2027-02-28");
    world_done(w, j, "2027-02-20");
    assert_deadline(w, j, "2028-02-29");
    j->rule.first =
        (struct first){ORIGIN_REGISTERED, {157, STEP_WEEKS}, DAY_NONE};
    assert_deadline(w, j, "2028-03-04"); /* a year after 4 March 2027 */
}

/* 15 February is after 31 January: the completion answers for that one. */
static void
a_late_completion_moves_no_date(void **state)
{
    struct world *w = *state;
    struct job *j = rhythm(w, "1 month");

    world_done(w, j, "2026-02-15");
    assert_deadline(w, j, "2026-02-28");
    assert_true(says(world_find(w, j, 0), "whenever it was done"));
}

/* Three deadlines missed: only the next one to come stands. */
static void
a_very_late_completion_skips_what_has_passed(void **state)
{
    struct world *w = *state;
    struct job *j = rhythm(w, "1 month");

    struct record *k = world_done(w, j, "2026-04-15");
    assert_deadline(w, j, "2026-04-30");
    k->day = date("2026-04-30"); /* on a deadline: that one is met */
    assert_deadline(w, j, "2026-05-31");
}

/* Done for 28 February on the 14th, half way from 31 January; once more before
 * that day has come is an extra. */
static void
an_extra_changes_nothing(void **state)
{
    struct world *w = *state;
    struct job *j = rhythm(w, "1 month");

    world_done(w, j, "2026-01-30");
    struct record *early = world_done(w, j, "2026-02-13");
    assert_deadline(w, j, "2026-02-28"); /* in the first half: an extra */
    early->day = date("2026-02-14");
    assert_deadline(w, j, "2026-03-31");
    struct record *k = world_done(w, j, "2026-02-20");
    assert_deadline(w, j, "2026-03-31");
    assert_true(says(world_find(w, j, 0), "an extra"));
    assert_int_equal(world_find(w, j, 0)->cycle.record, 2);
    assert_day(world_find(w, j, 0)->last_done, "2026-02-20");
    k->day = date("2026-02-28"); /* still the deadline that is met */
    assert_deadline(w, j, "2026-03-31");
    k->day = date("2026-03-15"); /* in the first half again */
    assert_deadline(w, j, "2026-03-31");
    k->day = date("2026-03-16");
    assert_deadline(w, j, "2026-04-30");
    assert_false(says(world_find(w, j, 0), "an extra"));
}

/* Nothing to run from but the completion itself. */
static void
without_a_first_it_begins_with_a_completion(void **state)
{
    struct world *w = *state;
    struct job *j = rhythm(w, "6 weeks");

    j->rule.first = (struct first){.on = DAY_NONE};
    j->rule.ends = ENDS_WEEK_END;
    world_done(w, j, "2026-01-07"); /* a Wednesday */
    assert_deadline(w, j, "2026-02-22");
    world_done(w, j, "2026-02-10");
    assert_deadline(w, j, "2026-04-05"); /* six weeks on, a Sunday */
}

static void
month_ends_stay_at_the_end(void **state)
{
    struct world *w = *state;
    struct job *j = rhythm(w, "1 month");

    j->rule.ends = ENDS_MONTH_END;
    j->rule.first.on = date("2026-02-28");
    world_done(w, j, "2026-02-20");
    assert_deadline(w, j, "2026-03-31");
    j->rule.ends = ENDS_SAME_DAY;
    assert_deadline(w, j, "2026-03-28");
    j->rule.month_end = MONTH_END_STICKY;
    assert_deadline(w, j, "2026-03-31");
    /* The corresponding date of a deadline, and not the day before it. */
    j->rule.month_end = MONTH_END_CLAMP;
    j->rule.ends = ENDS_DAY_BEFORE;
    assert_deadline(w, j, "2026-03-28");
}

/* A certificate's date in the file begins the rhythm anew. */
static void
a_stated_deadline_begins_it_anew(void **state)
{
    struct world *w = *state;
    struct job *j = rhythm(w, "1 month");

    w->tasks[0].baseline.last = date("2026-01-05");
    w->tasks[0].baseline.deadline = date("2026-02-10");
    assert_deadline(w, j, "2026-02-10");
    world_done(w, j, "2026-02-09");
    assert_deadline(w, j, "2026-03-10");
}

/* Half a year from 31 January.  Done on 10 July, which is late for January, it
 * counts for July only when July's window is open: from 1 July. */
static void
a_window_before_a_deadline(void **state)
{
    struct world *w = *state;
    struct job *j = rhythm(w, "6 months");
    struct record *k = world_done(w, j, "2026-07-10");

    assert_deadline(w, j, "2026-07-31");
    j->rule.window = (struct span){1, STEP_MONTHS};
    assert_deadline(w, j, "2027-01-31");
    k->day = date("2026-07-01");
    assert_deadline(w, j, "2027-01-31");
    k->day = date("2026-06-30");
    assert_deadline(w, j, "2026-07-31");
}

/* Within two days of Sunday 1 February are Saturday and that Sunday: on Friday
 * it would be done and still be due, so no working day can be named. */
static void
no_day_is_named_on_which_it_would_not_count(void **state)
{
    struct world *w = *state;
    struct job *j = rhythm(w, "1 month");

    j->rule.first.on = date("2026-02-01");
    j->rule.window = (struct span){2, STEP_DAYS};
    const struct due *d = world_due(w, j, "2026-01-05");
    assert_day(d->deadline, "2026-02-01");
    assert_day(d->plan_day, "-");
    assert_true(d->warnings & WARN_NO_WORKING_DAY);
    world_done(w, j, "2026-01-30");
    assert_deadline(w, j, "2026-02-01");
    j->rule.window.n = 3;
    assert_deadline(w, j, "2026-03-01");
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        WORLD_TEST(the_first_deadline_begins_it),
        WORLD_TEST(it_never_drifts),
        WORLD_TEST(nor_from_what_was_done_or_registered),
        WORLD_TEST(nor_from_a_leap_day),
        WORLD_TEST(a_late_completion_moves_no_date),
        WORLD_TEST(a_very_late_completion_skips_what_has_passed),
        WORLD_TEST(an_extra_changes_nothing),
        WORLD_TEST(without_a_first_it_begins_with_a_completion),
        WORLD_TEST(month_ends_stay_at_the_end),
        WORLD_TEST(a_stated_deadline_begins_it_anew),
        WORLD_TEST(a_window_before_a_deadline),
        WORLD_TEST(no_day_is_named_on_which_it_would_not_count),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
