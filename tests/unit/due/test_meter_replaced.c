/* A meter was replaced: the use goes on over it. */
#include "fixture.h"
#include "test.h"

/* By the likely day, which is worked out by hand here; how far the early one is
 * from it, the tests of usage say. */
static struct job *
likely_job(struct world *w, const char *id, const char *every)
{
    struct job *j = world_job(w, id, every);

    j->rule.forecast = FORECAST_LIKELY;
    return j;
}

static struct record *
replaced(struct world *w, const char *day, enum meter meter, int64_t shows)
{
    struct record *k = world_record(w, RECORD_REPLACED, day);

    k->meter = meter;
    k->reading = shows;
    return k;
}

static struct record *
done_at(struct world *w, const struct job *j, const char *day, int64_t reading)
{
    struct record *k = world_done(w, j, day);

    k->meter = METER_DISTANCE;
    k->reading = reading;
    return k;
}

/*
 * 50 km a day over a new odometer: 10000 to 15000 in the 100 days to 11 April,
 * where the new one began at 20, and 5020 on it another 100 days later.
 */
static struct job *
oil_over_a_new_odometer(struct world *w)
{
    struct job *j = likely_job(w, "oil", "20000 km");

    done_at(w, j, "2026-01-01", 10000);
    world_reading(w, "2026-04-11", 15000);
    replaced(w, "2026-04-11", METER_DISTANCE, 20);
    world_reading(w, "2026-07-20", 5020);
    return j;
}

/* 10000 km are driven, 5000 on each; 10000 are left on 20 July: 200 days.  That
 * is 15000 more than the new one began with. */
static void
it_goes_on_over_the_new_one(void **state)
{
    struct world *w = *state;
    struct job *j = oil_over_a_new_odometer(w);

    assert_deadline(w, j, "2027-02-05");
    const struct due *d = world_find(w, j, 0);
    assert_int_equal(d->due_reading, 15020);
    assert_day(d->forecast.likely, "2027-02-05");
    assert_int_equal(d->forecast.basis, FORECAST_READINGS);
}

/* Another that began at 100 on 20 July and showed 5100 100 days later: 15000
 * are driven, 5000 left, which is 100 days. */
static void
and_over_a_second(void **state)
{
    struct world *w = *state;
    struct job *j = oil_over_a_new_odometer(w);

    replaced(w, "2026-07-20", METER_DISTANCE, 100);
    world_reading(w, "2026-10-28", 5100);
    assert_deadline(w, j, "2027-02-05");
    assert_int_equal(world_find(w, j, 0)->due_reading, 10100);
}

/* It may show more than the old one did: 90000, so due at 105000. */
static void
a_used_one_that_shows_more(void **state)
{
    struct world *w = *state;
    struct job *j = likely_job(w, "oil", "20000 km");

    done_at(w, j, "2026-01-01", 10000);
    world_reading(w, "2026-04-11", 15000);
    replaced(w, "2026-04-11", METER_DISTANCE, 90000);
    assert_deadline(w, j, "2027-02-05");
    assert_int_equal(world_find(w, j, 0)->due_reading, 105000);
}

/* Reached on the new one: 4000 km after 15000 is 4020 there. */
static void
reached_on_the_new_one(void **state)
{
    struct world *w = *state;
    struct job *j = world_job(w, "oil", "9000 km");

    done_at(w, j, "2026-01-01", 10000);
    world_reading(w, "2026-04-11", 15000);
    replaced(w, "2026-04-11", METER_DISTANCE, 20);
    world_reading(w, "2026-07-20", 4019);
    assert_int_equal(
        world_due(w, j, "2026-07-20")->forecast.basis, FORECAST_READINGS);
    world_reading(w, "2026-07-21", 4020);
    assert_deadline(w, j, "2026-07-21");
    assert_int_equal(world_find(w, j, 0)->forecast.basis, FORECAST_REACHED);
}

