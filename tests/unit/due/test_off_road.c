/* Spells off the road: a job runs on or waits, and is due before the return. */
#include "fixture.h"
#include "test.h"

/* Every six weeks, done on Mon 2026-01-05: Mon 2026-02-16. */
static struct job *
inspection(struct world *w)
{
    struct job *j = world_job(w, "inspection", "6 weeks");

    world_done(w, j, "2026-01-05");
    return j;
}

static void
running_on_a_spell_in_between_changes_nothing(void **state)
{
    struct world *w = *state;
    struct job *j = inspection(w);

    world_off_road(w, "2026-01-10", "2026-02-15");
    world_off_road(w, "2026-02-17", "2026-03-01");
    assert_deadline(w, j, "2026-02-16");
    assert_int_equal(world_find(w, j, 0)->state, DUE_AHEAD);
}

static void
a_deadline_in_a_spell_waits_for_the_return(void **state)
{
    struct world *w = *state;
    struct job *j = inspection(w);
    struct record *k = world_off_road(w, "2026-02-10", "2026-02-20");

    assert_deadline(w, j, "2026-02-20");
    assert_int_equal(world_find(w, j, 0)->state, DUE_BEFORE_RETURN);
    k->day = date("2026-02-16"); /* its first day is off the road too */
    assert_deadline(w, j, "2026-02-20");
    k->until = date("2026-02-16"); /* and its last */
    assert_deadline(w, j, "2026-02-16");
    assert_int_equal(world_find(w, j, 0)->state, DUE_BEFORE_RETURN);
}

/* The last day of the spell is the last on which it is in time. */
static void
back_without_it_is_overdue(void **state)
{
    struct world *w = *state;
    struct job *j = inspection(w);

    world_off_road(w, "2026-02-10", "2026-02-20");
    assert_int_equal(world_due(w, j, "2026-02-20")->state, DUE_BEFORE_RETURN);
    assert_int_equal(world_due(w, j, "2026-02-21")->state, DUE_OVERDUE);
}

/* The deadline stays to be seen, but there is no day to plan for. */
static void
with_no_return_known_there_is_no_plan_day(void **state)
{
    struct world *w = *state;
    struct job *j = inspection(w);

    world_off_road(w, "2026-02-10", "-");
    const struct due *d = world_due(w, j, "2027-01-01");
    assert_int_equal(d->state, DUE_BEFORE_RETURN);
    assert_day(d->deadline, "2026-02-16");
    assert_day(d->plan_day, "-");
    assert_day(d->book_by, "-");
    assert_reasoned(d);
    assert_true(says(d, "off the road from Tue 2026-02-10 with no return"));
}

/* It was due before the spell began, so it is overdue in it. */
static void
overdue_before_the_spell_stays_overdue(void **state)
{
    struct world *w = *state;
    struct job *j = inspection(w);

    world_off_road(w, "2026-02-17", "-");
    assert_deadline(w, j, "2026-02-16");
    const struct due *d = world_due(w, j, "2026-03-01");
    assert_int_equal(d->state, DUE_OVERDUE);
    assert_int_equal(d->warnings & WARN_BEFORE_RETURN, WARN_BEFORE_RETURN);
    assert_day(d->back, "-");
    /* Before the spell, or without one, there is no return to wait for. */
    assert_int_equal(
        world_due(w, j, "2026-02-16")->warnings & WARN_BEFORE_RETURN, 0);
    w->records[1].until = date("2026-03-10");
    d = world_due(w, j, "2026-03-10");
    assert_int_equal(d->warnings & WARN_BEFORE_RETURN, WARN_BEFORE_RETURN);
    assert_day(d->back, "2026-03-10");
    d = world_due(w, j, "2026-03-11");
    assert_int_equal(d->state, DUE_OVERDUE);
    assert_int_equal(d->warnings & WARN_BEFORE_RETURN, 0);
}

/* Done on Sun 2026-01-04, so due on Sun 2026-02-15, and its last day off the
 * road is that day or one near it. */
