/* Distance and running hours: the due reading, and the day of it. */
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

/* 50 km a day, shown on 2026-01-01 and 100 days later. */
static void
fifty_a_day(struct world *w)
{
    world_reading(w, "2026-01-01", 10000);
    world_reading(w, "2026-04-11", 15000);
}

static struct record *
done_at(struct world *w, const struct job *j, const char *day, int64_t reading)
{
    struct record *k = world_done(w, j, day);

    k->meter = METER_DISTANCE;
    k->reading = reading;
    return k;
}

/* Due at 30000; 15000 left on 11 April, so 300 days on. */
static void
the_due_reading_and_its_day(void **state)
{
    struct world *w = *state;
    struct job *j = likely_job(w, "oil", "20000 km");

    fifty_a_day(w);
    done_at(w, j, "2026-01-01", 10000);
    assert_deadline(w, j, "2027-02-05");
    const struct due *d = world_find(w, j, 0);
    assert_int_equal(d->due_reading, 30000);
    assert_int_equal(d->forecast.basis, FORECAST_READINGS);
    assert_day(d->forecast.likely, "2027-02-05");
    assert_int_equal(d->warnings, 0);
    assert_int_equal(d->state, DUE_AHEAD);
    assert_true(says(d, "due at 30000 km, by the readings"));
}

/* Done on a day without a reading: half way between the two. */
static void
the_reading_when_it_was_done(void **state)
{
    struct world *w = *state;
    struct job *j = likely_job(w, "oil", "20000 km");

    fifty_a_day(w);
    world_done(w, j, "2026-02-20");
    assert_deadline(w, j, "2027-03-27"); /* 17500 left on 11 April: 350 days */
    assert_int_equal(world_find(w, j, 0)->due_reading, 32500);
}

/* Nothing was read when it was done, and only afterwards or only before: no due
 * reading is claimed, by which somebody might go. */
static void
no_reading_is_invented(void **state)
{
    struct world *w = *state;
    struct job *j = likely_job(w, "oil", "20000 km");

    world_done(w, j, "2026-01-01");
    world_reading(w, "2026-06-01", 50000);
    const struct due *d = world_due(w, j, "2026-06-02");
    assert_int_equal(d->due_reading, -1);
    assert_int_equal(d->state, DUE_NEEDS_READING);
    world_reading(w, "2026-07-01", 50000);
    d = world_due(w, j, "2026-07-02");
    assert_int_equal(d->due_reading, -1);
    assert_int_equal(d->state, DUE_NEEDS_READING);
    /* A reading of before makes it known: by straight line half of 40000. */
    world_reading(w, "2025-08-03", 10000);
    d = world_due(w, j, "2026-07-02");
    assert_int_equal(d->due_reading, 10000 + 40000 / 2 + 20000);
    /* Of work after the newest reading nothing is known either. */
    world_done(w, j, "2026-07-02");
    assert_int_equal(world_due(w, j, "2026-07-02")->due_reading, -1);
}

/* 51000 was noted for 15000 on 11 April, and 20000 shown 100 days later: by the
 * readings that can be right together 15000 then, half way from 10000 to 20000,
 * so 300 days to 35000 from 20 July.  At 71000 it would be due years later. */
static void
a_noted_reading_that_a_later_one_belies(void **state)
{
    struct world *w = *state;
    struct job *j = likely_job(w, "oil", "20000 km");

    world_reading(w, "2025-12-12", 9000);
    world_reading(w, "2026-01-01", 10000);
    done_at(w, j, "2026-04-11", 51000);
    world_reading(w, "2026-07-20", 20000);
    world_reading(w, "2026-08-09", 21000);
    assert_deadline(w, j, "2027-05-16");
    const struct due *d = world_find(w, j, 0);
    assert_int_equal(d->due_reading, 35000);
    assert_true(says(d, "1 reading cannot be right beside the others"));
}

/* The wrong one may be the later one: 2000 for 20000. */
static void
a_noted_reading_stands_where_the_later_one_is_wrong(void **state)
{
    struct world *w = *state;
    struct job *j = likely_job(w, "oil", "20000 km");

    fifty_a_day(w);
    done_at(w, j, "2026-04-21", 15500);
    world_reading(w, "2026-07-20", 2000);
    world_reading(w, "2026-08-09", 21000);
    assert_int_equal(world_due(w, j, "2026-08-09")->due_reading, 35500);
}

/* 1 mile is 1.609344 km: 12000 of them 19312.1 km, and 20000 km are 12427.4
 * miles; rounded down, so early. */