/* Entered after the new one, but done before it came: 13000 then is 2000 less
 * than the 15000 at which it went, so 1980 less than nothing on the new. */
static void
work_that_was_noted_on_the_old_one(void **state)
{
    struct world *w = *state;
    struct job *j = oil_over_a_new_odometer(w);

    done_at(w, j, "2026-03-02", 13000);
    assert_int_equal(world_due(w, j, "2026-07-20")->due_reading, 18020);
}

/* Nothing noted with it: half way between 10000 and 15000. */
static void
work_between_readings_of_the_old_one(void **state)
{
    struct world *w = *state;
    struct job *j = oil_over_a_new_odometer(w);

    world_done(w, j, "2026-02-20");
    assert_int_equal(world_due(w, j, "2026-07-20")->due_reading, 17520);
}

/* Twelve days before the first reading nobody read the meter.  At 50 km a day
 * it showed 600 km less than 10000, so the other 19400 take 388 days from 1
 * January, less what is in doubt. */
static void
work_before_any_reading(void **state)
{
    struct world *w = *state;
    struct job *j = world_job(w, "oil", "20000 km");

    world_done(w, j, "2025-12-20");
    world_reading(w, "2026-01-01", 10000);
    world_reading(w, "2026-04-11", 15000);
    replaced(w, "2026-04-11", METER_DISTANCE, 20);
    j->rule.forecast = FORECAST_LIKELY;
    const struct due *d = world_due(w, j, "2026-04-11");
    assert_int_equal(d->due_reading, -1);
    assert_true(says(d, "the reading then is not known, by the readings"));
    assert_day(d->deadline, "2027-01-24");
}

/* On the very day the order of entry tells which of the two was read. */
static void
work_on_the_day_it_came(void **state)
{
    struct world *w = *state;
    struct job *j = world_job(w, "oil", "20000 km");

    world_reading(w, "2026-01-01", 10000);
    done_at(w, j, "2026-04-11", 15000);
    replaced(w, "2026-04-11", METER_DISTANCE, 20);
    assert_int_equal(world_due(w, j, "2026-04-11")->due_reading, 20020);
    done_at(w, j, "2026-04-11", 25);
    assert_int_equal(world_due(w, j, "2026-04-11")->due_reading, 20025);
}

/* The fleet file tells of the old one on the days before. */
static void
what_the_fleet_file_says(void **state)
{
    struct world *w = *state;
    struct job *j = world_job(w, "oil", "20000 km");
    struct baseline *b = &w->tasks[0].baseline;

    b->last = date("2026-01-01");
    b->last_reading[METER_DISTANCE] = 10000;
    world_reading(w, "2026-04-11", 15000);
    replaced(w, "2026-04-11", METER_DISTANCE, 20);
    assert_int_equal(world_due(w, j, "2026-04-11")->due_reading, 15020);
    b->last = date("2026-04-11");
    b->last_reading[METER_DISTANCE] = 20;
    assert_int_equal(world_due(w, j, "2026-04-11")->due_reading, 20020);
}

/* Since the fleet file's 66000 nobody read the old one: ten days at 36525 km a
 * year, 100 a day, before the new one showed 1500. */
static void
the_old_one_was_not_read_since(void **state)
{
    struct world *w = *state;
    struct job *j = world_job(w, "oil", "20000 km");

    w->subjects[0].yearly_distance = 36525;
    w->tasks[0].baseline.last = date("2026-04-01");
    w->tasks[0].baseline.last_reading[METER_DISTANCE] = 66000;
    replaced(w, "2026-04-11", METER_DISTANCE, 1500);
    assert_int_equal(world_due(w, j, "2026-04-11")->due_reading, 20500);
}

/* Each of the two meters by itself: 5 hours a day, 100 to 200 in the 20 days to
 * 21 January, then 0 on a new one; 350 less 200 is 150. */
