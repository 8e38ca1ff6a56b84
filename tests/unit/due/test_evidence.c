/* What was due and when it was done, for somebody who asks years later. */
#include <stdio.h>

#include "evidence.h"
#include "fixture.h"
#include "test.h"

#define LINES 1024

static const char *
word(const struct proof *p)
{
    if (p->open)
        return "open";
    if (p->done == DAY_NONE)
        return "not done";
    if (p->failed)
        return "failed";
    if (p->extra)
        return "extra";
    return evidence_in_time(p) ? "in time" : "late";
}

/* Each proof of the subject with that number as a line: the job, the deadline,
 * the day it was done, the record, and whether that was in time. */
static void
write_proofs(struct world *w, size_t subject, const char *from, const char *to,
    const char *today, char out[LINES])
{
    char deadline[DAY_TEXT];
    char done[DAY_TEXT];
    size_t at = 0;
    size_t n;

    world_group(w);
    struct evidence *e = evidence_new(
        &w->facts, &w->subjects[subject], date(from), date(to), date(today));
    assert_non_null(e);
    const struct proof *p = evidence_proofs(e, &n);
    out[0] = '\0';
    for (size_t i = 0; i < n && at < LINES; i++)
        at += (size_t)snprintf(out + at, LINES - at, "%s %s %s r%d %s\n",
            p[i].task->job->id, day_text(p[i].deadline, deadline),
            day_text(p[i].done, done), p[i].record ? (int)p[i].record->id : 0,
            word(&p[i]));
    evidence_free(e);
}

/* Fail unless the proofs of K7 in that stretch of time, drawn up on that day,
 * are these lines. */
#define assert_proofs(w, from, to, today, expected)                            \
    do {                                                                       \
        char lines_[LINES];                                                    \
        write_proofs((w), 0, (from), (to), (today), lines_);                   \
        assert_string_equal(lines_, (expected));                               \
    } while (0)

/* Every six months from the last time.  10 July 2025 and six months is 10
 * January 2026; 30 December and six is 30 June; 15 July and six 15 January. */
static struct job *
service(struct world *w)
{
    struct job *j = world_job(w, "service", "6 months");

    world_done(w, j, "2025-01-10");
    world_done(w, j, "2025-07-10");
    world_done(w, j, "2025-12-30");
    world_done(w, j, "2026-07-15");
    return j;
}

static void
the_deadline_that_stood_before_each(void **state)
{
    struct world *w = *state;

    service(w);
    assert_proofs(w, "2025-01-01", "2026-12-31", "2026-12-02",
        "service - 2025-01-10 r1 in time\n"
        "service 2025-07-10 2025-07-10 r2 in time\n"
        "service 2026-01-10 2025-12-30 r3 in time\n"
        "service 2026-06-30 2026-07-15 r4 late\n");
}

/* The deadline is 15 January 2027, which itself is in time. */
static void
what_is_not_done_in_time(void **state)
{
    struct world *w = *state;

    service(w);
    assert_proofs(w, "2027-01-01", "2027-12-31", "2027-01-15", "");
    assert_proofs(w, "2027-01-01", "2027-12-31", "2027-01-16",
        "service 2027-01-15 - r0 not done\n");
    assert_proofs(w, "2027-01-16", "2027-12-31", "2027-02-01", "");
}

/* Both ends belong to it.  What was done counts by the day it was done, however
 * long ago its deadline. */
static void
a_stretch_that_cuts(void **state)
{
    struct world *w = *state;

    service(w);
    assert_proofs(w, "2025-07-10", "2025-12-30", "2026-12-02",
        "service 2025-07-10 2025-07-10 r2 in time\n"
        "service 2026-01-10 2025-12-30 r3 in time\n");
    assert_proofs(w, "2025-07-11", "2025-12-29", "2026-12-02", "");
    assert_proofs(w, "2026-07-01", "2026-12-02", "2026-12-02",
        "service 2026-06-30 2026-07-15 r4 late\n");
    assert_proofs(w, "2026-01-01", "2026-06-30", "2026-12-02", "");
}

