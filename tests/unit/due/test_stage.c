/* Reminder stages: which has been reached, and whom it concerns. */
#include "fixture.h"
#include "stage.h"
#include "test.h"

/* Deadline Sunday 2026-05-17, 8 weeks, 4 weeks and 0 days before it, then
 * every 2 days. */
static struct job *
reminded(struct world *w)
{
    struct job *j = world_job(w, "job", "10 days");

    world_done(w, j, "2026-05-07");
    j->rule.remind = (struct reminders){
        .before = {{8, STEP_WEEKS}, {4, STEP_WEEKS}, {0, STEP_DAYS}},
        .n_before = 3,
        .overdue_every = {2, STEP_DAYS}};
    return j;
}

/* On @today the stage of that name, counted from @day, or "" for none. */
static void
assert_stage(struct world *w, struct job *j, const char *today,
    const char *name, const char *day)
{
    struct stage s;

    if (!stage_reached(world_due(w, j, today), date(today), &s)) {
        assert_string_equal("", name);
        return;
    }
    assert_string_equal(s.name, name);
    assert_day(s.day, day);
}

/* On @today the stage for what is missing, or "" for none. */
static void
assert_missing(
    struct world *w, struct job *j, const char *today, const char *name)
{
    struct stage s = {.name = ""};
    int is = stage_missing(world_due(w, j, today), date(today), &s);

    assert_int_equal(is, name[0] != '\0');
    assert_string_equal(s.name, name);
}

/* A Sunday's stage is reached on the Friday before. */
static void
stages_before_the_deadline(void **state)
{
    struct world *w = *state;
    struct job *j = reminded(w);

    assert_stage(w, j, "2026-03-19", "", "");
    assert_stage(w, j, "2026-03-20", "8-weeks-before", "2026-03-22");
    assert_stage(w, j, "2026-04-16", "8-weeks-before", "2026-03-22");
    assert_stage(w, j, "2026-04-17", "4-weeks-before", "2026-04-19");
    assert_stage(w, j, "2026-05-14", "4-weeks-before", "2026-04-19");
    assert_stage(w, j, "2026-05-15", "0-days-before", "2026-05-17");
    assert_stage(w, j, "2026-05-17", "0-days-before", "2026-05-17");
}

/* Overdue from Monday the 18th; the 19th, 21st, then Sat the 23rd, which
 * moves to Friday. */
static void
stages_while_overdue(void **state)
{
    struct world *w = *state;
    struct job *j = reminded(w);

    assert_stage(w, j, "2026-05-18", "overdue-0", "2026-05-18");
    assert_stage(w, j, "2026-05-19", "overdue-1", "2026-05-19");
    assert_stage(w, j, "2026-05-20", "overdue-1", "2026-05-19");
    assert_stage(w, j, "2026-05-21", "overdue-2", "2026-05-21");
    assert_stage(w, j, "2026-05-22", "overdue-3", "2026-05-23");
    assert_stage(w, j, "2026-05-24", "overdue-3", "2026-05-23");
    assert_stage(w, j, "2026-05-25", "overdue-4", "2026-05-25");
    assert_stage(w, j, "2027-05-17", "overdue-182", "2027-05-16");
}

/* Due on Sunday the 17th.  Nobody asked to repeat it, yet that it is overdue is
 * told once: a date does not slip in silence. */
static void
once_when_overdue(void **state)
{
    struct world *w = *state;
    struct job *j = reminded(w);

    j->rule.remind.overdue_every.n = 0;
    assert_stage(w, j, "2026-05-17", "0-days-before", "2026-05-17");
    assert_stage(w, j, "2026-05-18", "overdue-0", "2026-05-18");
    assert_stage(w, j, "2027-05-20", "overdue-0", "2026-05-18");
    j->rule.remind.n_before = 0;
    assert_stage(w, j, "2026-05-20", "", "");
}

