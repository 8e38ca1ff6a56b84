/* What the fleet file says that the meters showed, and which of them is to be
 * read. */
#include "fixture.h"
#include "meters.h"
#include "test.h"

static struct baseline *
stated(
    struct world *w, size_t task, const char *last, int64_t km, int64_t hours)
{
    struct baseline *b = &w->tasks[task].baseline;

    b->last = date(last);
    b->last_reading[METER_DISTANCE] = km;
    b->last_reading[METER_HOURS] = hours;
    return b;
}

/* 10000 by the file, and 15000 read a hundred days later: a rate. */
static void
it_is_a_reading_like_others(void **state)
{
    struct world *w = *state;
    struct job *j = world_job(w, "oil", "20000 km");

    stated(w, 0, "2026-01-01", 10000, -1);
    const struct due *d = world_due(w, j, "2026-04-12");
    assert_int_equal(d->state, DUE_NEEDS_READING);
    assert_day(d->newest_reading, "2026-01-01");
    world_reading(w, "2026-04-11", 15000);
    d = world_due(w, j, "2026-04-12");
    assert_int_equal(d->state, DUE_AHEAD);
    assert_int_equal(d->due_reading, 30000);
    assert_int_equal(d->forecast.basis, FORECAST_READINGS);
    assert_day(d->forecast.likely, "2027-02-05"); /* 50 a day */
    assert_day(d->newest_reading, "2026-04-11");
}

/* That of another job as well: 14000 on 2 May reaches what is due at 13000. */
static void
of_whichever_job_it_is_stated(void **state)
{
    struct world *w = *state;
    struct job *j = world_job(w, "oil", "3000 km");

    world_job(w, "tyres", "40000 km");
    stated(w, 1, "2026-05-02", 14000, -1);
    stated(w, 0, "2026-01-01", 10000, -1);
    const struct due *d = world_due(w, j, "2026-05-02");
    assert_int_equal(d->forecast.basis, FORECAST_REACHED);
    assert_day(d->deadline, "2026-05-02");
}

/* What is noted with each of three jobs of one day was read once; so was what
 * the file states of it as well.  Another value is another reading. */
static void
one_reading_is_counted_once(void **state)
{
    struct world *w = *state;
    struct job *j = world_job(w, "oil", "20000 km");
    struct meters m = {0};

    for (int i = 0; i < 3; i++) {
        struct record *k = world_done(w, j, "2026-01-01");
        k->meter = METER_DISTANCE;
        k->reading = 10000;
    }
    stated(w, 0, "2026-01-01", 10000, 310);
    world_reading(w, "2026-01-02", 10000);
    world_group(w);
    assert_int_equal(meters_take(&m, &w->subjects[0], w->grouped, w->sorted,
                         w->sorted + w->n_records),
        0);
    assert_int_equal(m.distance.n, 2);
    assert_int_equal(m.hours.n, 1);
    meters_free(&m);
}

/* Between the readings on record, in the order of days: what is stated of the
 * day on which the work was done is what the meter showed then. */
static void
in_its_place_among_the_others(void **state)
{
    struct world *w = *state;
    struct job *j = world_job(w, "oil", "20000 km");

    world_job(w, "tyres", "40000 km");
    world_reading(w, "2026-01-01", 10000);
    world_reading(w, "2026-04-11", 15000);
    world_done(w, j, "2026-02-20"); /* not read then */
    stated(w, 1, "2026-02-20", 12600, -1);
    assert_int_equal(world_due(w, j, "2026-04-11")->due_reading, 32600);
}

/* Both meters at once; each answers for itself. */
static void
both_meters(void **state)
{
    struct world *w = *state;
    struct job *j = world_job(w, "service", "20000 km or 250 hours");

    stated(w, 0, "2026-01-01", 10000, 310);
    world_reading(w, "2026-01-21", 400)->meter = METER_HOURS;
    const struct due *d = world_due(w, j, "2026-01-21");
    assert_int_equal(d->meter, METER_HOURS);
    assert_int_equal(d->due_reading, 560);
    assert_int_equal(d->state, DUE_NEEDS_READING);
    assert_int_equal(d->to_read, METER_DISTANCE);
    assert_day(d->newest_reading, "2026-01-01");
    world_reading(w, "2026-01-21", 11000);
    d = world_due(w, j, "2026-01-21");
    assert_int_equal(d->state, DUE_AHEAD);
    assert_int_equal(d->to_read, METER_NONE);
    /* 150 hours left at 4.5 a day come before 19000 km at 50. */
    assert_int_equal(d->due_reading, 560);
    world_every(w, &j->rule, "1100 km or 2500 hours");
    d = world_due(w, j, "2026-01-21");
    assert_int_equal(d->meter, METER_DISTANCE);
    assert_int_equal(d->due_reading, 11100);
}

/* The odometer is read and tells a day; of the hours nothing is known. */
static void
the_meter_that_is_to_be_read(void **state)
{
    struct world *w = *state;
    struct job *j = world_job(w, "service", "20000 km or 250 hours");

    stated(w, 0, "2026-01-01", 10000, -1);
    world_reading(w, "2026-04-11", 15000);
    const struct due *d = world_due(w, j, "2026-04-11");
    assert_int_equal(d->state, DUE_NEEDS_READING);
    assert_int_equal(d->to_read, METER_HOURS);
    assert_day(d->newest_reading, "-");
    assert_int_equal(d->meter, METER_DISTANCE);
    assert_int_equal(d->due_reading, 30000);
}

/* Never read, it is older than any job tolerates. */
static void
one_that_was_never_read_is_old(void **state)
{
    struct world *w = *state;
    struct job *j = world_job(w, "oil", "20000 km");
    char text[160];

    w->subjects[0].yearly_distance = 10000;
    world_done(w, j, "2026-01-01");
    assert_int_equal(world_due(w, j, "2026-01-02")->state, DUE_AHEAD);
    j->rule.reading_within = (struct span){8, STEP_WEEKS};
    const struct due *d = world_due(w, j, "2026-01-02");
    assert_int_equal(d->state, DUE_NEEDS_READING);
    assert_int_equal(d->to_read, METER_DISTANCE);
    due_warning_text(d, WARN_OLD_READING, DAY_NONE, text, sizeof text);
    assert_string_equal(text, "there is no reading of the odometer: take one");
    world_reading(w, "2026-01-01", 10000)->meter = METER_HOURS;
    assert_int_equal(world_due(w, j, "2026-01-02")->state, DUE_NEEDS_READING);
    world_reading(w, "2026-01-01", 10000);
    assert_int_equal(world_due(w, j, "2026-02-26")->state, DUE_AHEAD);
    d = world_due(w, j, "2026-02-27");
    assert_int_equal(d->state, DUE_NEEDS_READING);
    due_warning_text(d, WARN_OLD_READING, DAY_NONE, text, sizeof text);
    assert_string_equal(text,
        "the newest reading of the odometer, Thu 2026-01-01, is more than "
        "8 weeks old: take a new one");
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        WORLD_TEST(it_is_a_reading_like_others),
        WORLD_TEST(of_whichever_job_it_is_stated),
        WORLD_TEST(one_reading_is_counted_once),
        WORLD_TEST(in_its_place_among_the_others),
        WORLD_TEST(both_meters),
        WORLD_TEST(the_meter_that_is_to_be_read),
        WORLD_TEST(one_that_was_never_read_is_old),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