/*
 * A date that is kept: first 12 months after 16 May 2019; done on 10 May 2020,
 * in its window of a month, so 16 May 2021; done four days late, so afresh
 * from 20 May 2021, to the day before that.
 */
static void
the_date_that_was_kept_or_lost(void **state)
{
    struct world *w = *state;
    struct job *j = world_job(w, "test", "12 months");

    w->subjects[0].registered = date("2019-05-16");
    j->rule.first = (struct first){ORIGIN_REGISTERED, {12, STEP_MONTHS}, 0};
    j->rule.runs_from = KEEPS_DATE;
    j->rule.first_kept = 1;
    j->rule.window = (struct span){1, STEP_MONTHS};
    j->rule.ends = ENDS_DAY_BEFORE;
    world_done(w, j, "2020-05-10");
    world_done(w, j, "2021-05-20");
    world_done(w, j, "2022-05-01");
    assert_proofs(w, "2019-01-01", "2022-12-31", "2022-12-31",
        "test 2020-05-16 2020-05-10 r1 in time\n"
        "test 2021-05-16 2021-05-20 r2 late\n"
        "test 2022-05-19 2022-05-01 r3 in time\n");
    /* And what was never done at all. */
    w->n_records = 0;
    assert_proofs(w, "2019-01-01", "2022-12-31", "2022-12-31",
        "test 2020-05-16 - r0 not done\n");
}

/* With 1 November 2025 met, 1 March is in the first half of the year to the
 * next, so it is an extra with no deadline to meet; 1 June counts for it. */
static void
an_extra_meets_no_deadline(void **state)
{
    struct world *w = *state;
    struct job *j = world_job(w, "winter", "yearly on 1 nov");

    world_done(w, j, "2024-11-01");
    world_done(w, j, "2025-11-03");
    world_done(w, j, "2026-03-01");
    world_done(w, j, "2026-06-01");
    assert_proofs(w, "2024-11-01", "2026-12-31", "2026-12-31",
        "winter - 2024-11-01 r1 in time\n"
        "winter 2025-11-01 2025-11-03 r2 late\n"
        "winter - 2026-03-01 r3 extra\n"
        "winter 2026-11-01 2026-06-01 r4 in time\n");
}

/* It leaves the deadline where it was: six months after 10 January. */
static void
a_failure_is_no_work_done(void **state)
{
    struct world *w = *state;
    struct job *j = world_job(w, "service", "6 months");

    world_done(w, j, "2026-01-10");
    world_done(w, j, "2026-07-08")->kind = RECORD_FAILED;
    world_done(w, j, "2026-07-12");
    assert_proofs(w, "2026-01-01", "2026-12-31", "2026-12-31",
        "service - 2026-01-10 r1 in time\n"
        "service 2026-07-10 2026-07-08 r2 failed\n"
        "service 2026-07-10 2026-07-12 r3 late\n");
    assert_proofs(w, "2026-07-09", "2026-12-31", "2026-12-31",
        "service 2026-07-10 2026-07-12 r3 late\n");
}

/* What was due before it is not known; what is due after it is. */
static void
what_the_fleet_file_says_was_done(void **state)
{
    struct world *w = *state;
    struct job *j = world_job(w, "service", "6 months");

    w->subjects[0].registered = date("2024-01-01");
    j->rule.first = (struct first){ORIGIN_REGISTERED, {6, STEP_MONTHS}, 0};
    w->tasks[0].baseline.last = date("2026-01-10");
    world_done(w, j, "2026-07-10");
    assert_proofs(w, "2026-01-01", "2026-12-31", "2026-12-31",
        "service - 2026-01-10 r0 in time\n"
        "service 2026-07-10 2026-07-10 r1 in time\n");
    /* A certificate may state another day. */
    w->tasks[0].baseline.deadline = date("2026-07-09");
    assert_proofs(w, "2026-07-01", "2026-12-31", "2026-12-31",
        "service 2026-07-09 2026-07-10 r1 late\n");
}