/* Months of the calendar are not four weeks. */
static void
units_of_a_stage(void **state)
{
    struct world *w = *state;
    struct job *j = reminded(w);

    j->rule.remind.before[0] = (struct span){2, STEP_MONTHS};
    assert_stage(w, j, "2026-03-17", "2-months-before", "2026-03-17");
    j->rule.remind.before[0] = (struct span){1, STEP_YEARS};
    assert_stage(w, j, "2025-05-16", "1-years-before", "2025-05-17");
}

/* Without a date it is told anew each ISO week: 2026 has a week 53. */
static void
no_record_once_a_week(void **state)
{
    struct world *w = *state;
    struct job *j = world_job(w, "job", "12 months");

    assert_missing(w, j, "2026-05-20", "no-record-2026-W21");
    assert_missing(w, j, "2027-01-03", "no-record-2026-W53");
    assert_missing(w, j, "2027-01-04", "no-record-2027-W01");
    assert_stage(w, j, "2027-01-04", "", "");
    world_every(w, &j->rule, "12 months or 1000 km");
    world_done(w, j, "2026-05-01");
    assert_missing(w, j, "2026-05-20", "needs-reading-2026-W21");
}

/* The days decide, and the meter cannot tell: Sunday 17 May.  Each week anew,
 * and at the stages of that deadline too: neither hides the other. */
static void
a_reading_and_the_deadline(void **state)
{
    struct world *w = *state;
    struct job *j = reminded(w);

    struct reminders remind = j->rule.remind;
    world_every(w, &j->rule, "10 days or 1000 km");
    j->rule.remind = remind;
    assert_stage(w, j, "2026-03-19", "", "");
    assert_stage(w, j, "2026-03-20", "8-weeks-before", "2026-03-22");
    assert_missing(w, j, "2026-03-20", "needs-reading-2026-W12");
    assert_missing(w, j, "2026-03-23", "needs-reading-2026-W13");
    assert_stage(w, j, "2026-03-23", "8-weeks-before", "2026-03-22");
    assert_missing(w, j, "2026-05-15", "needs-reading-2026-W20");
    assert_stage(w, j, "2026-05-18", "overdue-0", "2026-05-18");
    assert_missing(w, j, "2026-05-18", "");
}

/* Read on 18 March, it is too old after two weeks, from Thursday 2 April on. */
static void
told_when_the_reading_gets_old(void **state)
{
    struct world *w = *state;
    struct job *j = world_job(w, "job", "1000 km or 60 days");

    w->subjects[0].yearly_distance = 365;
    world_reading(w, "2026-03-18", 5000);
    world_done(w, j, "2026-03-18");
    j->rule.reading_within = (struct span){2, STEP_WEEKS};
    assert_missing(w, j, "2026-04-01", "");
    assert_missing(w, j, "2026-04-02", "needs-reading-2026-W14");
    assert_missing(w, j, "2026-04-05", "needs-reading-2026-W14");
    assert_missing(w, j, "2026-04-06", "needs-reading-2026-W15");
    world_reading(w, "2026-04-06", 5020);
    assert_missing(w, j, "2026-04-06", "");
}

static void
before_return_once(void **state)
{
    struct world *w = *state;
    struct job *j = reminded(w);
    struct record *k = world_off_road(w, "2026-05-15", "-");
    struct stage s;

    const struct due *d = world_due(w, j, "2026-08-20");
    assert_true(stage_reached(d, date("2026-08-20"), &s));
    assert_string_equal(s.name, "before-return");
    assert_false(s.dated);
    /* Like any stage of Sunday the 17th, on Friday. */
    assert_stage(w, j, "2026-05-14", "", "");
    assert_stage(w, j, "2026-05-15", "before-return", "2026-05-15");
    k->until = date("2026-07-12"); /* a day: 8 weeks before it is 17 May */
    assert_stage(w, j, "2026-05-20", "8-weeks-before", "2026-05-17");
}

