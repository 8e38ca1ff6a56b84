/* The roll to a working day, the plan day and the book-by day. */
#include "fixture.h"
#include "test.h"

/* Done on @day, the deadline @n days later. */
static struct job *
job_due_on(struct world *w, const char *deadline)
{
    struct job *j = world_job(w, "job", "10 days");
    struct record *k = world_done(w, j, "2026-01-01");

    k->day = date(deadline) - 10;
    return j;
}

static void
assert_plan(
    struct world *w, struct job *j, const char *deadline, const char *plan)
{
    const struct due *d = world_due(w, j, "2026-01-01");

    assert_day(d->deadline, deadline);
    assert_day(d->plan_day, plan);
    assert_reasoned(d);
}

/* Friday is a working day, the days after it are not. */
static void
the_plan_day_is_the_working_day_before(void **state)
{
    struct world *w = *state;
    struct job *j = job_due_on(w, "2026-05-15");

    assert_plan(w, j, "2026-05-15", "2026-05-15");
    assert_false(has_reason(world_find(w, j, 0), REASON_ROLL));
    w->records[0].day++;
    assert_plan(w, j, "2026-05-16", "2026-05-15");
    assert_true(has_reason(world_find(w, j, 0), REASON_ROLL));
    w->records[0].day++;
    assert_plan(w, j, "2026-05-17", "2026-05-15");
    assert_true(says(world_find(w, j, 0), "Sun 2026-05-17: not a working day"));
    w->records[0].day++;
    assert_plan(w, j, "2026-05-18", "2026-05-18");
}

static const struct named_day easter[] = {
    {20546, "Good Friday"}, /* 2026-04-03 */
    {20549, "Easter Monday"}};

static void
over_holidays_and_with_their_names(void **state)
{
    struct world *w = *state;
    struct job *j = job_due_on(w, "2026-04-06");

    assert_day(easter[0].day, "2026-04-03");
    assert_day(easter[1].day, "2026-04-06");
    world_calendar(w, &(struct work_calendar_plan){
                          .works = WEEKDAYS, .closed = easter, .n_closed = 2});
    assert_plan(w, j, "2026-04-06", "2026-04-02");
    assert_true(says(world_find(w, j, 0), "Mon 2026-04-06: Easter Monday"));
    assert_true(says(world_find(w, j, 0), "Fri 2026-04-03: Good Friday"));
}

static void
following_and_nearest_move_the_deadline(void **state)
{
    struct world *w = *state;
    struct job *j = job_due_on(w, "2026-05-16"); /* a Saturday */

    j->rule.roll = ROLL_FOLLOWING;
    assert_plan(w, j, "2026-05-18", "2026-05-18");
    assert_true(has_reason(world_find(w, j, 0), REASON_ROLL));
    j->rule.roll = ROLL_NEAREST;
    assert_plan(w, j, "2026-05-15", "2026-05-15");
    w->records[0].day++; /* Sunday */
    assert_plan(w, j, "2026-05-18", "2026-05-18");
    w->records[0].day += 2; /* Tuesday */
    assert_plan(w, j, "2026-05-19", "2026-05-19");
}

/* The law knows no working days, so its last day stays. */
static void
the_law_is_never_moved(void **state)
{
    struct world *w = *state;
    struct job *j = job_due_on(w, "2026-05-17");

    j->class = CLASS_LAW;
    j->rule.roll = ROLL_FOLLOWING;
    assert_plan(w, j, "2026-05-17", "2026-05-15");
    j->rule.roll = ROLL_NEAREST;
    assert_plan(w, j, "2026-05-17", "2026-05-15");
    j->class = CLASS_RECOMMENDATION;
    assert_plan(w, j, "2026-05-18", "2026-05-18");
    j->class = CLASS_MAKER;
    assert_plan(w, j, "2026-05-18", "2026-05-18");
}

/* Ten days from 14 May the depot is closed: nothing between the completion
 * and the deadline, so no day at all, and none before the completion. */
static void
no_working_day_between(void **state)
{
    struct world *w = *state;
    struct job *j = job_due_on(w, "2026-05-24");
    struct named_day shut[11];

    for (int i = 0; i < 11; i++)
        shut[i] = (struct named_day){date("2026-05-14") + i, "Shutdown"};
    world_calendar(w, &(struct work_calendar_plan){
                          .works = WEEKDAYS, .closed = shut, .n_closed = 11});
    assert_plan(w, j, "2026-05-24", "-");
    const struct due *d = world_find(w, j, 0);
    assert_true(d->warnings & WARN_NO_WORKING_DAY);
    assert_day(d->book_by, "-");
    /* The day of the completion itself has had its turn. */
    world_calendar(
        w, &(struct work_calendar_plan){
               .works = WEEKDAYS, .closed = shut + 1, .n_closed = 10});
    assert_plan(w, j, "2026-05-24", "-");
    assert_true(world_find(w, j, 0)->warnings & WARN_NO_WORKING_DAY);
}

/* Without a completion nothing bounds the plan day from below. */
static void
the_first_time_has_no_earliest_day(void **state)
{
    struct world *w = *state;
    struct job *j = world_job(w, "job", "10 days");

    j->rule.first =
        (struct first){.origin = ORIGIN_ON, .on = date("2026-05-17")};
    assert_plan(w, j, "2026-05-17", "2026-05-15");
}