/* Work that covers it is done in its stead, and once for each of the two. */
static void
wider_work(void **state)
{
    struct world *w = *state;
    struct job *wide = world_job(w, "big", "12 months");
    struct job *j = world_job(w, "small", "6 months");
    const struct job *covered[] = {j};

    wide->covers = covered;
    wide->n_covers = 1;
    world_done(w, j, "2026-01-10");
    world_done(w, wide, "2026-07-08");
    assert_proofs(w, "2026-01-01", "2026-12-31", "2026-12-31",
        "small - 2026-01-10 r1 in time\n"
        "big - 2026-07-08 r2 in time\n"
        "small 2026-07-10 2026-07-08 r2 in time\n");
}

/*
 * Two drills in twelve months, of which a real alarm may be one.  The alarm is
 * no drill that was done; but it counts: the last but one is then 1 October
 * 2025 and not 1 June.
 */
static void
what_also_counts_is_not_shown(void **state)
{
    struct world *w = *state;
    struct job *alarm = world_loose_job(w, "alarm", "when needed");
    struct job *j = world_job(w, "drill", "2 within 12 months");

    j->also_counts = (struct also_counts){alarm, 1};
    world_done(w, j, "2025-06-01");
    world_done(w, alarm, "2025-10-01");
    world_done(w, j, "2026-05-01");
    world_done(w, j, "2026-10-02");
    assert_proofs(w, "2025-01-01", "2026-12-31", "2026-12-31",
        "drill - 2025-06-01 r1 in time\n"
        "drill 2026-06-01 2026-05-01 r3 in time\n"
        "drill 2026-10-01 2026-10-02 r4 late\n");
}

/* A torque check within 7 days of work on the wheels. */
static struct job *
torque(struct world *w, struct job **wheels)
{
    struct job *j;
    const struct job **followed = arena_take(w->arena, sizeof *followed);

    *wheels = world_loose_job(w, "wheels", "when needed");
    j = world_job(w, "torque", "7 days");
    assert_non_null(followed);
    followed[0] = *wheels;
    j->follows = followed;
    j->n_follows = 1;
    return j;
}

/* Open from the day it is called for, not done once its deadline is past, and
 * then late. */
static void
a_call_that_is_open(void **state)
{
    struct world *w = *state;
    struct job *wheels;
    struct job *j = torque(w, &wheels);

    world_done(w, wheels, "2026-01-05");
    assert_proofs(w, "2026-01-01", "2026-01-04", "2026-01-12", "");
    assert_proofs(w, "2026-01-01", "2026-01-05", "2026-01-12",
        "torque 2026-01-12 - r0 open\n");
    assert_proofs(w, "2026-01-01", "2026-12-31", "2026-01-13",
        "torque 2026-01-12 - r0 not done\n");
    world_done(w, j, "2026-01-20");
    assert_proofs(w, "2026-01-01", "2026-12-31", "2026-12-31",
        "torque 2026-01-12 2026-01-20 r2 late\n");
}

/* Called for on the 5th, 10th and 14th: done on the 14th, after the wheels that
 * day, it is late for the first and in time for the others.  What was done
 * before any call, or once more, met no deadline. */
static void
each_call_has_its_own_deadline(void **state)
{
    struct world *w = *state;
    struct job *wheels;
    struct job *j = torque(w, &wheels);

    world_done(w, j, "2026-01-04");
    world_done(w, wheels, "2026-01-05");
    world_done(w, wheels, "2026-01-10");
    world_done(w, wheels, "2026-01-14");
    world_done(w, j, "2026-01-14");
    world_done(w, j, "2026-01-15");
    assert_proofs(w, "2026-01-01", "2026-12-31", "2026-01-16",
        "torque - 2026-01-04 r1 extra\n"
        "torque 2026-01-12 2026-01-14 r5 late\n"
        "torque 2026-01-17 2026-01-14 r5 in time\n"
        "torque 2026-01-21 2026-01-14 r5 in time\n"
        "torque - 2026-01-15 r6 extra\n");
}

