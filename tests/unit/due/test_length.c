/* Where a length of time ends, and the first deadline of all. */
#include "calendar_interval.h"
#include "fixture.h"
#include "test.h"

static const struct span month = {1, STEP_MONTHS};
static const struct span year = {1, STEP_YEARS};
static const struct span six_weeks = {6, STEP_WEEKS};

/* The end of @length from @anchor, for each of the four ends. */
static void
assert_ends(const char *anchor, struct span length, const char *same,
    const char *before, const char *month_end, const char *week_end)
{
    day_t a = date(anchor);

    assert_day(
        calendar_interval_end(a, length, ENDS_SAME_DAY, MONTH_END_CLAMP), same);
    assert_day(
        calendar_interval_end(a, length, ENDS_DAY_BEFORE, MONTH_END_CLAMP),
        before);
    assert_day(
        calendar_interval_end(a, length, ENDS_MONTH_END, MONTH_END_CLAMP),
        month_end);
    assert_day(calendar_interval_end(a, length, ENDS_WEEK_END, MONTH_END_CLAMP),
        week_end);
}

/* The Sundays are those of the ISO week of the first day in each row. */
static void
the_four_ends(void **state)
{
    (void)state;
    assert_ends("2026-05-15", year, "2027-05-15", "2027-05-14", "2027-05-31",
        "2027-05-16");
    assert_ends("2026-01-31", month, "2026-02-28", "2026-02-28", "2026-02-28",
        "2026-03-01");
    assert_ends("2028-01-31", month, "2028-02-29", "2028-02-29", "2028-02-29",
        "2028-03-05");
    assert_ends("2024-02-29", year, "2025-02-28", "2025-02-28", "2025-02-28",
        "2025-03-02");
    assert_ends("2026-03-01", year, "2027-03-01", "2027-02-28", "2027-03-31",
        "2027-03-07");
    assert_ends("2026-11-25", six_weeks, "2027-01-06", "2027-01-05",
        "2027-01-31", "2027-01-10");
}

static void
sticky_month_ends(void **state)
{
    (void)state;
    assert_day(calendar_interval_end(
                   date("2026-02-28"), month, ENDS_SAME_DAY, MONTH_END_STICKY),
        "2026-03-31");
    assert_day(calendar_interval_end(
                   date("2026-02-28"), month, ENDS_SAME_DAY, MONTH_END_CLAMP),
        "2026-03-28");
}

static void
no_day_past_the_range(void **state)
{
    (void)state;
    for (int ends = ENDS_SAME_DAY; ends <= ENDS_WEEK_END; ends++) {
        assert_day(calendar_interval_end(date("2199-12-31"), year,
                       (enum ends)ends, MONTH_END_CLAMP),
            "-");
        assert_day(calendar_interval_end(
                       DAY_NONE, year, (enum ends)ends, MONTH_END_CLAMP),
            "-");
    }
}

static void
the_day_a_first_deadline_counts_from(void **state)
{
    struct world *w = *state;
    struct job *j = world_job(w, "test", "12 months");
    struct subject *s = &w->subjects[0];

    s->registered = date("2020-03-02");
    s->built = date("2019-11-05");
    j->rule.first = (struct first){ORIGIN_REGISTERED, year, DAY_NONE};
    assert_deadline(w, j, "2021-03-02");
    j->rule.first.origin = ORIGIN_BUILT;
    assert_deadline(w, j, "2020-11-05");
    j->rule.first.origin = ORIGIN_EARLIEST;
    assert_deadline(w, j, "2020-11-05");
    s->built = DAY_NONE;
    assert_deadline(w, j, "2021-03-02");
    s->in_service = date("2020-02-01");
    assert_deadline(w, j, "2021-02-01");
    j->rule.first.origin = ORIGIN_IN_SERVICE;
    assert_deadline(w, j, "2021-02-01");
    j->rule.first =
        (struct first){.origin = ORIGIN_ON, .on = date("2026-08-09")};
    assert_deadline(w, j, "2026-08-09");
}

/* Registered on 10 March; the first runs to the end of the month, the later
 * ones to the day before: each end by its own setting. */
static void
the_first_may_end_otherwise(void **state)
{
    struct world *w = *state;
    struct job *j = world_job(w, "test", "12 months");

    w->subjects[0].registered = date("2025-03-10");
    j->rule.first = (struct first){ORIGIN_REGISTERED, year, DAY_NONE};
    j->rule.first_ends = ENDS_MONTH_END;
    j->rule.ends = ENDS_DAY_BEFORE;
    assert_deadline(w, j, "2026-03-31");
    world_done(w, j, "2026-03-20");
    assert_deadline(w, j, "2027-03-19");
}

