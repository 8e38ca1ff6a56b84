/* Keeping the date: a completion in the renewal window moves no date. */
#include "fixture.h"
#include "reasoned.h"
#include "test.h"
#include "window.h"

static const struct span one_month = {1, STEP_MONTHS};
static const struct span two_months = {2, STEP_MONTHS};

/* A yearly certificate, to the day before, that keeps its date when renewed in
 * the month before. */
static struct job *
certificate(struct world *w)
{
    struct job *j = world_job(w, "test", "12 months");

    j->class = CLASS_LAW;
    j->rule.first_kept = 1;
    j->rule.ends = ENDS_DAY_BEFORE;
    j->rule.runs_from = KEEPS_DATE;
    j->rule.window = one_month;
    world_done(w, j, "2025-05-16"); /* runs out 2026-05-15 */
    return j;
}

static void
in_the_window_the_date_is_kept(void **state)
{
    struct world *w = *state;
    struct job *j = certificate(w);

    assert_deadline(w, j, "2026-05-15");
    world_done(w, j, "2026-04-16");
    assert_deadline(w, j, "2027-05-15");
    assert_true(says(world_find(w, j, 0), "within its window"));
}

/* Tested once and entered twice: the second entry is not a test that came too
 * early for the year after. */
static void
entered_twice_the_date_is_kept(void **state)
{
    struct world *w = *state;
    struct job *j = certificate(w);

    world_done(w, j, "2026-04-16");
    world_done(w, j, "2026-04-16");
    assert_deadline(w, j, "2027-05-15");
    assert_int_equal(world_find(w, j, 0)->cycle.record, 2);
    assert_true(says(world_find(w, j, 0), "counted already"));
    assert_reasoned(world_find(w, j, 0));
}

static void
on_the_last_day_the_date_is_kept(void **state)
{
    struct world *w = *state;
    struct job *j = certificate(w);

    world_done(w, j, "2026-05-15");
    assert_deadline(w, j, "2027-05-15");
    assert_true(says(world_find(w, j, 0), "within its window"));
}

static void
before_the_window_it_runs_afresh(void **state)
{
    struct world *w = *state;
    struct job *j = certificate(w);

    world_done(w, j, "2026-04-15");
    assert_deadline(w, j, "2027-04-14");
    assert_true(says(
        world_find(w, j, 0), "before its window opened on Thu 2026-04-16"));
}

static void
late_it_runs_afresh(void **state)
{
    struct world *w = *state;
    struct job *j = certificate(w);

    world_done(w, j, "2026-05-16");
    assert_deadline(w, j, "2027-05-15");
    assert_true(says(world_find(w, j, 0), "completed after Fri 2026-05-15"));
    world_done(w, j, "2027-05-20");
    assert_deadline(w, j, "2028-05-19");
}

static void
late_may_keep_the_date_as_well(void **state)
{
    struct world *w = *state;
    struct job *j = certificate(w);

    j->rule.late = LATE_KEEPS_DATE;
    world_done(w, j, "2026-06-20");
    assert_deadline(w, j, "2027-05-15");
    assert_true(says(world_find(w, j, 0), "completed late"));
    world_done(w, j, "2029-05-15"); /* so late that it meets a later date */
    assert_deadline(w, j, "2030-05-15");
    assert_true(says(world_find(w, j, 0), "completed late"));
}

/* Two months after a late completion or less is too short; one day more is
 * not.  In the window nothing is too short. */
static void
a_kept_date_must_leave_so_long(void **state)
{
    struct world *w = *state;
    struct job *j = certificate(w);

    j->rule.late = LATE_KEEPS_DATE;
    j->rule.shortest = two_months;
    struct record *k = world_done(w, j, "2027-03-14");
    assert_deadline(w, j, "2027-05-15"); /* two months and a day */
    k->day = date("2027-03-15");
    assert_deadline(w, j, "2028-05-15");
    assert_true(says(world_find(w, j, 0), "completed late"));
    j->rule.shortest = (struct span){13, STEP_MONTHS};
    k->day = date("2026-05-01");
    assert_deadline(w, j, "2027-05-15");
}

/* Without a window only the last day itself keeps the date. */
static void
no_window_at_all(void **state)
{
    struct world *w = *state;
    struct job *j = certificate(w);

    j->rule.window = (struct span){0, STEP_DAYS};
    struct record *k = world_done(w, j, "2026-05-14");
    assert_deadline(w, j, "2027-05-13");
    k->day = date("2026-05-15");
    assert_deadline(w, j, "2027-05-15");
}

/* Nothing pending to keep: the first completion starts the series. */
static void
the_first_completion_starts_afresh(void **state)
{
    struct world *w = *state;
    struct job *j = certificate(w);

    w->records[0].day = date("2024-02-29");
    assert_deadline(w, j, "2025-02-28");
    assert_false(has_reason(world_find(w, j, 0), REASON_KEPT));
}