static void
miles_and_kilometres(void **state)
{
    struct world *w = *state;
    struct job *j = world_job(w, "oil", "12000 miles");

    fifty_a_day(w);
    done_at(w, j, "2026-01-01", 10000);
    assert_int_equal(world_due(w, j, "2026-01-01")->due_reading, 29312);
    world_every(w, &j->rule, "20000 km");
    w->subjects[0].unit = UNIT_MILES;
    const struct due *d = world_due(w, j, "2026-01-01");
    assert_int_equal(d->due_reading, 22427);
    assert_true(says(d, "due at 22427 miles"));
    world_every(w, &j->rule, "12000 miles");
    assert_int_equal(world_due(w, j, "2026-01-01")->due_reading, 22000);
}

/* 36525 km a year stated: 150 days to 15000 km when used as stated, 100 when
 * half as much again, 214 when less. */
static void
the_stated_use_and_its_doubt(void **state)
{
    struct world *w = *state;
    struct job *j = world_job(w, "oil", "15010 km");

    w->subjects[0].yearly_distance = 36525;
    world_done(w, j, "2026-01-01");
    assert_deadline(w, j, "2026-04-11");
    const struct due *d = world_find(w, j, 0);
    assert_int_equal(d->forecast.basis, FORECAST_STATED);
    assert_int_equal(d->warnings, WARN_STATED_USE);
    assert_int_equal(d->due_reading, -1);
    assert_true(says(d, "by the stated yearly use"));
    assert_false(says(d, "at -1"));
    j->rule.forecast = FORECAST_LIKELY;
    assert_deadline(w, j, "2026-05-31");
    j->rule.forecast = FORECAST_LATE;
    assert_deadline(w, j, "2026-08-03");
}

static void
with_nothing_to_go_by_it_needs_a_reading(void **state)
{
    struct world *w = *state;
    struct job *j = world_job(w, "oil", "20000 km");
    const struct due *d = world_due(w, j, "2026-01-01");

    assert_int_equal(d->state, DUE_NO_RECORD);
    done_at(w, j, "2025-06-01", 10000);
    d = world_due(w, j, "2026-01-01");
    assert_int_equal(d->state, DUE_NEEDS_READING);
    assert_int_equal(d->due_reading, 30000);
    assert_day(d->deadline, "-");
    assert_day(d->plan_day, "-");
    assert_reasoned(d);
}

/* The months still stand while no meter can tell. */
static void
months_stand_while_the_meter_cannot_tell(void **state)
{
    struct world *w = *state;
    struct job *j = world_job(w, "service", "12 months or 20000 km");

    world_done(w, j, "2025-06-01");
    assert_deadline(w, j, "2026-06-01");
    const struct due *d = world_find(w, j, 0);
    assert_int_equal(d->state, DUE_NEEDS_READING);
    assert_true(says(d, "20000 km"));
    assert_int_equal(world_due(w, j, "2026-06-02")->state, DUE_OVERDUE);
    fifty_a_day(w);
    assert_deadline(w, j, "2026-06-01");
    assert_int_equal(world_find(w, j, 0)->state, DUE_AHEAD);
    assert_true(says(world_find(w, j, 0), "12 months decides: it comes"));
}

static void
the_meter_may_come_first(void **state)
{
    struct world *w = *state;
    struct job *j = likely_job(w, "service", "24 months or 20000 km");

    fifty_a_day(w);
    done_at(w, j, "2026-01-01", 10000);
    assert_deadline(w, j, "2027-02-05");
    assert_true(says(world_find(w, j, 0),
        "days before 24 months, which would be Sat 2028-01-01"));
}

/* A reading that shows it makes it due on that day, and that is past. */
static void
reached_it_is_due(void **state)
{
    struct world *w = *state;
    struct job *j = world_job(w, "oil", "4000 km");

    fifty_a_day(w);
    done_at(w, j, "2026-01-01", 10000);
    assert_deadline(w, j, "2026-04-11");
    assert_int_equal(world_find(w, j, 0)->forecast.basis, FORECAST_REACHED);
    assert_int_equal(world_due(w, j, "2026-04-12")->state, DUE_OVERDUE);
}

/* The file says what the meter showed at the last service. */
static void
a_baseline_with_its_reading(void **state)
{
    struct world *w = *state;
    struct job *j = world_job(w, "oil", "20000 km");

    fifty_a_day(w);
    w->tasks[0].baseline.last = date("2025-12-02");
    w->tasks[0].baseline.last_reading[METER_DISTANCE] = 9000;
    assert_int_equal(world_due(w, j, "2026-01-01")->due_reading, 29000);
    /* A date that the file states is for the calendar, not for a meter. */
    w->tasks[0].baseline.deadline = date("2026-05-05");
    assert_int_equal(world_due(w, j, "2026-01-01")->due_reading, 29000);
    w->tasks[0].baseline.last = DAY_NONE;
    assert_int_equal(world_due(w, j, "2026-01-01")->state, DUE_NO_RECORD);
}

