/* Every date can say why: the steps of a due, in words and in days. */
#include "fixture.h"
#include "test.h"

struct step {
    enum reason_step step;
    const char *before;
    const char *after;
};

/* The steps of @d are just these, and a chain without a gap. */
static void
assert_steps(const struct due *d, const struct step *want, size_t n)
{
    assert_reasoned(d);
    assert_int_equal(d->n_reasons, n);
    for (size_t i = 0; i < n; i++) {
        assert_string_equal(
            due_step_word(d->reasons[i].step), due_step_word(want[i].step));
        assert_day(d->reasons[i].before, want[i].before);
        assert_day(d->reasons[i].after, want[i].after);
    }
}

#define ASSERT_STEPS(d, ...)                                                   \
    do {                                                                       \
        const struct step want_[] = {__VA_ARGS__};                             \
        assert_steps((d), want_, sizeof want_ / sizeof *want_);                \
    } while (0)

static void
a_plain_interval(void **state)
{
    struct world *w = *state;
    struct job *j = world_job(w, "job", "6 weeks");

    world_done(w, j, "2026-01-05");
    ASSERT_STEPS(world_due(w, j, "2026-01-06"),
        {REASON_START, "-", "2026-01-05"},
        {REASON_INTERVAL, "2026-01-05", "2026-02-16"});
    assert_true(says(world_find(w, j, 0), "every 6 weeks (own)"));
}

/* Everything at once: kept, stepped, shortened by age, compared, rolled over
 * a holiday and booked. */
static void
the_longest_chain(void **state)
{
    struct world *w = *state;
    struct job *j = world_job(w, "job", "6 months or 20000 km");
    struct named_day closed = {date("2026-10-16"), "Regatta"};

    world_calendar(w, &(struct work_calendar_plan){
                          .works = WEEKDAYS, .closed = &closed, .n_closed = 1});
    w->subjects[0].built = date("2014-06-18");
    w->tasks[0].baseline.deadline = date("2026-06-18");
    j->class = CLASS_LAW;
    j->rule.runs_from = KEEPS_DATE;
    j->rule.window = (struct span){1, STEP_MONTHS};
    j->rule.ages[0] = (struct age_step){{12, STEP_YEARS}, {4, STEP_MONTHS}};
    j->rule.n_ages = 1;
    j->rule.age_from = ORIGIN_BUILT;
    j->rule.lead = (struct lead){{1, STEP_WEEKS}, 0};
    world_done(w, j, "2026-05-20");
    world_reading(w, "2026-05-20", 10000);
    world_reading(w, "2026-06-20", 10310); /* ten a day */
    ASSERT_STEPS(world_due(w, j, "2026-06-20"),
        {REASON_START, "-", "2026-05-20"},
        {REASON_KEPT, "2026-05-20", "2026-06-18"},
        {REASON_INTERVAL, "2026-06-18", "2026-12-18"},
        {REASON_AGE, "2026-12-18", "2026-10-18"},
        {REASON_FIRST, "2026-10-18", "2026-10-18"},
        {REASON_NOTE, "2026-10-18", "2026-10-18"},
        {REASON_NOTE, "2026-10-18", "2026-10-18"},
        {REASON_ROLL, "2026-10-18", "2026-10-15"},
        {REASON_LEAD, "2026-10-15", "2026-10-08"});
}

static void
a_first_deadline(void **state)
{
    struct world *w = *state;
    struct job *j = world_job(w, "job", "12 months");

    w->subjects[0].registered = date("2025-03-02");
    j->rule.first =
        (struct first){ORIGIN_REGISTERED, {1, STEP_YEARS}, DAY_NONE};
    ASSERT_STEPS(world_due(w, j, "2026-01-06"),
        {REASON_START, "-", "2025-03-02"},
        {REASON_INTERVAL, "2025-03-02", "2026-03-02"});
    assert_true(says(world_find(w, j, 0), "registration"));
    j->rule.first =
        (struct first){.origin = ORIGIN_ON, .on = date("2026-04-01")};
    ASSERT_STEPS(
        world_due(w, j, "2026-01-06"), {REASON_START, "-", "2026-04-01"});
    w->tasks[0].baseline.deadline = date("2026-04-30");
    ASSERT_STEPS(
        world_due(w, j, "2026-01-06"), {REASON_START, "-", "2026-04-30"});
    w->tasks[0].baseline.last = date("2025-04-15");
    ASSERT_STEPS(world_due(w, j, "2026-01-06"),
        {REASON_START, "-", "2025-04-15"},
        {REASON_INTERVAL, "2025-04-15", "2026-04-30"});
}