/* The window before a first deadline counts as any other. */
static void
the_first_deadline_is_kept_too(void **state)
{
    struct world *w = *state;
    struct job *j = certificate(w);

    w->n_records = 0;
    w->subjects[0].registered = date("2023-03-01");
    j->rule.first =
        (struct first){ORIGIN_REGISTERED, {3, STEP_YEARS}, DAY_NONE};
    j->rule.first_ends = ENDS_SAME_DAY;
    assert_deadline(w, j, "2026-03-01");
    struct record *k = world_done(w, j, "2026-02-02");
    assert_deadline(w, j, "2027-03-01");
    k->day = date("2026-02-01");
    assert_deadline(w, j, "2027-01-31");
}

/* Where a first deadline is no certificate, whatever is done first runs from
 * its own day: early, on the day, and late, where late keeps the date too. */
static void
a_first_deadline_that_is_no_certificate(void **state)
{
    struct world *w = *state;
    struct job *j = certificate(w);

    w->n_records = 0;
    w->subjects[0].registered = date("2023-03-01");
    j->rule.first =
        (struct first){ORIGIN_REGISTERED, {3, STEP_YEARS}, DAY_NONE};
    j->rule.first_ends = ENDS_SAME_DAY;
    j->rule.first_kept = 0;
    j->rule.late = LATE_KEEPS_DATE;
    struct record *k = world_done(w, j, "2026-02-10");
    assert_deadline(w, j, "2027-02-09");
    assert_true(says(world_find(w, j, 0), "no date to keep"));
    assert_reasoned(world_find(w, j, 0));
    k->day = date("2026-03-01");
    assert_deadline(w, j, "2027-02-28");
    k->day = date("2026-06-10");
    assert_deadline(w, j, "2027-06-09");
    world_done(w, j, "2027-06-01"); /* that is a certificate */
    assert_deadline(w, j, "2028-06-09");
    w->n_records = 0; /* and so is what the subject states */
    w->tasks[0].baseline.deadline = date("2026-03-01");
    world_done(w, j, "2026-02-10");
    assert_deadline(w, j, "2027-03-01");
}

/* A certificate stated in the file is what a record keeps, or not. */
static void
a_stated_deadline_is_kept_too(void **state)
{
    struct world *w = *state;
    struct job *j = certificate(w);

    w->n_records = 0;
    w->tasks[0].baseline.last = date("2025-05-01");
    w->tasks[0].baseline.deadline = date("2026-05-15");
    world_done(w, j, "2026-04-20");
    assert_deadline(w, j, "2027-05-15");
    w->tasks[0].baseline.last = DAY_NONE;
    assert_deadline(w, j, "2027-05-15");
}

/* What was due before the file's own completion is not known, so there is no
 * date to keep: the first test on 10 February starts its own year. */
static void
the_files_completion_keeps_no_date(void **state)
{
    struct world *w = *state;
    struct job *j = certificate(w);

    w->n_records = 0;
    w->subjects[0].registered = date("2023-03-01");
    j->rule.first =
        (struct first){ORIGIN_REGISTERED, {3, STEP_YEARS}, DAY_NONE};
    w->tasks[0].baseline.last = date("2026-02-10");
    assert_deadline(w, j, "2027-02-09");
}

/* Each certificate that is kept runs from the one before: the expiry of 28
 * February 2026, not that of 31 August before it, is what the next is the
 * anniversary of (SI 1988/1478 reg. 11(2): "that expiry date"). */
static void
a_kept_date_runs_from_the_one_before(void **state)
{
    struct world *w = *state;
    struct job *j = certificate(w);

    w->n_records = 0;
    world_every(w, &j->rule, "6 months");
    j->rule.runs_from = KEEPS_DATE;
    j->rule.window = one_month;
    world_done(w, j, "2025-02-28"); /* 28 Aug */
    world_done(w, j, "2025-10-31"); /* late: 30 Apr 2026 */
    assert_deadline(w, j, "2026-04-30");
    w->n_records = 0;
    world_done(w, j, "2025-02-28");
    world_done(w, j, "2025-08-31"); /* late: 28 Feb 2026 */
    world_done(w, j, "2026-02-20"); /* kept */
    assert_deadline(w, j, "2026-08-28");
    w->n_records = 0;
    w->tasks[0].baseline.deadline = date("2025-08-31");
    world_done(w, j, "2025-08-30"); /* kept: 28 Feb */
    assert_deadline(w, j, "2026-02-28");
    world_done(w, j, "2026-02-27"); /* kept: from the 28th */
    assert_deadline(w, j, "2026-08-28");
}

/* A certificate to 29 February 2024, renewed in its window each year: to 28
 * February, and then to the 28th also in the next leap year. */
static void
after_a_leap_day_a_kept_date_stays_the_28th(void **state)
{
    struct world *w = *state;
    struct job *j = certificate(w);

    w->n_records = 0;
    w->tasks[0].baseline.deadline = date("2024-02-29");
    world_done(w, j, "2024-02-20");
    assert_deadline(w, j, "2025-02-28");
    world_done(w, j, "2025-02-20");
    assert_deadline(w, j, "2026-02-28");
    world_done(w, j, "2026-02-20");
    world_done(w, j, "2027-02-20");
    assert_deadline(w, j, "2028-02-28");
}