/* It counts as a reading: fifty a day since then, 15000 left on 11 April. */
static void
a_baseline_tells_a_rate(void **state)
{
    struct world *w = *state;
    struct job *j = likely_job(w, "oil", "20000 km");

    w->tasks[0].baseline.last = date("2026-01-01");
    w->tasks[0].baseline.last_reading[METER_DISTANCE] = 10000;
    world_reading(w, "2026-04-11", 15000);
    assert_deadline(w, j, "2027-02-05");
}

/* Half of the hundred days were on the road: 100 a day, 15000 left. */
static void
days_off_the_road_are_no_days_of_use(void **state)
{
    struct world *w = *state;
    struct job *j = likely_job(w, "oil", "20000 km");

    fifty_a_day(w);
    done_at(w, j, "2026-01-01", 10000);
    world_off_road(w, "2026-01-11", "2026-03-01");
    assert_deadline(w, j, "2026-09-08");
}

static struct record *
hours_reading(struct world *w, const char *day, int64_t value)
{
    struct record *k = world_reading(w, day, value);

    k->meter = METER_HOURS;
    return k;
}

/* Five hours a day; what the odometer shows is no help, nor what it showed
 * when the work was done. */
static void
running_hours(void **state)
{
    struct world *w = *state;
    struct job *j = likely_job(w, "lift", "250 hours");

    fifty_a_day(w);
    done_at(w, j, "2026-01-01", 10000);
    assert_int_equal(world_due(w, j, "2026-01-01")->state, DUE_NEEDS_READING);
    hours_reading(w, "2026-01-01", 100);
    hours_reading(w, "2026-01-21", 200);
    assert_deadline(w, j, "2026-02-20"); /* 150 left on 21 January */
    const struct due *d = world_find(w, j, 0);
    assert_int_equal(d->due_reading, 350);
    assert_true(says(d, "due at 350 hours"));
    w->n_records -= 2;
    w->subjects[0].yearly_hours = 1461; /* four a day */
    assert_true(world_due(w, j, "2026-01-01")->warnings & WARN_STATED_USE);
}

/* Of two meters the one that decides is shown: 350 hours on 20 February, not
 * 30000 km a year later. */
static void
the_reading_of_the_meter_that_decides(void **state)
{
    struct world *w = *state;
    struct job *j = likely_job(w, "lift", "20000 km or 250 hours");

    fifty_a_day(w);
    world_done(w, j, "2026-01-01");
    hours_reading(w, "2026-01-01", 100);
    hours_reading(w, "2026-01-21", 200);
    const struct due *d = world_due(w, j, "2026-01-01");
    assert_int_equal(d->due_reading, 350);
    assert_day(d->forecast.likely, "2026-02-20");
    world_every(w, &j->rule, "250 hours or 20000 km");
    d = world_due(w, j, "2026-01-01");
    assert_int_equal(d->due_reading, 350);
    assert_day(d->forecast.likely, "2026-02-20");
    world_every(w, &j->rule, "9000 hours or 20000 km or 1 month");
    d = world_due(w, j, "2026-01-01");
    assert_int_equal(d->due_reading, 9100);
    assert_day(d->deadline, "2026-02-01");
}

/* Three months from 11 April are good up to 11 July. */
static void
an_old_reading(void **state)
{
    struct world *w = *state;
    struct job *j = likely_job(w, "oil", "20000 km");

    fifty_a_day(w);
    done_at(w, j, "2026-01-01", 10000);
    assert_int_equal(world_due(w, j, "2027-01-01")->warnings, 0);
    j->rule.reading_within = (struct span){3, STEP_MONTHS};
    assert_int_equal(world_due(w, j, "2026-07-11")->state, DUE_AHEAD);
    const struct due *d = world_due(w, j, "2026-07-12");
    assert_int_equal(d->state, DUE_NEEDS_READING);
    assert_int_equal(d->warnings, WARN_OLD_READING);
    assert_day(d->deadline, "2027-02-05");
    d = world_due(w, j, "2027-02-06");
    assert_int_equal(d->state, DUE_OVERDUE);
    assert_true(d->warnings & WARN_OLD_READING);
}