static void
no_roll_passes_a_return(void **state)
{
    struct world *w = *state;
    struct job *j = inspection(w);
    struct record *k = world_off_road(w, "2026-02-10", "2026-02-15");

    w->records[0].day = date("2026-01-04");
    j->rule.roll = ROLL_FOLLOWING;
    assert_deadline(w, j, "2026-02-15");
    assert_day(world_find(w, j, 0)->plan_day, "2026-02-13");
    assert_int_equal(world_find(w, j, 0)->state, DUE_BEFORE_RETURN);
    j->rule.roll = ROLL_NEAREST; /* a Sunday goes to the Monday */
    assert_deadline(w, j, "2026-02-15");
    /* Due on the Saturday, back on the Sunday. */
    j->rule.roll = ROLL_FOLLOWING;
    w->records[0].day = date("2026-01-03");
    k->day = k->until = date("2026-02-15");
    assert_deadline(w, j, "2026-02-14");
    assert_day(world_find(w, j, 0)->plan_day, "2026-02-13");
    /* With the spell over by then it does roll. */
    k->day = k->until = date("2026-02-13");
    assert_deadline(w, j, "2026-02-16");
}

/* Due on Sun 2026-02-15, off the road from the Monday: on the Monday it would
 * count as due before the return, days later. */
static void
no_roll_goes_into_a_spell(void **state)
{
    struct world *w = *state;
    struct job *j = inspection(w);
    struct record *k = world_off_road(w, "2026-02-16", "2026-02-20");

    w->records[0].day = date("2026-01-04");
    j->rule.roll = ROLL_FOLLOWING;
    assert_deadline(w, j, "2026-02-15");
    assert_day(world_find(w, j, 0)->plan_day, "2026-02-13");
    assert_true(says(world_find(w, j, 0), "not rolled to Mon 2026-02-16"));
    k->until = DAY_NONE;
    assert_deadline(w, j, "2026-02-15");
    k->day = date("2026-02-17");
    assert_deadline(w, j, "2026-02-16");
}

/* Every ten weeks, from twelve years old every six; twelve on 2026-12-10.  Done
 * on 2026-10-14: ten weeks end on 23 December, six on 25 November.  The five
 * days off the road from 1 November put both off, to 28 December and to 30
 * November, and leave the birthday where it is. */
static void
a_birthday_does_not_wait(void **state)
{
    struct world *w = *state;
    struct job *j = world_job(w, "inspection", "10 weeks");
    struct record *done = world_done(w, j, "2026-10-14");
    struct record *k = world_off_road(w, "2026-11-01", "2026-11-05");

    w->subjects[0].built = date("2014-12-10");
    j->rule.age_from = ORIGIN_BUILT;
    j->rule.ages[0] = (struct age_step){{12, STEP_YEARS}, {6, STEP_WEEKS}};
    j->rule.n_ages = 1;
    j->rule.off_road = OFF_ROAD_WAITS;
    assert_deadline(w, j, "2026-12-10");
    /* Ten weeks end on 9 December, and pass the birthday by waiting. */
    done->day = date("2026-09-30");
    assert_deadline(w, j, "2026-12-10");
    /* Six weeks end on 1 January, and they wait. */
    done->day = date("2026-11-20");
    k->day = date("2026-12-01");
    k->until = date("2026-12-10");
    assert_deadline(w, j, "2027-01-11");
    /* A birthday off the road: before the return. */
    done->day = date("2026-10-14");
    k->until = date("2026-12-12");
    assert_deadline(w, j, "2026-12-12");
    assert_int_equal(world_find(w, j, 0)->state, DUE_BEFORE_RETURN);
}

static void
waiting_does_not_count_the_days(void **state)
{
    struct world *w = *state;
    struct job *j = inspection(w);

    j->rule.off_road = OFF_ROAD_WAITS;
    world_off_road(w, "2026-01-10", "2026-01-19"); /* ten days */
    assert_deadline(w, j, "2026-02-26");
    assert_true(says(world_find(w, j, 0), "the job waits for those 10 days"));
    world_off_road(w, "2026-02-20", "2026-02-21"); /* two more */
    assert_deadline(w, j, "2026-02-28");
}

/* Days up to the completion are not part of its interval. */
static void
a_spell_around_the_completion(void **state)
{
    struct world *w = *state;
    struct job *j = inspection(w);

    j->rule.off_road = OFF_ROAD_WAITS;
    struct record *k = world_off_road(w, "2025-12-20", "2026-01-07");
    assert_deadline(w, j, "2026-02-18"); /* the 6th and the 7th */
    k->until = date("2026-01-05");
    assert_deadline(w, j, "2026-02-16");
    assert_false(has_reason(world_find(w, j, 0), REASON_OFF_ROAD));
}