/* A failed check answers nothing; the oldest call stood, that of the 12th. */
static void
a_check_that_failed_answers_nothing(void **state)
{
    struct world *w = *state;
    struct job *wheels;
    struct job *j = torque(w, &wheels);

    world_done(w, wheels, "2026-01-05");
    world_done(w, wheels, "2026-01-08");
    world_done(w, j, "2026-01-09")->kind = RECORD_FAILED;
    world_done(w, wheels, "2026-01-10");
    world_done(w, j, "2026-01-11");
    world_done(w, j, "2026-01-12")->kind = RECORD_FAILED;
    assert_proofs(w, "2026-01-09", "2026-12-31", "2026-01-16",
        "torque 2026-01-12 2026-01-09 r3 failed\n"
        "torque 2026-01-12 2026-01-11 r5 in time\n"
        "torque 2026-01-15 2026-01-11 r5 in time\n"
        "torque 2026-01-17 2026-01-11 r5 in time\n"
        "torque - 2026-01-12 r6 failed\n");
}

/* On one day, the order of entry: failed with the old deadline and then passed;
 * passed and then failed, with the new one, six months on. */
static void
a_failure_and_a_pass_of_one_day(void **state)
{
    struct world *w = *state;
    struct job *j = world_job(w, "service", "6 months");

    world_done(w, j, "2025-01-10");
    world_done(w, j, "2025-07-01")->kind = RECORD_FAILED;
    world_done(w, j, "2025-07-01");
    world_done(w, j, "2026-01-01");
    world_done(w, j, "2026-01-01")->kind = RECORD_FAILED;
    assert_proofs(w, "2025-07-01", "2026-06-30", "2026-06-30",
        "service 2025-07-10 2025-07-01 r2 failed\n"
        "service 2025-07-10 2025-07-01 r3 in time\n"
        "service 2026-01-01 2026-01-01 r4 in time\n"
        "service 2026-07-01 2026-01-01 r5 failed\n");
}

/* What the file states of the day of a failure has no place among the records,
 * and is taken for the end of that day. */
static void
a_failure_and_the_file_of_one_day(void **state)
{
    struct world *w = *state;
    struct job *j = world_job(w, "service", "6 months");

    w->tasks[0].baseline.last = date("2025-07-01");
    world_done(w, j, "2025-01-10");
    world_done(w, j, "2025-07-01")->kind = RECORD_FAILED;
    assert_proofs(w, "2025-07-01", "2025-12-31", "2025-12-31",
        "service 2025-07-10 2025-07-01 r2 failed\n"
        "service - 2025-07-01 r0 in time\n");
}

/* Every 10,000 km from 40,000: at 50,000 in time, at 61,500 1,500 too late,
 * whatever day was foretold. */
static void
more_on_the_meter_than_was_due(void **state)
{
    struct world *w = *state;
    struct job *j = world_job(w, "oil", "10000 km");
    static const int64_t readings[] = {40000, 50000, 61500};
    const char *const days[] = {"2025-01-01", "2025-07-01", "2025-12-01"};
    char lines[LINES];

    w->subjects[0].yearly_distance = 20000;
    for (int i = 0; i < 3; i++) {
        struct record *k = world_done(w, j, days[i]);
        k->meter = METER_DISTANCE;
        k->reading = readings[i];
    }
    write_proofs(w, 0, "2025-02-01", "2025-12-31", "2025-12-31", lines);
    assert_non_null(strstr(lines, "2025-07-01 r2 in time\n"));
    assert_non_null(strstr(lines, "2025-12-01 r3 late\n"));
}

