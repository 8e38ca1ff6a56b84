/* From an age of the subject on, a shorter interval holds. */
#include "fixture.h"
#include "test.h"

static const struct span years_12 = {12, STEP_YEARS};
static const struct span weeks_6 = {6, STEP_WEEKS};

/* Every ten weeks, from twelve years old every six.  Built 2014-03-02, so
 * twelve on 2026-03-02. */
static struct job *
ageing(struct world *w)
{
    struct job *j = world_job(w, "inspection", "10 weeks");

    w->subjects[0].built = date("2014-03-02");
    j->rule.age_from = ORIGIN_BUILT;
    j->rule.ages[0] = (struct age_step){years_12, weeks_6};
    j->rule.n_ages = 1;
    return j;
}

static void
before_the_birthday_the_old_interval_holds(void **state)
{
    struct world *w = *state;
    struct job *j = ageing(w);

    world_done(w, j, "2025-12-22"); /* ten weeks: 2026-03-02, the day itself */
    assert_deadline(w, j, "2026-03-02");
    assert_false(has_reason(world_find(w, j, 0), REASON_AGE));
}

/* Six weeks end before the birthday, ten after it: the birthday. */
static void
across_the_birthday_it_ends_on_it(void **state)
{
    struct world *w = *state;
    struct job *j = ageing(w);

    world_done(w, j, "2026-01-05");
    assert_deadline(w, j, "2026-03-02");
    assert_true(has_reason(world_find(w, j, 0), REASON_AGE));
    assert_true(says(world_find(w, j, 0),
        "12 years old on Mon 2026-03-02: every 6 weeks from then on"));
}

/* Six weeks already end after the birthday: they hold. */
static void
near_the_birthday_the_new_interval_holds(void **state)
{
    struct world *w = *state;
    struct job *j = ageing(w);

    world_done(w, j, "2026-02-02");
    assert_deadline(w, j, "2026-03-16");
    world_done(w, j, "2026-03-10");
    assert_deadline(w, j, "2026-04-21");
}

static void
a_longer_interval_changes_nothing(void **state)
{
    struct world *w = *state;
    struct job *j = ageing(w);

    j->rule.ages[0].every = (struct span){11, STEP_WEEKS};
    world_done(w, j, "2026-03-10");
    assert_deadline(w, j, "2026-05-19");
}

static void
an_unknown_age_changes_nothing(void **state)
{
    struct world *w = *state;
    struct job *j = ageing(w);

    w->subjects[0].built = DAY_NONE;
    world_done(w, j, "2026-03-10");
    assert_deadline(w, j, "2026-05-19");
}

/* Registered later than built: the setting decides which of the two. */
static void
the_day_the_age_counts_from(void **state)
{
    struct world *w = *state;
    struct job *j = ageing(w);

    w->subjects[0].registered = date("2014-09-01");
    world_done(w, j, "2026-03-10");
    j->rule.age_from = ORIGIN_REGISTERED;
    assert_deadline(w, j, "2026-05-19");
    j->rule.age_from = ORIGIN_EARLIEST;
    assert_deadline(w, j, "2026-04-21");
}

/* Born on 29 February: twelve on the 29th, thirteen on 28 February. */
static void
a_leap_day_birthday(void **state)
{
    struct world *w = *state;
    struct job *j = ageing(w);

    w->subjects[0].built = date("2012-02-29");
    j->rule.ages[0].age = (struct span){13, STEP_YEARS};
    world_done(w, j, "2025-01-06");
    assert_deadline(w, j, "2025-02-28");
}

static void
two_steps_of_age(void **state)
{
    struct world *w = *state;
    struct job *j = ageing(w);

    j->rule.ages[1] =
        (struct age_step){{15, STEP_YEARS}, {4, STEP_WEEKS}}; /* 2029-03-02 */
    j->rule.n_ages = 2;
    struct record *k = world_done(w, j, "2028-06-05");
    assert_deadline(w, j, "2028-07-17");
    k->day = date("2029-02-19"); /* six weeks 2 Apr, four weeks 19 Mar */
    assert_deadline(w, j, "2029-03-19");
    k->day = date("2029-01-29"); /* six weeks 12 Mar, four weeks 26 Feb */
    assert_deadline(w, j, "2029-03-02");
}

