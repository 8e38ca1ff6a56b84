/* A date in each year: the season decides, not the last time. */
#include "fixture.h"
#include "test.h"

static struct job *
antifreeze(struct world *w)
{
    struct job *j = world_job(w, "antifreeze", "yearly on 1 nov");

    j->rule.first =
        (struct first){.origin = ORIGIN_ON, .on = date("2025-11-01")};
    return j;
}

static void
the_first_is_on_or_after_the_first_day(void **state)
{
    struct world *w = *state;
    struct job *j = antifreeze(w);

    assert_deadline(w, j, "2025-11-01");
    j->rule.first.on = date("2025-11-02");
    assert_deadline(w, j, "2026-11-01");
    w->subjects[0].in_service = date("2025-03-10");
    j->rule.first =
        (struct first){ORIGIN_IN_SERVICE, {6, STEP_MONTHS}, DAY_NONE};
    assert_deadline(w, j, "2025-11-01");
    j->rule.first.origin = ORIGIN_BUILT;
    assert_int_equal(world_due(w, j, "2026-01-01")->state, DUE_NO_RECORD);
}

static void
done_early_or_on_the_day_it_is_next_year(void **state)
{
    struct world *w = *state;
    struct job *j = antifreeze(w);
    struct record *k = world_done(w, j, "2025-09-01");

    assert_deadline(w, j, "2026-11-01");
    k->day = date("2025-11-01");
    assert_deadline(w, j, "2026-11-01");
}

/* Done in January for November; once more in March is an extra. */
static void
done_late_it_is_the_same_date(void **state)
{
    struct world *w = *state;
    struct job *j = antifreeze(w);

    world_done(w, j, "2026-01-10");
    assert_deadline(w, j, "2026-11-01");
    struct record *k = world_done(w, j, "2026-11-20");
    assert_deadline(w, j, "2027-11-01");
    k->day = date("2028-02-01"); /* a whole one missed */
    assert_deadline(w, j, "2028-11-01");
}

/* Done early for 2025, and again before that 1 November: an extra. */
static void
an_extra_changes_nothing(void **state)
{
    struct world *w = *state;
    struct job *j = antifreeze(w);

    world_done(w, j, "2025-09-01");
    struct record *k = world_done(w, j, "2025-10-20");
    assert_deadline(w, j, "2026-11-01");
    k->day = date("2025-11-01");
    assert_deadline(w, j, "2026-11-01");
    k->day = date("2026-05-02"); /* in the first half of the year after */
    assert_deadline(w, j, "2026-11-01");
    k->day = date("2026-05-03");
    assert_deadline(w, j, "2027-11-01");
}

/* With nothing pending the next such date after the completion stands. */
static void
without_a_first_the_next_date_stands(void **state)
{
    struct world *w = *state;
    struct job *j = antifreeze(w);
    struct record *k = world_done(w, j, "2025-10-31");

    j->rule.first = (struct first){.on = DAY_NONE};
    assert_deadline(w, j, "2025-11-01");
    k->day = date("2025-11-01");
    assert_deadline(w, j, "2026-11-01");
}

static void
the_leap_day_is_the_28th_in_common_years(void **state)
{
    struct world *w = *state;
    struct job *j = world_job(w, "check", "yearly on 29 feb");
    struct record *k = world_done(w, j, "2026-03-01");

    assert_deadline(w, j, "2027-02-28");
    k->day = date("2027-02-28");
    assert_deadline(w, j, "2028-02-29");
    k->day = date("2028-02-29");
    assert_deadline(w, j, "2029-02-28");
    k->day = date("2099-03-01"); /* 2100 is no leap year */
    assert_deadline(w, j, "2100-02-28");
}

static void
no_date_past_the_range(void **state)
{
    struct world *w = *state;
    struct job *j = world_job(w, "check", "yearly on 1 nov");

    struct record *k = world_done(w, j, "2199-11-01");
    assert_deadline(w, j, "-");
    assert_true(world_find(w, j, 0)->warnings & WARN_OUT_OF_RANGE);
    k->day = date("2199-12-31");
    assert_deadline(w, j, "-");
}

/* The file states a date of its own; the years go on from there. */
static void
a_stated_deadline(void **state)
{
    struct world *w = *state;
    struct job *j = antifreeze(w);

    w->tasks[0].baseline.deadline = date("2026-03-31");
    assert_deadline(w, j, "2026-03-31");
    world_done(w, j, "2026-03-01");
    assert_deadline(w, j, "2026-11-01");
    /* Half of the year before 31 December is over on 2 July. */
    w->tasks[0].baseline.deadline = date("2026-12-31");
    assert_deadline(w, j, "2026-12-31");
    world_done(w, j, "2026-07-02");
    assert_deadline(w, j, "2027-11-01");
}

/* A month before 1 November opens on 2 October: what was done from then on
 * was done for that date. */
static void
a_window_before_the_date(void **state)
{
    struct world *w = *state;
    struct job *j = antifreeze(w);
    struct record *k = world_done(w, j, "2025-10-02");

    j->rule.first = (struct first){.on = DAY_NONE};
    j->rule.window = (struct span){1, STEP_MONTHS};
    assert_deadline(w, j, "2026-11-01");
    k->day = date("2025-10-01");
    assert_deadline(w, j, "2025-11-01");
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        WORLD_TEST(the_first_is_on_or_after_the_first_day),
        WORLD_TEST(done_early_or_on_the_day_it_is_next_year),
        WORLD_TEST(done_late_it_is_the_same_date),
        WORLD_TEST(an_extra_changes_nothing),
        WORLD_TEST(without_a_first_the_next_date_stands),
        WORLD_TEST(the_leap_day_is_the_28th_in_common_years),
        WORLD_TEST(no_date_past_the_range),
        WORLD_TEST(a_stated_deadline),
        WORLD_TEST(a_window_before_the_date),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