/* A job by the hours asks how old the reading of the hours is. */
static void
an_old_reading_of_the_right_meter(void **state)
{
    struct world *w = *state;
    struct job *j = world_job(w, "lift", "2500 hours");

    world_done(w, j, "2026-01-01");
    hours_reading(w, "2026-01-01", 100);
    hours_reading(w, "2026-01-21", 200);
    fifty_a_day(w);
    j->rule.reading_within = (struct span){1, STEP_MONTHS};
    assert_true(world_due(w, j, "2026-04-20")->warnings & WARN_OLD_READING);
    world_every(w, &j->rule, "2500 km");
    j->rule.reading_within = (struct span){1, STEP_MONTHS};
    assert_false(world_due(w, j, "2026-04-20")->warnings & WARN_OLD_READING);
}

/* One kilometre in a hundred days: there are readings, and no need of one. */
static void
hardly_used_it_is_out_of_range(void **state)
{
    struct world *w = *state;
    struct job *j = world_job(w, "oil", "20000 km");

    world_reading(w, "2026-01-01", 10000);
    world_reading(w, "2026-04-11", 10001);
    world_done(w, j, "2026-01-01");
    const struct due *d = world_due(w, j, "2026-05-01");
    assert_int_equal(d->state, DUE_AHEAD);
    assert_true(d->warnings & WARN_OUT_OF_RANGE);
    assert_day(d->deadline, "-");
}

/* Taken as done on its day, the meter goes on at its rate: 20000 more at 50 a
 * day are 400 days from the plan day, Fri 2027-02-05. */
static void
the_next_cycle_by_the_same_rate(void **state)
{
    struct world *w = *state;
    struct job *j = likely_job(w, "oil", "20000 km");

    fifty_a_day(w);
    done_at(w, j, "2026-01-01", 10000);
    world_snapshot(w, "2026-05-01", "2028-12-31");
    const struct due *d = world_find(w, j, 1);
    assert_non_null(d);
    assert_day(d->deadline, "2028-03-11");
    assert_int_equal(d->due_reading, -1); /* nobody has read it yet */
    assert_reasoned(d);
}

/* The odometer counted miles up to the second reading: 6214 and 9321 are
 * 10000.46 and 15000.70 km, so 10000 and 15001. */
static void
readings_in_the_unit_of_before(void **state)
{
    struct world *w = *state;
    struct job *j = world_job(w, "oil", "20000 km");

    done_at(w, j, "2026-01-01", 6214)->other_unit = 1;
    world_reading(w, "2026-04-11", 9321)->other_unit = 1;
    const struct due *d = world_due(w, j, "2026-04-11");
    assert_int_equal(d->due_reading, 30000);
    assert_int_equal(d->forecast.basis, FORECAST_READINGS);
    world_reading(w, "2026-07-20", 30000);
    assert_int_equal(
        world_due(w, j, "2026-07-20")->forecast.basis, FORECAST_REACHED);
}

/* Parts of a kilometre are dropped on the early side: 9321 miles are 15000.70
 * km, from which it runs as from 15000; 21747 are 34998.40 km, which may be
 * 34999. */
static void
parts_of_one_err_early(void **state)
{
    struct world *w = *state;
    struct job *j = world_job(w, "oil", "19999 km");

    done_at(w, j, "2026-01-01", 9321)->other_unit = 1;
    assert_int_equal(world_due(w, j, "2026-01-01")->due_reading, 34999);
    world_reading(w, "2026-06-01", 21747)->other_unit = 1;
    assert_int_equal(
        world_due(w, j, "2026-06-01")->forecast.basis, FORECAST_REACHED);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        WORLD_TEST(the_due_reading_and_its_day),
        WORLD_TEST(the_reading_when_it_was_done),
        WORLD_TEST(no_reading_is_invented),
        WORLD_TEST(a_noted_reading_that_a_later_one_belies),
        WORLD_TEST(a_noted_reading_stands_where_the_later_one_is_wrong),
        WORLD_TEST(miles_and_kilometres),
        WORLD_TEST(the_stated_use_and_its_doubt),
        WORLD_TEST(with_nothing_to_go_by_it_needs_a_reading),
        WORLD_TEST(months_stand_while_the_meter_cannot_tell),
        WORLD_TEST(the_meter_may_come_first),
        WORLD_TEST(reached_it_is_due),
        WORLD_TEST(a_baseline_with_its_reading),
        WORLD_TEST(a_baseline_tells_a_rate),
        WORLD_TEST(days_off_the_road_are_no_days_of_use),
        WORLD_TEST(running_hours),
        WORLD_TEST(the_reading_of_the_meter_that_decides),
        WORLD_TEST(an_old_reading),
        WORLD_TEST(an_old_reading_of_the_right_meter),
        WORLD_TEST(readings_in_the_unit_of_before),
        WORLD_TEST(parts_of_one_err_early),
        WORLD_TEST(hardly_used_it_is_out_of_range),
        WORLD_TEST(the_next_cycle_by_the_same_rate),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