/* A spell that has begun by the deadline counts whole: ten days. */
static void
a_spell_that_reaches_past_the_deadline(void **state)
{
    struct world *w = *state;
    struct job *j = inspection(w);

    j->rule.off_road = OFF_ROAD_WAITS;
    struct record *k = world_off_road(w, "2026-02-16", "2026-02-25");
    assert_deadline(w, j, "2026-02-26");
    assert_int_equal(world_find(w, j, 0)->state, DUE_AHEAD);
    k->day = date("2026-02-17");
    assert_deadline(w, j, "2026-02-16");
}

static void
waiting_with_no_return_known(void **state)
{
    struct world *w = *state;
    struct job *j = inspection(w);

    j->rule.off_road = OFF_ROAD_WAITS;
    world_off_road(w, "2026-01-10", "-");
    assert_deadline(w, j, "2026-02-16");
    assert_day(world_find(w, j, 0)->plan_day, "-");
    assert_int_equal(world_find(w, j, 0)->state, DUE_BEFORE_RETURN);
}

/* Two accounts of one spell, one inside the other, and one that goes on where
 * they end: 10 to 19 January, ten days in all. */
static void
overlapping_spells_are_one(void **state)
{
    struct world *w = *state;
    struct job *j = inspection(w);

    j->rule.off_road = OFF_ROAD_WAITS;
    world_off_road(w, "2026-01-10", "2026-01-15");
    world_off_road(w, "2026-01-12", "2026-01-13");
    world_off_road(w, "2026-01-14", "2026-01-17");
    world_off_road(w, "2026-01-18", "2026-01-19");
    assert_deadline(w, j, "2026-02-26");
}

/* The spell goes on the day after, so the return is the second one's end. */
static void
adjoining_spells_are_one(void **state)
{
    struct world *w = *state;
    struct job *j = inspection(w);

    world_off_road(w, "2026-02-10", "2026-02-16");
    struct record *k = world_off_road(w, "2026-02-17", "2026-02-24");
    assert_deadline(w, j, "2026-02-24");
    k->day = date("2026-02-18"); /* back for a day */
    assert_deadline(w, j, "2026-02-16");
    k->day = date("2026-02-12");
    k->until = DAY_NONE;
    assert_deadline(w, j, "2026-02-16");
    assert_day(world_find(w, j, 0)->plan_day, "-");
}

/* An extinguisher is off the road with the bus that carries it, and works at
 * its depot. */
static void
equipment_follows_its_carrier(void **state)
{
    struct world *w = *state;
    struct job *j = world_loose_job(w, "service", "6 weeks");
    struct subject *extinguisher = world_subject(w, "EX-31");

    extinguisher->carrier = extinguisher->first_carrier = &w->subjects[0];
    extinguisher->depot = NULL;
    world_task(w, extinguisher, j);
    world_done(w, j, "2026-01-05")->subject = extinguisher;
    world_off_road(w, "2026-02-10", "2026-02-20"); /* of K7 */
    world_snapshot(w, "2026-01-06", "-");
    const struct due *d = world_find_of(w, 1, j, 0);
    assert_int_equal(d->state, DUE_BEFORE_RETURN);
    assert_day(d->deadline, "2026-02-20");
    assert_ptr_equal(fleet_depot(extinguisher), &w->depot);
    /* What is carried does not take its carrier off the road. */
    w->records[1].subject = extinguisher;
    struct job *own = world_job(w, "inspection", "6 weeks");
    world_done(w, own, "2026-01-05");
    world_snapshot(w, "2026-01-06", "-");
    assert_int_equal(world_find_of(w, 0, own, 0)->state, DUE_AHEAD);
    assert_int_equal(world_find_of(w, 1, j, 0)->state, DUE_BEFORE_RETURN);
}

/*
 * It moves from K7 to K8 on 1 February.  Waiting 4 weeks from 5 January, to 2
 * February: 20 January to 2 February off the road with K7 count up to 31
 * January, 12 days; the week in January of K8 does not; 10 to 12 February of
 * K8, 3 days, does.
 */