static void
nothing_known_is_no_record(void **state)
{
    struct world *w = *state;
    struct job *j = world_job(w, "test", "12 months");

    j->rule.first = (struct first){ORIGIN_REGISTERED, year, DAY_NONE};
    const struct due *d = world_due(w, j, "2026-01-01");
    assert_int_equal(d->state, DUE_NO_RECORD);
    assert_day(d->deadline, "-");
    assert_day(d->plan_day, "-");
    assert_day(d->book_by, "-");
    assert_day(d->last_done, "-");
    j->rule.first.origin = ORIGIN_NONE;
    assert_int_equal(world_due(w, j, "2026-01-01")->state, DUE_NO_RECORD);
}

/* A certificate in the file says more than the age of the vehicle. */
static void
a_stated_deadline_beats_the_first(void **state)
{
    struct world *w = *state;
    struct job *j = world_job(w, "test", "12 months");

    w->subjects[0].registered = date("2025-03-10");
    j->rule.first = (struct first){ORIGIN_REGISTERED, year, DAY_NONE};
    w->tasks[0].baseline.deadline = date("2026-07-01");
    assert_deadline(w, j, "2026-07-01");
}

/* Done and stated together: the certificate's date holds for that cycle, and
 * the next record is worked out as usual. */
static void
a_stated_deadline_after_a_stated_completion(void **state)
{
    struct world *w = *state;
    struct job *j = world_job(w, "test", "12 months");

    w->tasks[0].baseline.last = date("2025-03-10");
    assert_deadline(w, j, "2026-03-10");
    w->tasks[0].baseline.deadline = date("2026-03-31");
    assert_deadline(w, j, "2026-03-31");
    world_done(w, j, "2026-01-05");
    assert_deadline(w, j, "2027-01-05");
}

static void
the_newest_completion_counts(void **state)
{
    struct world *w = *state;
    struct job *j = world_job(w, "service", "6 months");

    world_done(w, j, "2025-12-01");
    world_done(w, j, "2025-06-01"); /* entered later, happened earlier */
    assert_deadline(w, j, "2026-06-01");
    assert_day(world_find(w, j, 0)->last_done, "2025-12-01");
    assert_int_equal(world_find(w, j, 0)->cycle.record, 1);
}

/* The file's own completion gives way to a record of that day, and is but
 * one among the records otherwise. */
static void
the_files_completion_among_records(void **state)
{
    struct world *w = *state;
    struct job *j = world_job(w, "service", "6 months");

    w->tasks[0].baseline.last = date("2025-12-01");
    assert_deadline(w, j, "2026-06-01");
    assert_true(says(world_find(w, j, 0), "by the fleet file"));
    world_done(w, j, "2025-11-01");
    assert_deadline(w, j, "2026-06-01");
    assert_int_equal(world_find(w, j, 0)->cycle.record, 0);
    world_done(w, j, "2025-12-01")->by = "A. Fitter";
    assert_deadline(w, j, "2026-06-01");
    assert_int_equal(world_find(w, j, 0)->cycle.record, 2);
    assert_true(says(world_find(w, j, 0), "A. Fitter"));
    world_done(w, j, "2025-12-20");
    assert_deadline(w, j, "2026-06-20");
}

static void
a_failed_result_starts_nothing(void **state)
{
    struct world *w = *state;
    struct job *j = world_job(w, "test", "12 months");

    world_done(w, j, "2025-03-10");
    world_done(w, j, "2025-12-10")->kind = RECORD_FAILED;
    assert_deadline(w, j, "2026-03-10");
    assert_day(world_find(w, j, 0)->last_done, "2025-03-10");
}

static void
whichever_comes_first(void **state)
{
    struct world *w = *state;
    struct job *j = world_job(w, "service", "12 months or 26 weeks");

    world_done(w, j, "2025-10-01");
    assert_deadline(w, j, "2026-04-01");
    assert_true(
        says(world_find(w, j, 0), "183 days before 12 months, which would be"));
    assert_true(has_reason(world_find(w, j, 0), REASON_FIRST));
    world_every(w, &j->rule, "12 weeks or 3 months");
    assert_deadline(w, j, "2025-12-24");
    /* Of two that come together, the one written first. */
    world_every(w, &j->rule, "364 days or 52 weeks");
    assert_deadline(w, j, "2026-09-30");
    assert_true(says(world_find(w, j, 0), "every 364 days"));
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_four_ends),
        cmocka_unit_test(sticky_month_ends),
        cmocka_unit_test(no_day_past_the_range),
        WORLD_TEST(the_day_a_first_deadline_counts_from),
        WORLD_TEST(the_first_may_end_otherwise),
        WORLD_TEST(nothing_known_is_no_record),
        WORLD_TEST(a_stated_deadline_beats_the_first),
        WORLD_TEST(a_stated_deadline_after_a_stated_completion),
        WORLD_TEST(the_newest_completion_counts),
        WORLD_TEST(the_files_completion_among_records),
        WORLD_TEST(a_failed_result_starts_nothing),
        WORLD_TEST(whichever_comes_first),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
