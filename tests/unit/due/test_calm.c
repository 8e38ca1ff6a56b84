/* What calendars and mail show stands until it has moved far enough. */
#include <stdio.h>

#include "calm.h"
#include "fixture.h"
#include "test.h"

static const struct span three_days = {3, STEP_DAYS};

/* Early on 1 March 2026 and so many days, likely 20 and late 40 days after. */
static struct held
forecast(int days)
{
    day_t early = date("2026-03-01") + days;

    return (struct held){"K7", "oil", "r1", METER_DISTANCE,
        {.basis = FORECAST_READINGS,
            .early = early,
            .likely = early + 20,
            .late = early + 40}};
}

/* Which day stands once that forecast is known, counted as there. */
static int
stands(struct calm *c, int days)
{
    struct held h = forecast(days);

    calm_settle(c, FORECAST_EARLY, &h);
    /* All of a forecast stands, or none of it. */
    assert_int_equal(h.forecast.likely, h.forecast.early + 20);
    assert_int_equal(h.forecast.late, h.forecast.early + 40);
    return h.forecast.early - date("2026-03-01");
}

/* Holding the 1st of March, to be moved by three days. */
static struct calm *
holding(struct span length, enum calm_use use)
{
    struct calm *c = calm_new(length, use);
    struct held first = forecast(0);

    assert_non_null(c);
    calm_add(c, &first);
    return c;
}

static size_t
changes(const struct calm *c)
{
    size_t n;

    calm_changes(c, &n);
    assert_false(calm_failed(c));
    return n;
}

static void
two_days_are_calm_and_three_are_not(void **state)
{
    (void)state;
    struct calm *c = holding(three_days, CALM_SETTLE);
    assert_int_equal(stands(c, 0), 0);
    assert_int_equal(stands(c, 1), 0);
    assert_int_equal(stands(c, 2), 0);
    assert_int_equal(changes(c), 0);
    assert_int_equal(stands(c, 3), 3);
    assert_int_equal(changes(c), 1);
    /* From there on it is the 4th that stands. */
    assert_int_equal(stands(c, 5), 3);
    assert_int_equal(stands(c, 6), 6);
    calm_free(c);
}

/* No calendar is later than the forecast, not by a day. */
static void
an_earlier_day_shows_at_once(void **state)
{
    (void)state;
    struct calm *c = holding((struct span){1, STEP_MONTHS}, CALM_SETTLE);
    assert_int_equal(stands(c, -1), -1);
    assert_int_equal(changes(c), 1);
    /* And is what the next ones are held against. */
    assert_int_equal(stands(c, 0), -1);
    assert_int_equal(stands(c, -40), -40);
    calm_free(c);
}

/* A day at a time it moves as far as it would at once. */
static void
a_slow_drift_does_not_escape(void **state)
{
    (void)state;
    struct calm *c = holding(three_days, CALM_SETTLE);
    for (int day = 0; day <= 30; day++)
        assert_int_equal(stands(c, day), day - day % 3);
    for (int day = 29; day >= 0; day--)
        assert_int_equal(stands(c, day), day);
    calm_free(c);
}

/* A month from 1 March is 1 April. */
static void
other_lengths(void **state)
{
    (void)state;
    struct calm *c = holding((struct span){1, STEP_MONTHS}, CALM_SETTLE);
    assert_int_equal(stands(c, 30), 0);
    assert_int_equal(stands(c, 31), 31);
    calm_free(c);
    c = holding((struct span){1, STEP_DAYS}, CALM_SETTLE);
    assert_int_equal(stands(c, 1), 1);
    calm_free(c);
    c = holding((struct span){0, STEP_DAYS}, CALM_SETTLE);
    assert_int_equal(stands(c, 0), 0);
    assert_int_equal(changes(c), 0); /* nothing to write */
    assert_int_equal(stands(c, 1), 1);
    assert_int_equal(changes(c), 1);
    calm_free(c);
}

/* The early day has not moved, but the job goes by the likely one. */
static void
the_day_that_the_job_goes_by(void **state)
{
    (void)state;
    struct calm *c = holding(three_days, CALM_SETTLE);
    struct held h = forecast(0);
    h.forecast.likely += 3;
    h.forecast.late += 30;
    day_t likely = h.forecast.likely;
    calm_settle(c, FORECAST_EARLY, &h);
    assert_int_equal(h.forecast.likely, likely - 3);
    h.forecast.likely = likely;
    calm_settle(c, FORECAST_LIKELY, &h);
    assert_int_equal(h.forecast.likely, likely);
    calm_free(c);
}