static void
hours_and_distance_are_apart(void **state)
{
    struct world *w = *state;
    struct job *oil = likely_job(w, "oil", "20000 km");
    struct job *lift = likely_job(w, "lift", "250 hours");

    done_at(w, oil, "2026-01-01", 10000);
    world_done(w, lift, "2026-01-01");
    world_reading(w, "2026-01-01", 100)->meter = METER_HOURS;
    world_reading(w, "2026-01-21", 200)->meter = METER_HOURS;
    replaced(w, "2026-01-21", METER_HOURS, 0);
    assert_deadline(w, lift, "2026-02-20");
    assert_int_equal(world_find(w, lift, 0)->due_reading, 150);
    assert_int_equal(world_find(w, oil, 0)->due_reading, 30000);
    world_reading(w, "2026-02-01", 12000);
    replaced(w, "2026-02-01", METER_DISTANCE, 0);
    assert_int_equal(world_due(w, oil, "2026-02-01")->due_reading, 18000);
    assert_int_equal(world_find(w, lift, 0)->due_reading, 150);
}

/* The same of what the fleet file says: 10000 km, and 100 hours. */
static void
apart_in_the_fleet_file_too(void **state)
{
    struct world *w = *state;
    struct job *oil = world_job(w, "oil", "12 months or 20000 km");
    struct job *lift = world_job(w, "lift", "12 months or 250 hours");

    for (size_t i = 0; i < 2; i++)
        w->tasks[i].baseline.last = date("2026-01-01");
    w->tasks[0].baseline.last_reading[METER_DISTANCE] = 10000;
    w->tasks[1].baseline.last_reading[METER_HOURS] = 100;
    world_reading(w, "2026-01-21", 200)->meter = METER_HOURS;
    replaced(w, "2026-01-21", METER_HOURS, 0);
    assert_int_equal(world_due(w, oil, "2026-01-21")->due_reading, 30000);
    assert_int_equal(world_find(w, lift, 0)->due_reading, 150);
    world_reading(w, "2026-02-01", 12000);
    replaced(w, "2026-02-01", METER_DISTANCE, 0);
    assert_int_equal(world_due(w, oil, "2026-02-01")->due_reading, 18000);
    assert_int_equal(world_find(w, lift, 0)->due_reading, 150);
}

/* Not read for the last ten days, it went on at its 50 km a day: 15500, so what
 * would be 30000 on it is 14520 on the new one. */
static void
what_the_old_one_counted_unread(void **state)
{
    struct world *w = *state;
    struct job *j = world_job(w, "oil", "20000 km");

    done_at(w, j, "2026-01-01", 10000);
    world_reading(w, "2026-04-11", 15000);
    replaced(w, "2026-04-21", METER_DISTANCE, 20);
    assert_int_equal(world_due(w, j, "2026-04-21")->due_reading, 14520);
    /* Told what it showed at last, it is that: 15900. */
    w->n_records--;
    world_reading(w, "2026-04-21", 15900);
    replaced(w, "2026-04-21", METER_DISTANCE, 20);
    assert_int_equal(world_due(w, j, "2026-04-21")->due_reading, 14120);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        WORLD_TEST(it_goes_on_over_the_new_one),
        WORLD_TEST(and_over_a_second),
        WORLD_TEST(a_used_one_that_shows_more),
        WORLD_TEST(reached_on_the_new_one),
        WORLD_TEST(work_that_was_noted_on_the_old_one),
        WORLD_TEST(work_between_readings_of_the_old_one),
        WORLD_TEST(work_before_any_reading),
        WORLD_TEST(work_on_the_day_it_came),
        WORLD_TEST(what_the_fleet_file_says),
        WORLD_TEST(the_old_one_was_not_read_since),
        WORLD_TEST(what_the_old_one_counted_unread),
        WORLD_TEST(hours_and_distance_are_apart),
        WORLD_TEST(apart_in_the_fleet_file_too),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