static void
off_the_road_with_each_carrier_in_turn(void **state)
{
    struct world *w = *state;
    struct job *j = world_loose_job(w, "service", "4 weeks");
    struct subject *extinguisher = world_subject(w, "EX-31");
    struct subject *other = world_subject(w, "K8");

    j->rule.off_road = OFF_ROAD_WAITS;
    extinguisher->first_carrier = &w->subjects[0];
    extinguisher->carrier = other;
    world_task(w, extinguisher, j);
    world_done(w, j, "2026-01-05")->subject = extinguisher;
    struct record *move = world_record(w, RECORD_MOVED, "2026-02-01");
    move->subject = extinguisher;
    move->other = other;
    world_off_road(w, "2026-01-20", "2026-02-02"); /* of K7 */
    world_off_road(w, "2026-02-13", "-");
    world_off_road(w, "2026-01-08", "2026-01-14")->subject = other;
    world_off_road(w, "2026-02-10", "2026-02-12")->subject = other;
    world_snapshot(w, "2026-01-06", "-");
    const struct due *d = world_find_of(w, 1, j, 0);
    assert_day(d->deadline, "2026-02-17");
    assert_int_equal(d->state, DUE_AHEAD);
}

/* Four weeks from the deadline of 11 January, and ten days of waiting; the
 * rhythm goes on from there. */
static void
a_waiting_rhythm(void **state)
{
    struct world *w = *state;
    struct job *j = world_job(w, "inspection", "4 weeks");

    j->rule.runs_from = FROM_DEADLINE;
    j->rule.off_road = OFF_ROAD_WAITS;
    j->rule.first =
        (struct first){.origin = ORIGIN_ON, .on = date("2026-01-11")};
    world_done(w, j, "2026-01-09");
    world_off_road(w, "2026-01-20", "2026-01-29");
    assert_deadline(w, j, "2026-02-18");
    assert_true(has_reason(world_find(w, j, 0), REASON_OFF_ROAD));
    world_done(w, j, "2026-02-18");
    assert_deadline(w, j, "2026-03-18");
}

static void
a_waiting_first_deadline(void **state)
{
    struct world *w = *state;
    struct job *j = world_job(w, "inspection", "4 weeks");

    w->subjects[0].in_service = date("2026-01-05");
    j->rule.off_road = OFF_ROAD_WAITS;
    j->rule.first =
        (struct first){ORIGIN_IN_SERVICE, {6, STEP_WEEKS}, DAY_NONE};
    world_off_road(w, "2026-01-10", "2026-01-19");
    assert_deadline(w, j, "2026-02-26");
}

/* Ten days, of which two are told of twice. */
static void
a_spell_within_a_spell(void **state)
{
    struct world *w = *state;
    struct job *j = inspection(w);

    j->rule.off_road = OFF_ROAD_WAITS;
    world_off_road(w, "2026-01-10", "2026-01-19");
    world_off_road(w, "2026-01-12", "2026-01-13");
    assert_deadline(w, j, "2026-02-26");
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        WORLD_TEST(running_on_a_spell_in_between_changes_nothing),
        WORLD_TEST(a_deadline_in_a_spell_waits_for_the_return),
        WORLD_TEST(back_without_it_is_overdue),
        WORLD_TEST(with_no_return_known_there_is_no_plan_day),
        WORLD_TEST(overdue_before_the_spell_stays_overdue),
        WORLD_TEST(no_roll_passes_a_return),
        WORLD_TEST(no_roll_goes_into_a_spell),
        WORLD_TEST(a_birthday_does_not_wait),
        WORLD_TEST(waiting_does_not_count_the_days),
        WORLD_TEST(a_spell_around_the_completion),
        WORLD_TEST(a_spell_that_reaches_past_the_deadline),
        WORLD_TEST(waiting_with_no_return_known),
        WORLD_TEST(overlapping_spells_are_one),
        WORLD_TEST(adjoining_spells_are_one),
        WORLD_TEST(equipment_follows_its_carrier),
        WORLD_TEST(off_the_road_with_each_carrier_in_turn),
        WORLD_TEST(a_waiting_rhythm),
        WORLD_TEST(a_waiting_first_deadline),
        WORLD_TEST(a_spell_within_a_spell),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