static void
dates_of_the_calendar(void **state)
{
    struct world *w = *state;
    struct job *j = world_job(w, "job", "yearly on 2 nov");

    w->subjects[0].in_service = date("2026-03-02");
    j->rule.first =
        (struct first){ORIGIN_IN_SERVICE, {1, STEP_MONTHS}, DAY_NONE};
    ASSERT_STEPS(world_due(w, j, "2026-03-06"),
        {REASON_START, "-", "2026-03-02"},
        {REASON_INTERVAL, "2026-03-02", "2026-04-02"},
        {REASON_INTERVAL, "2026-04-02", "2026-11-02"});
    world_done(w, j, "2026-10-05");
    ASSERT_STEPS(world_due(w, j, "2026-10-06"),
        {REASON_START, "-", "2026-10-05"},
        {REASON_INTERVAL, "2026-10-05", "2027-11-02"});
}

/* A rhythm: the deadline that is met, then the next. */
static void
a_rhythm_and_an_extra(void **state)
{
    struct world *w = *state;
    struct job *j = world_job(w, "job", "2 weeks");

    j->rule.runs_from = FROM_DEADLINE;
    j->rule.first =
        (struct first){.origin = ORIGIN_ON, .on = date("2026-02-02")};
    world_done(w, j, "2026-02-18"); /* late: 16 February is met */
    ASSERT_STEPS(world_due(w, j, "2026-02-19"),
        {REASON_START, "-", "2026-02-18"},
        {REASON_KEPT, "2026-02-18", "2026-02-16"},
        {REASON_INTERVAL, "2026-02-16", "2026-03-02"});
    world_done(w, j, "2026-02-24"); /* for 2 March */
    world_done(w, j, "2026-02-25");
    ASSERT_STEPS(world_due(w, j, "2026-02-26"),
        {REASON_START, "-", "2026-02-25"},
        {REASON_KEPT, "2026-02-25", "2026-03-16"});
}

static void
a_forecast_and_another_limit(void **state)
{
    struct world *w = *state;
    struct job *j = world_job(w, "job", "1000 km or 200 hours");

    j->rule.forecast = FORECAST_LIKELY;
    world_reading(w, "2026-01-05", 10000);
    world_reading(w, "2026-02-04", 10300);
    world_done(w, j, "2026-01-05");
    /* 700 left at ten a day: 70 days after 4 February. */
    ASSERT_STEPS(world_due(w, j, "2026-02-05"),
        {REASON_START, "-", "2026-01-05"},
        {REASON_FORECAST, "2026-01-05", "2026-04-15"},
        {REASON_NOTE, "2026-04-15", "2026-04-15"});
    assert_true(says(world_find(w, j, 0), "200 hours"));
}

static void
a_failure_is_mentioned(void **state)
{
    struct world *w = *state;
    struct job *j = world_job(w, "job", "6 weeks");

    world_done(w, j, "2026-01-05");
    world_done(w, j, "2026-02-02")->kind = RECORD_FAILED;
    ASSERT_STEPS(world_due(w, j, "2026-02-06"),
        {REASON_START, "-", "2026-01-05"},
        {REASON_INTERVAL, "2026-01-05", "2026-02-16"},
        {REASON_NOTE, "2026-02-16", "2026-02-16"});
    assert_true(says(world_find(w, j, 0), "failed on Mon 2026-02-02"));
    world_done(w, j, "2026-02-03"); /* passed since: no longer of interest */
    assert_false(says(world_due(w, j, "2026-02-06"), "failed"));
}

static void
off_the_road_and_rolled(void **state)
{
    struct world *w = *state;
    struct job *j = world_job(w, "job", "6 weeks");

    world_done(w, j, "2026-01-05");
    world_off_road(w, "2026-02-10", "2026-02-22");
    ASSERT_STEPS(world_due(w, j, "2026-02-06"),
        {REASON_START, "-", "2026-01-05"},
        {REASON_INTERVAL, "2026-01-05", "2026-02-16"},
        {REASON_OFF_ROAD, "2026-02-16", "2026-02-22"},
        {REASON_NOTE, "2026-02-22", "2026-02-22"},
        {REASON_ROLL, "2026-02-22", "2026-02-20"});
    j->rule.roll = ROLL_FOLLOWING;
    ASSERT_STEPS(world_due(w, j, "2026-02-06"),
        {REASON_START, "-", "2026-01-05"},
        {REASON_INTERVAL, "2026-01-05", "2026-02-16"},
        {REASON_OFF_ROAD, "2026-02-16", "2026-02-22"},
        {REASON_NOTE, "2026-02-22", "2026-02-22"}, /* not past the return */
        {REASON_NOTE, "2026-02-22", "2026-02-22"},
        {REASON_ROLL, "2026-02-22", "2026-02-20"});
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        WORLD_TEST(a_plain_interval),
        WORLD_TEST(the_longest_chain),
        WORLD_TEST(a_first_deadline),
        WORLD_TEST(dates_of_the_calendar),
        WORLD_TEST(a_rhythm_and_an_extra),
        WORLD_TEST(a_forecast_and_another_limit),
        WORLD_TEST(a_failure_is_mentioned),
        WORLD_TEST(off_the_road_and_rolled),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