/* Beside the stages of its deadline and of what it lacks, once a failure. */
static void
what_failed(void **state)
{
    struct world *w = *state;
    struct job *j = world_job(w, "job", "12 months");
    struct stage s;

    assert_int_equal(stage_failed(world_due(w, j, "2026-05-20"), &s), 0);
    world_done(w, j, "2026-05-20")->kind = RECORD_FAILED;
    assert_int_equal(stage_failed(world_due(w, j, "2026-05-20"), &s), 1);
    assert_string_equal(s.name, "failed-1");
    assert_day(s.day, "2026-05-20");
    assert_missing(w, j, "2026-05-20", "no-record-2026-W21");
    world_done(w, j, "2026-05-22")->kind = RECORD_FAILED;
    assert_int_equal(stage_failed(world_due(w, j, "2026-05-23"), &s), 1);
    assert_string_equal(s.name, "failed-2");
    world_done(w, j, "2026-05-23");
    assert_int_equal(stage_failed(world_due(w, j, "2026-05-23"), &s), 0);
}

/* Whom a stage concerns: 4 weeks onward leaves out the 8 weeks. */
static int
concerns(struct world *w, struct job *j, const char *today, struct span from,
    int overdue)
{
    struct person p = {.from = from, .from_overdue = overdue};
    const struct due *d = world_due(w, j, today);
    struct stage s;

    assert_true(
        stage_reached(d, date(today), &s) || stage_missing(d, date(today), &s));
    return stage_concerns(&s, d, date(today), &p);
}

static void
persons_hear_from_a_stage_on(void **state)
{
    struct world *w = *state;
    struct job *j = reminded(w);
    struct span all = {60, STEP_YEARS}; /* what the reader of the file sets */
    struct span four_weeks = {4, STEP_WEEKS};

    assert_true(concerns(w, j, "2026-03-20", all, 0));
    assert_false(concerns(w, j, "2026-03-20", four_weeks, 0));
    assert_true(concerns(w, j, "2026-04-17", four_weeks, 0));
    assert_true(concerns(w, j, "2026-05-15", four_weeks, 0));
    assert_true(concerns(w, j, "2026-05-20", four_weeks, 0));
}

/* From a week overdue: 24 May. */
static void
a_person_to_climb_to(void **state)
{
    struct world *w = *state;
    struct job *j = reminded(w);
    struct span at_once = {0, STEP_DAYS};
    struct span week = {1, STEP_WEEKS};

    assert_false(concerns(w, j, "2026-05-15", at_once, 1));
    assert_true(concerns(w, j, "2026-05-18", at_once, 1));
    assert_false(concerns(w, j, "2026-05-18", week, 1));
    assert_false(concerns(w, j, "2026-05-23", week, 1));
    /* On the very day, though the next stage is only reached on the 25th. */
    assert_true(concerns(w, j, "2026-05-24", week, 1));
    assert_true(concerns(w, j, "2026-05-25", week, 1));
    /* So too when nothing is repeated. */
    j->rule.remind.overdue_every.n = 0;
    assert_false(concerns(w, j, "2026-05-23", week, 1));
    assert_true(concerns(w, j, "2026-05-24", week, 1));
}

/* What has no date concerns all. */
static void
everybody_hears_of_no_record(void **state)
{
    struct world *w = *state;
    struct job *j = world_job(w, "job", "12 months");
    struct span week = {1, STEP_WEEKS};

    assert_true(concerns(w, j, "2026-05-20", week, 1));
    assert_true(concerns(w, j, "2026-05-20", week, 0));
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        WORLD_TEST(stages_before_the_deadline),
        WORLD_TEST(stages_while_overdue),
        WORLD_TEST(once_when_overdue),
        WORLD_TEST(units_of_a_stage),
        WORLD_TEST(no_record_once_a_week),
        WORLD_TEST(a_reading_and_the_deadline),
        WORLD_TEST(told_when_the_reading_gets_old),
        WORLD_TEST(before_return_once),
        WORLD_TEST(what_failed),
        WORLD_TEST(persons_hear_from_a_stage_on),
        WORLD_TEST(a_person_to_climb_to),
        WORLD_TEST(everybody_hears_of_no_record),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