/* Facts are not held, nor is a forecast over one of another sort. */
static void
only_a_forecast_is_held(void **state)
{
    (void)state;
    struct calm *c = holding(three_days, CALM_SETTLE);
    struct held reached = forecast(1);
    struct held none = forecast(0);
    struct held as_stated = forecast(1);

    reached.forecast.basis = FORECAST_REACHED;
    calm_settle(c, FORECAST_EARLY, &reached);
    assert_day(reached.forecast.early, "2026-03-02");
    none.forecast = (struct forecast){.basis = FORECAST_NONE,
        .early = DAY_NONE,
        .likely = DAY_NONE,
        .late = DAY_NONE};
    calm_settle(c, FORECAST_EARLY, &none);
    assert_int_equal(none.forecast.basis, FORECAST_NONE);
    assert_int_equal(changes(c), 0);
    as_stated.forecast.basis = FORECAST_STATED;
    calm_settle(c, FORECAST_EARLY, &as_stated);
    assert_day(as_stated.forecast.early, "2026-03-02");
    assert_int_equal(changes(c), 1);
    calm_free(c);
}

static void
each_under_its_own_name(void **state)
{
    static const struct held names[] = {
        {"K8", "oil", "r1", METER_DISTANCE, {.basis = FORECAST_NONE}},
        {"K7", "tyres", "r1", METER_DISTANCE, {.basis = FORECAST_NONE}},
        {"K7", "oil", "r1+1", METER_DISTANCE, {.basis = FORECAST_NONE}},
        {"K7", "oil", "r1", METER_HOURS, {.basis = FORECAST_NONE}},
        {"k7", "OIL", "r1", METER_DISTANCE, {.basis = FORECAST_NONE}},
    };

    (void)state;
    struct calm *c = holding(three_days, CALM_SETTLE);
    for (size_t i = 0; i < 5; i++) {
        struct held h = names[i];
        h.forecast = forecast(1).forecast;
        calm_settle(c, FORECAST_EARLY, &h);
        /* The last is the one that is held, in other letters. */
        assert_day(h.forecast.early, i == 4 ? "2026-03-01" : "2026-03-02");
        /* Once more, as when it is explained. */
        calm_settle(c, FORECAST_EARLY, &h);
    }
    assert_int_equal(changes(c), 4);
    calm_free(c);
}

static void
looking_changes_nothing(void **state)
{
    (void)state;
    struct calm *c = holding(three_days, CALM_LOOK);
    assert_int_equal(stands(c, 2), 2);
    assert_int_equal(stands(c, 9), 9);
    struct held h = forecast(2);
    assert_day(calm_kept(c, FORECAST_EARLY, &h), "2026-03-01");
    h = forecast(3); /* it will move */
    assert_day(calm_kept(c, FORECAST_EARLY, &h), "-");
    h = forecast(0); /* the same */
    assert_day(calm_kept(c, FORECAST_EARLY, &h), "-");
    h = forecast(2);
    h.cycle = "r2"; /* nothing is held */
    assert_day(calm_kept(c, FORECAST_EARLY, &h), "-");
    assert_int_equal(changes(c), 0);
    calm_free(c);
}

/* Through a whole snapshot: what was held, or NULL, and what is asked. */
static const struct due *
settled(struct world *w, const struct job *j, int ahead, struct calm *c)
{
    struct snapshot_options options = {.today = date("2026-01-02"),
        .horizon = date("2027-12-31"),
        .reasons = 1,
        .calm = c};

    world_group(w);
    snapshot_free(w->snapshot);
    w->snapshot = snapshot_new(&w->facts, &options);
    assert_non_null(w->snapshot);
    const struct due *d = world_find(w, j, ahead);
    assert_non_null(d);
    assert_reasoned(d);
    return d;
}

/* 36525 km a year are stated, and then a little less, so that the day comes a
 * day or two later. */
static struct job *
stated_use(struct world *w)
{
    struct job *j = world_job(w, "oil", "15010 km or 3 years");

    w->subjects[0].yearly_distance = 36525;
    world_done(w, j, "2026-01-01");
    return j;
}

static day_t
use_less(struct world *w, const struct job *j, int days)
{
    day_t was = settled(w, j, 0, NULL)->deadline;
    day_t now = was;

    while (now < was + days) {
        w->subjects[0].yearly_distance -= 50;
        now = settled(w, j, 0, NULL)->deadline;
    }
    assert_int_equal(now, was + days);
    return now;
}

static void
a_snapshot_goes_by_what_is_held(void **state)
{
    struct world *w = *state;
    struct job *j = stated_use(w);
    struct calm *c = calm_new(three_days, CALM_SETTLE);
    day_t first = settled(w, j, 0, c)->deadline;
    day_t plan = world_find(w, j, 0)->plan_day;
    day_t second = world_find(w, j, 1)->deadline;
    size_t n;
    const struct held *new = calm_changes(c, &n);
    struct calm *next = calm_new(three_days, CALM_SETTLE);

    assert_true(n >= 2);
    assert_string_equal(new[0].subject, "K7");
    assert_string_equal(new[0].job, "oil");
    assert_string_equal(new[0].cycle, "r1");
    assert_int_equal(new[0].forecast.early, first);
    assert_string_equal(new[1].cycle, "r1+1");
    assert_int_equal(new[1].forecast.early, second);
    for (size_t i = 0; i < n; i++)
        calm_add(next, &new[i]);
    use_less(w, j, 2);
    const struct due *d = settled(w, j, 0, next);
    assert_int_equal(d->deadline, first);
    assert_int_equal(d->plan_day, plan);
    assert_int_equal(d->forecast.early, first);
    assert_false(says(d, "calendars and mail keep"));
    use_less(w, j, 1);
    assert_int_equal(settled(w, j, 0, next)->deadline, first + 3);
    calm_free(next);
    calm_free(c);
}