/* A deadline in a spell off the road is met by the last day of the spell; with
 * no return known there is none to miss. */
static void
off_the_road(void **state)
{
    struct world *w = *state;
    struct job *j = world_job(w, "service", "6 months");
    struct record *spell = world_off_road(w, "2026-07-01", "2026-08-20");

    world_done(w, j, "2026-01-10");
    assert_proofs(w, "2026-07-01", "2026-12-31", "2026-12-31",
        "service 2026-08-20 - r0 not done\n");
    world_done(w, j, "2026-08-19");
    assert_proofs(w, "2026-07-01", "2026-12-31", "2026-12-31",
        "service 2026-08-20 2026-08-19 r3 in time\n");
    w->n_records--;
    spell->until = DAY_NONE;
    assert_proofs(w, "2026-07-01", "2026-12-31", "2026-12-31", "");
}

/* By the day, and on one day as the fleet file lists them; a missed one stands
 * on its deadline.  Of another subject nothing. */
static void
in_order_and_of_one_subject(void **state)
{
    struct world *w = *state;
    struct job *a = world_job(w, "a", "1 month");
    struct job *b = world_job(w, "b", "1 month");

    world_task(w, world_subject(w, "K8"), a);
    world_done(w, b, "2026-03-03");
    world_done(w, a, "2026-03-03");
    world_done(w, b, "2026-04-10");
    struct record *other = world_done(w, a, "2026-03-20");
    other->subject = &w->subjects[1];
    other->subject_id = "K8";
    assert_proofs(w, "2026-01-01", "2026-04-30", "2026-05-01",
        "a - 2026-03-03 r2 in time\n"
        "b - 2026-03-03 r1 in time\n"
        "a 2026-04-03 - r0 not done\n"
        "b 2026-04-03 2026-04-10 r3 late\n");
    char lines[LINES];
    write_proofs(w, 1, "2026-01-01", "2026-04-30", "2026-05-01", lines);
    assert_string_equal(lines, "a - 2026-03-20 r4 in time\n"
                               "a 2026-04-20 - r0 not done\n");
}

/* More than the list first has room for: one a day for 60 days. */
static void
a_long_list(void **state)
{
    struct world *w = *state;
    struct job *j = world_job(w, "check", "1 day");
    size_t n;

    world_done(w, j, "2026-01-01");
    for (int i = 1; i < 60; i++)
        world_done(w, j, "2026-01-01")->day += i;
    world_group(w);
    struct evidence *e = evidence_new(&w->facts, &w->subjects[0],
        date("2026-01-01"), date("2026-03-01"), date("2026-03-01"));
    assert_non_null(e);
    const struct proof *p = evidence_proofs(e, &n);
    assert_int_equal(n, 60);
    assert_day(p[59].done, "2026-03-01");
    assert_day(p[59].deadline, "2026-03-01");
    evidence_free(e);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        WORLD_TEST(the_deadline_that_stood_before_each),
        WORLD_TEST(what_is_not_done_in_time),
        WORLD_TEST(a_stretch_that_cuts),
        WORLD_TEST(the_date_that_was_kept_or_lost),
        WORLD_TEST(an_extra_meets_no_deadline),
        WORLD_TEST(a_failure_is_no_work_done),
        WORLD_TEST(what_the_fleet_file_says_was_done),
        WORLD_TEST(wider_work),
        WORLD_TEST(what_also_counts_is_not_shown),
        WORLD_TEST(a_call_that_is_open),
        WORLD_TEST(each_call_has_its_own_deadline),
        WORLD_TEST(a_check_that_failed_answers_nothing),
        WORLD_TEST(a_failure_and_a_pass_of_one_day),
        WORLD_TEST(a_failure_and_the_file_of_one_day),
        WORLD_TEST(more_on_the_meter_than_was_due),
        WORLD_TEST(off_the_road),
        WORLD_TEST(in_order_and_of_one_subject),
        WORLD_TEST(a_long_list),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