static void
a_month_end_series_stays_at_the_end(void **state)
{
    struct world *w = *state;
    struct job *j = certificate(w);

    j->rule.ends = ENDS_MONTH_END;
    j->rule.window = two_months;
    j->rule.window_opens = WINDOW_SAME_DAY;
    world_every(w, &j->rule, "6 months");
    j->rule.ends = ENDS_MONTH_END;
    j->rule.runs_from = KEEPS_DATE;
    j->rule.window = two_months;
    w->records[0].day = date("2025-08-10"); /* 28 Feb 2026 */
    assert_deadline(w, j, "2026-02-28");
    world_done(w, j, "2026-02-01");
    assert_deadline(w, j, "2026-08-31");
}

static void
assert_window(struct rule *rule, const char *deadline, const char *day_after,
    const char *same_day, const char *safer)
{
    rule->window_opens = WINDOW_DAY_AFTER;
    assert_day(window_opening(rule, date(deadline)), day_after);
    rule->window_opens = WINDOW_SAME_DAY;
    assert_day(window_opening(rule, date(deadline)), same_day);
    rule->window_opens = WINDOW_SAFER;
    assert_day(window_opening(rule, date(deadline)), safer);
}

/* The safer reading asks in addition that a window from the opening day on
 * reaches past the deadline: it differs only after short months. */
static void
the_readings_of_a_window(void **state)
{
    struct rule rule = {.window = one_month};

    (void)state;
    assert_window(
        &rule, "2026-05-15", "2026-04-16", "2026-04-15", "2026-04-16");
    assert_window(
        &rule, "2027-02-28", "2027-01-29", "2027-01-28", "2027-02-01");
    assert_window(
        &rule, "2028-02-29", "2028-01-30", "2028-01-29", "2028-02-01");
    assert_window(
        &rule, "2026-04-30", "2026-03-31", "2026-03-30", "2026-04-01");
    assert_window(
        &rule, "2027-03-31", "2027-03-01", "2027-03-01", "2027-03-01");
    rule.window = (struct span){2, STEP_WEEKS};
    assert_window(
        &rule, "2026-05-15", "2026-05-02", "2026-05-01", "2026-05-02");
}

/* "Two months or less before": two months from 30 November end on 30 January
 * (Dodds v Walker [1981] 1 WLR 1027: 30 September and four months are 30
 * January), so that an expiry on the 31st is further off; from 31 January they
 * end on 31 March. */
static void
two_months_or_less(void **state)
{
    struct world *w = *state;
    struct job *j = certificate(w);

    j->rule.ends = ENDS_MONTH_END;
    j->rule.window = two_months;
    j->rule.window_opens = WINDOW_SAME_DAY;
    assert_day(window_opening(&j->rule, date("2027-01-31")), "2026-12-01");
    assert_day(window_opening(&j->rule, date("2027-03-31")), "2027-01-31");
    assert_day(window_opening(&j->rule, date("2027-04-30")), "2027-03-01");
    assert_day(window_opening(&j->rule, date("2027-02-28")), "2026-12-28");
    w->records[0].day = date("2026-01-10"); /* to 31 January 2027 */
    struct record *k = world_done(w, j, "2026-11-30");
    assert_deadline(w, j, "2027-11-30");
    k->day = date("2026-12-01");
    assert_deadline(w, j, "2028-01-31");
}

/* For every deadline of eight years and windows of one to three months: the
 * safer day is the first, not before the other reading, from which the window
 * goes past the deadline. */
static void
the_safer_window_by_search(void **state)
{
    (void)state;
    for (int months = 1; months <= 3; months++) {
        struct rule rule = {.window = {months, STEP_MONTHS}};
        for (day_t d = date("2024-01-01"); d < date("2032-01-01"); d++) {
            day_t day = step_months(d, -months, MONTH_END_CLAMP) + 1;
            while (step_months(day, months, MONTH_END_CLAMP) <= d)
                day++;
            assert_int_equal(window_opening(&rule, d), day);
        }
    }
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        WORLD_TEST(in_the_window_the_date_is_kept),
        WORLD_TEST(entered_twice_the_date_is_kept),
        WORLD_TEST(on_the_last_day_the_date_is_kept),
        WORLD_TEST(before_the_window_it_runs_afresh),
        WORLD_TEST(late_it_runs_afresh),
        WORLD_TEST(late_may_keep_the_date_as_well),
        WORLD_TEST(a_kept_date_must_leave_so_long),
        WORLD_TEST(no_window_at_all),
        WORLD_TEST(the_first_completion_starts_afresh),
        WORLD_TEST(the_first_deadline_is_kept_too),
        WORLD_TEST(a_first_deadline_that_is_no_certificate),
        WORLD_TEST(a_stated_deadline_is_kept_too),
        WORLD_TEST(the_files_completion_keeps_no_date),
        WORLD_TEST(a_kept_date_runs_from_the_one_before),
        WORLD_TEST(after_a_leap_day_a_kept_date_stays_the_28th),
        WORLD_TEST(two_months_or_less),
        WORLD_TEST(a_month_end_series_stays_at_the_end),
        cmocka_unit_test(the_readings_of_a_window),
        cmocka_unit_test(the_safer_window_by_search),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