static void
and_one_that_looks_says_so(void **state)
{
    struct world *w = *state;
    struct job *j = stated_use(w);
    struct calm *c = calm_new(three_days, CALM_SETTLE);
    day_t first = settled(w, j, 0, c)->deadline;
    struct calm *look = calm_new(three_days, CALM_LOOK);
    size_t n;
    const struct held *held = calm_changes(c, &n);
    char text[80];

    calm_add(look, &held[0]);
    assert_false(says(settled(w, j, 0, look), "calendars and mail"));
    day_t now = use_less(w, j, 2);
    const struct due *d = settled(w, j, 0, look);
    assert_int_equal(d->deadline, now);
    snprintf(text, sizeof text,
        "calendars and mail keep %s until it is 3 days later",
        day_words(first, (char[DAY_WORDS]){0}));
    assert_true(says(d, text));
    use_less(w, j, 1);
    assert_false(says(settled(w, j, 0, look), "calendars and mail"));
    calm_free(look);
    calm_free(c);
}

/* While the days stand, so does all that is said of a cycle to come.  What the
 * meter will show then is a guess after each reading, and is not told. */
static void
what_is_said_of_the_next_cycle_stands_too(void **state)
{
    struct world *w = *state;
    struct job *j = world_job(w, "oil", "20000 km");
    struct calm *c = calm_new(three_days, CALM_SETTLE);
    struct calm *next = calm_new(three_days, CALM_SETTLE);
    size_t n;

    world_done(w, j, "2025-01-01");
    world_reading(w, "2025-01-01", 10000);
    world_reading(w, "2025-12-31", 28200);
    const struct due *d = settled(w, j, 1, c);
    day_t day = d->deadline;
    assert_int_equal(d->due_reading, -1);
    char *said = strdup(d->reasons[d->n_reasons - 1].text);
    const struct held *held = calm_changes(c, &n);
    for (size_t i = 0; i < n; i++)
        calm_add(next, &held[i]);
    world_reading(w, "2026-01-01", 28251);
    d = settled(w, j, 1, next);
    assert_int_equal(d->deadline, day);
    assert_int_equal(d->due_reading, -1);
    assert_string_equal(d->reasons[d->n_reasons - 1].text, said);
    assert_true(says(world_find(w, j, 0), "due at 30000 km"));
    free(said);
    calm_free(next);
    calm_free(c);
}

/* When the months decide, the meter's day is not to stir what is said. */
static void
the_limit_that_does_not_decide_is_calm_too(void **state)
{
    struct world *w = *state;
    struct job *j = stated_use(w);
    struct calm *c = calm_new(three_days, CALM_SETTLE);
    struct rule plain = j->rule;

    world_every(w, &j->rule, "15010 km or 1 week");
    const struct due *d = settled(w, j, 0, c);
    char *said = strdup(d->reasons[d->n_reasons - 1].text);
    struct calm *next = calm_new(three_days, CALM_SETTLE);
    size_t n;
    const struct held *held = calm_changes(c, &n);
    for (size_t i = 0; i < n; i++)
        calm_add(next, &held[i]);
    assert_true(says(d, "1 week decides: it comes"));
    struct rule both = j->rule;
    j->rule = plain;
    use_less(w, j, 2);
    j->rule = both;
    d = settled(w, j, 0, next);
    assert_string_equal(d->reasons[d->n_reasons - 1].text, said);
    d = settled(w, j, 0, NULL);
    assert_string_not_equal(d->reasons[d->n_reasons - 1].text, said);
    free(said);
    calm_free(next);
    calm_free(c);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(two_days_are_calm_and_three_are_not),
        cmocka_unit_test(an_earlier_day_shows_at_once),
        cmocka_unit_test(a_slow_drift_does_not_escape),
        cmocka_unit_test(other_lengths),
        cmocka_unit_test(the_day_that_the_job_goes_by),
        cmocka_unit_test(only_a_forecast_is_held),
        cmocka_unit_test(each_under_its_own_name),
        cmocka_unit_test(looking_changes_nothing),
        WORLD_TEST(a_snapshot_goes_by_what_is_held),
        WORLD_TEST(and_one_that_looks_says_so),
        WORLD_TEST(what_is_said_of_the_next_cycle_stands_too),
        WORLD_TEST(the_limit_that_does_not_decide_is_calm_too),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