/* Three years from registration to the first test, but one year once built
 * two years ago: the birthday, 2026-03-02, comes before 2027-01-10. */
static void
the_first_deadline_too(void **state)
{
    struct world *w = *state;
    struct job *j = ageing(w);

    w->subjects[0].built = date("2024-03-02");
    w->subjects[0].registered = date("2024-01-10");
    world_every(w, &j->rule, "3 years");
    j->rule.age_from = ORIGIN_BUILT;
    j->rule.ages[0] = (struct age_step){{2, STEP_YEARS}, {1, STEP_YEARS}};
    j->rule.n_ages = 1;
    j->rule.first =
        (struct first){ORIGIN_REGISTERED, {3, STEP_YEARS}, DAY_NONE};
    assert_deadline(w, j, "2026-03-02");
    j->rule.first =
        (struct first){.origin = ORIGIN_ON, .on = date("2027-01-10")};
    assert_deadline(w, j, "2027-01-10");
}

/* A rhythm of ten weeks from 2026-01-11 would come to 22 March; the vehicle
 * is twelve on 2 March, so the rhythm breaks there and goes on from it by the
 * age. */
static void
a_rhythm_goes_on_from_the_birthday(void **state)
{
    struct world *w = *state;
    struct job *j = ageing(w);

    j->rule.runs_from = FROM_DEADLINE;
    j->rule.first =
        (struct first){.origin = ORIGIN_ON, .on = date("2026-01-11")};
    world_done(w, j, "2026-01-09");
    assert_deadline(w, j, "2026-03-02");
    assert_true(has_reason(world_find(w, j, 0), REASON_AGE));
    world_done(w, j, "2026-03-02");
    assert_deadline(w, j, "2026-04-13");
    world_done(w, j, "2026-04-13");
    assert_deadline(w, j, "2026-05-25");
    assert_true(has_reason(world_find(w, j, 0), REASON_AGE));
}

/* From a deadline half a year is the corresponding date, whatever the end. */
static void
a_rhythm_has_corresponding_dates(void **state)
{
    struct world *w = *state;
    struct job *j = world_job(w, "test", "1 year");

    w->subjects[0].built = date("2023-06-01");
    j->rule.ends = ENDS_DAY_BEFORE;
    j->rule.runs_from = FROM_DEADLINE;
    j->rule.age_from = ORIGIN_BUILT;
    j->rule.ages[0] = (struct age_step){{2, STEP_YEARS}, {6, STEP_MONTHS}};
    j->rule.n_ages = 1;
    j->rule.first =
        (struct first){.origin = ORIGIN_ON, .on = date("2026-01-11")};
    world_done(w, j, "2026-01-09");
    assert_deadline(w, j, "2026-07-11");
    j->rule.ends = ENDS_MONTH_END;
    assert_deadline(w, j, "2026-07-31");
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        WORLD_TEST(before_the_birthday_the_old_interval_holds),
        WORLD_TEST(across_the_birthday_it_ends_on_it),
        WORLD_TEST(near_the_birthday_the_new_interval_holds),
        WORLD_TEST(a_longer_interval_changes_nothing),
        WORLD_TEST(an_unknown_age_changes_nothing),
        WORLD_TEST(the_day_the_age_counts_from),
        WORLD_TEST(a_leap_day_birthday),
        WORLD_TEST(two_steps_of_age),
        WORLD_TEST(the_first_deadline_too),
        WORLD_TEST(a_rhythm_goes_on_from_the_birthday),
        WORLD_TEST(a_rhythm_has_corresponding_dates),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