static void
a_calendar_that_is_never_open(void **state)
{
    struct world *w = *state;
    struct job *j = job_due_on(w, "2026-05-15");

    world_calendar(w, &(struct work_calendar_plan){.works = 0});
    assert_plan(w, j, "2026-05-15", "-");
    assert_true(world_find(w, j, 0)->warnings & WARN_NO_WORKING_DAY);
    j->rule.roll = ROLL_FOLLOWING;
    assert_plan(w, j, "2026-05-15", "-");
}

/* From Friday 15 May back: ten working days are two weeks; two weeks are the
 * Friday too, but ten days are a Tuesday. */
static void
the_book_by_day(void **state)
{
    struct world *w = *state;
    struct job *j = job_due_on(w, "2026-05-16");

    assert_day(world_due(w, j, "2026-01-01")->book_by, "-");
    assert_false(has_reason(world_find(w, j, 0), REASON_LEAD));
    j->rule.lead = (struct lead){{10, STEP_DAYS}, 1};
    assert_plan(w, j, "2026-05-16", "2026-05-15");
    assert_day(world_find(w, j, 0)->book_by, "2026-05-01");
    assert_true(says(world_find(w, j, 0), "10 working days ahead"));
    j->rule.lead = (struct lead){{10, STEP_DAYS}, 0};
    assert_day(world_due(w, j, "2026-01-01")->book_by, "2026-05-05");
    assert_reasoned(world_find(w, j, 0));
    j->rule.lead = (struct lead){{12, STEP_DAYS}, 0}; /* Sun 3 May: Friday */
    assert_day(world_due(w, j, "2026-01-01")->book_by, "2026-05-01");
    j->rule.lead = (struct lead){{1, STEP_MONTHS}, 0};
    assert_day(world_due(w, j, "2026-01-01")->book_by, "2026-04-15");
    j->rule.lead = (struct lead){{1, STEP_DAYS}, 1};
    assert_day(world_due(w, j, "2026-01-01")->book_by, "2026-05-14");
}

/* The test station opens on Tuesdays and Thursdays, the depot on weekdays. */
static void
the_place_of_the_work_counts_too(void **state)
{
    struct world *w = *state;
    struct job *j = job_due_on(w, "2026-05-18");
    struct work_calendar *station = work_calendar_new(
        &(struct work_calendar_plan){.works = 1u << 1 | 1u << 3});
    assert_non_null(station);
    struct work_calendar *both = work_calendar_both(w->calendar, station);

    assert_non_null(both);
    w->tasks[0].calendar = both;
    assert_plan(w, j, "2026-05-18", "2026-05-14");
    work_calendar_free(both);
    work_calendar_free(station);
}

/* The set speaks for the days up to the end of June. */
static void
holidays_that_are_not_published_yet(void **state)
{
    struct world *w = *state;
    struct job *j = job_due_on(w, "2026-06-30");
    struct holiday_set set = {.known_until = date("2026-06-30")};
    const struct holiday_set *sets[] = {&set};

    world_calendar(
        w, &(struct work_calendar_plan){
               .works = WEEKDAYS, .holidays = sets, .n_holidays = 1});
    j->rule.lead = (struct lead){{1, STEP_WEEKS}, 0};
    assert_plan(w, j, "2026-06-30", "2026-06-30");
    assert_false(world_find(w, j, 0)->warnings & WARN_HOLIDAYS_UNKNOWN);
    w->records[0].day++;
    assert_plan(w, j, "2026-07-01", "2026-07-01");
    assert_true(world_find(w, j, 0)->warnings & WARN_HOLIDAYS_UNKNOWN);
    assert_true(says(world_find(w, j, 0), "known only to Tue 2026-06-30"));
}

/* The plan day belongs to the cycle: it is the same whenever one looks. */
static void
nothing_moves_with_today(void **state)
{
    struct world *w = *state;
    struct job *j = job_due_on(w, "2026-05-17");

    j->rule.lead = (struct lead){{3, STEP_DAYS}, 1};
    for (day_t today = date("2026-05-01"); today < date("2026-06-30");
         today++) {
        world_snapshot_to(w, today, DAY_NONE);
        const struct due *d = world_find(w, j, 0);
        assert_day(d->deadline, "2026-05-17");
        assert_day(d->plan_day, "2026-05-15");
        assert_day(d->book_by, "2026-05-12");
    }
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        WORLD_TEST(the_plan_day_is_the_working_day_before),
        WORLD_TEST(over_holidays_and_with_their_names),
        WORLD_TEST(following_and_nearest_move_the_deadline),
        WORLD_TEST(the_law_is_never_moved),
        WORLD_TEST(no_working_day_between),
        WORLD_TEST(the_first_time_has_no_earliest_day),
        WORLD_TEST(a_calendar_that_is_never_open),
        WORLD_TEST(the_book_by_day),
        WORLD_TEST(the_place_of_the_work_counts_too),
        WORLD_TEST(holidays_that_are_not_published_yet),
        WORLD_TEST(nothing_moves_with_today),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
