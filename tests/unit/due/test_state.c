/* The states of a due, its warnings, and the edges of the ISO week. */
#include "fixture.h"
#include "test.h"

/* Due on Sunday 2026-01-18, planned for Friday the 16th. */
static struct job *
sunday_job(struct world *w)
{
    struct job *j = world_job(w, "job", "10 days");

    world_done(w, j, "2026-01-08");
    return j;
}

static void
assert_state(
    struct world *w, struct job *j, const char *today, enum due_state state)
{
    const struct due *d = world_due(w, j, today);

    assert_string_equal(due_state_word(d->state), due_state_word(state));
}

static void
due_from_monday_of_its_week_on(void **state)
{
    struct world *w = *state;
    struct job *j = sunday_job(w);

    assert_state(w, j, "2026-01-08", DUE_AHEAD);
    assert_state(w, j, "2026-01-11", DUE_AHEAD); /* Sunday of the week before */
    assert_state(w, j, "2026-01-12", DUE_NOW);   /* Monday */
    assert_state(w, j, "2026-01-18", DUE_NOW);   /* the last day itself */
    assert_state(w, j, "2026-01-19", DUE_OVERDUE);
    assert_state(w, j, "2027-01-19", DUE_OVERDUE);
}

/* A deadline on Monday, a holiday: the plan day is the Friday before it. */
static void
the_plan_day_alone_makes_it_due(void **state)
{
    struct world *w = *state;
    struct job *j = sunday_job(w);
    struct named_day monday = {date("2026-01-19"), "Regatta"};

    w->records[0].day++;
    world_calendar(w, &(struct work_calendar_plan){
                          .works = WEEKDAYS, .closed = &monday, .n_closed = 1});
    assert_day(world_due(w, j, "2026-01-12")->plan_day, "2026-01-16");
    assert_state(w, j, "2026-01-11", DUE_AHEAD);
    assert_state(w, j, "2026-01-12", DUE_NOW);
    assert_state(w, j, "2026-01-19", DUE_NOW);
}

/* No plan day: the deadline counts by itself. */
static void
the_deadline_alone_makes_it_due(void **state)
{
    struct world *w = *state;
    struct job *j = sunday_job(w);

    world_calendar(w, &(struct work_calendar_plan){.works = 0});
    assert_state(w, j, "2026-01-11", DUE_AHEAD);
    assert_state(w, j, "2026-01-12", DUE_NOW);
}

/* Over the turn of a year with 53 weeks: 2027-01-03 is the Sunday of
 * 2026-W53. */
static void
over_the_turn_of_the_year(void **state)
{
    struct world *w = *state;
    struct job *j = sunday_job(w);

    w->records[0].day = date("2027-01-03") - 10;
    assert_state(w, j, "2026-12-27", DUE_AHEAD);
    assert_state(w, j, "2026-12-28", DUE_NOW);
    assert_state(w, j, "2027-01-03", DUE_NOW);
    assert_state(w, j, "2027-01-04", DUE_OVERDUE);
}

static void
never_done_and_nothing_known(void **state)
{
    struct world *w = *state;
    struct job *j = world_job(w, "job", "10 days");

    assert_state(w, j, "2026-01-08", DUE_NO_RECORD);
    w->tasks[0].baseline.deadline = date("2026-01-18");
    assert_state(w, j, "2026-01-08", DUE_AHEAD);
    assert_state(w, j, "2026-01-19", DUE_OVERDUE);
}

static void
before_return_until_it_is_back(void **state)
{
    struct world *w = *state;
    struct job *j = sunday_job(w);
    struct record *k = world_off_road(w, "2026-01-10", "-");

    assert_state(w, j, "2026-01-12", DUE_BEFORE_RETURN);
    assert_state(w, j, "2026-03-12", DUE_BEFORE_RETURN);
    k->until = date("2026-02-01");
    assert_state(w, j, "2026-02-01", DUE_BEFORE_RETURN);
    assert_state(w, j, "2026-02-02", DUE_OVERDUE);
}

/* Friday the 16th is the plan day; three working days before it, the 13th. */
static void
warnings_as_the_days_go_by(void **state)
{
    struct world *w = *state;
    struct job *j = sunday_job(w);

    j->rule.lead = (struct lead){{3, STEP_DAYS}, 1};
    assert_int_equal(world_due(w, j, "2026-01-12")->warnings, 0);
    assert_int_equal(world_due(w, j, "2026-01-13")->warnings, WARN_BOOK_NOW);
    assert_int_equal(world_due(w, j, "2026-01-16")->warnings, WARN_BOOK_NOW);
    /* Too late to book for the plan day, and then for anything. */
    assert_int_equal(world_due(w, j, "2026-01-17")->warnings, WARN_PLAN_PASSED);
    assert_int_equal(world_due(w, j, "2026-01-18")->warnings, WARN_PLAN_PASSED);
    assert_int_equal(world_due(w, j, "2026-01-19")->warnings, 0);
}

/* The day itself can be; the day before, nobody can know. */
static void
done_on_a_day_to_come(void **state)
{
    struct world *w = *state;
    struct job *j = world_job(w, "job", "10 days");

    w->tasks[0].baseline.last = date("2026-02-12");
    assert_int_equal(world_due(w, j, "2026-02-11")->warnings & WARN_DONE_LATER,
        WARN_DONE_LATER);
    assert_int_equal(
        world_due(w, j, "2026-02-12")->warnings & WARN_DONE_LATER, 0);
}

/* Fail unless the job, on @today, stands so, and so but for what failed. */
static void
assert_states(struct world *w, const struct job *j, const char *today,
    enum due_state state, enum due_state besides)
{
    const struct due *d = world_due(w, j, today);

    assert_non_null(d);
    assert_int_equal(d->state, state);
    assert_int_equal(d->besides, besides);
    assert_int_equal(d->failed != NULL, state == DUE_FAILED);
}

/* Last done on Monday 2 February, every ten days: to Thursday the 12th, which
 * is the week of the failure's. */
static void
failed_until_it_is_done(void **state)
{
    struct world *w = *state;
    struct job *j = world_job(w, "job", "10 days");

    world_done(w, j, "2026-02-02");
    world_done(w, j, "2026-02-09")->kind = RECORD_FAILED;
    assert_states(w, j, "2026-02-09", DUE_FAILED, DUE_NOW);
    const struct due *d = world_find(w, j, 0);
    assert_int_equal(d->failed->id, 2);
    assert_day(d->failed->day, "2026-02-09");
    assert_day(d->deadline, "2026-02-12");
    assert_states(w, j, "2026-02-13", DUE_FAILED, DUE_OVERDUE);
    world_done(w, j, "2026-02-10");
    assert_states(w, j, "2026-02-10", DUE_AHEAD, DUE_AHEAD);
}

/* And what comes after it is taken as done. */
static void
what_comes_after_a_failure_has_not_failed(void **state)
{
    struct world *w = *state;
    struct job *j = world_job(w, "job", "10 days");

    world_done(w, j, "2026-02-02");
    world_done(w, j, "2026-02-09")->kind = RECORD_FAILED;
    world_snapshot(w, "2026-02-09", "2026-03-31");
    const struct due *next = world_find(w, j, 1);
    assert_non_null(next);
    assert_int_equal(next->state, DUE_AHEAD);
    assert_int_equal(next->besides, DUE_AHEAD);
    assert_null(next->failed);
    assert_false(says(next, "failed"));
}

/* On one day, the order of entry. */
static void
failed_and_passed_on_one_day(void **state)
{
    struct world *w = *state;
    struct job *j = world_job(w, "job", "10 days");

    world_done(w, j, "2026-02-09");
    world_done(w, j, "2026-02-09")->kind = RECORD_FAILED;
    assert_states(w, j, "2026-02-09", DUE_FAILED, DUE_AHEAD);
    world_done(w, j, "2026-02-09");
    assert_states(w, j, "2026-02-09", DUE_AHEAD, DUE_AHEAD);
}

/* The fleet file enters nothing, so of the same day it says nothing. */
static void
the_file_undoes_no_failure_of_its_day(void **state)
{
    struct world *w = *state;
    struct job *j = world_job(w, "job", "10 days");

    world_done(w, j, "2026-02-09")->kind = RECORD_FAILED;
    w->tasks[0].baseline.last = date("2026-02-09");
    assert_states(w, j, "2026-02-09", DUE_FAILED, DUE_AHEAD);
    w->tasks[0].baseline.last = date("2026-02-10");
    assert_states(w, j, "2026-02-10", DUE_AHEAD, DUE_AHEAD);
}

/* A failure before the last time it was done is history, whenever it was
 * entered. */
static void
a_failure_before_the_last_time(void **state)
{
    struct world *w = *state;
    struct job *j = world_job(w, "job", "10 days");

    world_done(w, j, "2026-02-09");
    world_done(w, j, "2026-02-06")->kind = RECORD_FAILED;
    assert_states(w, j, "2026-02-10", DUE_AHEAD, DUE_AHEAD);
}

static void
failed_and_never_done(void **state)
{
    struct world *w = *state;
    struct job *j = world_job(w, "job", "10 days");

    world_done(w, j, "2026-02-09")->kind = RECORD_FAILED;
    assert_states(w, j, "2026-02-10", DUE_FAILED, DUE_NO_RECORD);
}

/* Off the road over its deadline: it says that too. */
static void
failed_and_off_the_road(void **state)
{
    struct world *w = *state;
    struct job *j = world_job(w, "job", "10 days");

    world_done(w, j, "2026-02-02");
    world_done(w, j, "2026-02-09")->kind = RECORD_FAILED;
    struct record *off = world_off_road(w, "2026-02-10", "2026-03-31");
    assert_states(w, j, "2026-02-20", DUE_FAILED, DUE_BEFORE_RETURN);
    off->until = DAY_NONE;
    assert_states(w, j, "2026-02-20", DUE_FAILED, DUE_BEFORE_RETURN);
    assert_int_equal(world_find(w, j, 0)->no_return, 1);
}

/* Only what was tried failed, and a wider job that is passed does it too. */
static void
a_wider_job_and_a_narrower(void **state)
{
    struct world *w = *state;
    struct job *j = world_job(w, "job", "10 days");
    struct job *wide = world_job(w, "wide", "20 days");
    const struct job *covered[] = {j};

    wide->covers = covered;
    wide->n_covers = 1;
    world_done(w, wide, "2026-02-02");
    world_done(w, wide, "2026-02-09")->kind = RECORD_FAILED;
    assert_states(w, wide, "2026-02-09", DUE_FAILED, DUE_AHEAD);
    assert_states(w, j, "2026-02-09", DUE_NOW, DUE_NOW);
    world_done(w, j, "2026-02-10")->kind = RECORD_FAILED;
    assert_states(w, j, "2026-02-10", DUE_FAILED, DUE_NOW);
    world_done(w, wide, "2026-02-11");
    assert_states(w, wide, "2026-02-11", DUE_AHEAD, DUE_AHEAD);
    assert_states(w, j, "2026-02-11", DUE_AHEAD, DUE_AHEAD);
}

/* Nothing asks for work that is done when needed, but what failed is not done.
 */
static void
failed_when_nothing_asks_for_it(void **state)
{
    struct world *w = *state;
    struct job *j = world_job(w, "puncture", "when needed");

    world_done(w, j, "2026-02-09")->kind = RECORD_FAILED;
    world_snapshot(w, "2026-02-09", "2027-02-09");
    const struct due *d = world_find(w, j, 0);
    assert_non_null(d);
    assert_int_equal(d->state, DUE_FAILED);
    assert_day(d->deadline, "-");
    assert_true(says(d, "failed on Mon 2026-02-09"));
    assert_null(world_find(w, j, 1));
    world_done(w, j, "2026-02-10");
    assert_null(world_due(w, j, "2026-02-10"));
}

/* Of all dues it comes first. */
static void
what_failed_comes_first(void **state)
{
    struct world *w = *state;
    struct job *never = world_job(w, "never", "10 days");
    struct job *late = world_job(w, "late", "10 days");
    struct job *j = world_job(w, "job", "12 months");
    size_t n;

    (void)never;
    world_done(w, late, "2026-01-05");
    world_done(w, j, "2026-02-02");
    world_done(w, j, "2026-02-09")->kind = RECORD_FAILED;
    const struct due *dues =
        snapshot_dues(world_snapshot(w, "2026-02-09", "-"), &n);
    assert_int_equal(n, 3);
    assert_ptr_equal(dues[0].task->job, j);
    assert_int_equal(dues[1].state, DUE_NO_RECORD);
    assert_int_equal(dues[2].state, DUE_OVERDUE);
}

/* Each warning has a text, without a full stop, that names what it is of. */
static void
warnings_have_words(void **state)
{
    struct world *w = *state;
    struct job *j = sunday_job(w);
    const struct due *d = world_due(w, j, "2026-01-17");
    char text[200];

    for (unsigned bit = 1; bit <= WARN_LAST; bit <<= 1) {
        due_warning_text(
            d, (enum due_warning)bit, date("2026-01-17"), text, sizeof text);
        assert_true(strlen(text) > 10);
        assert_true(text[strlen(text) - 1] != '.');
    }
    due_warning_text(
        d, WARN_PLAN_PASSED, date("2026-01-17"), text, sizeof text);
    assert_non_null(strstr(text, "no working day is left"));
    j->rule.lead = (struct lead){{3, STEP_DAYS}, 1};
    d = world_due(w, j, "2026-01-13");
    due_warning_text(d, WARN_BOOK_NOW, date("2026-01-13"), text, sizeof text);
    assert_non_null(strstr(text, "Tue 2026-01-13"));
}

/* The words are a contract: `ostler due --json` shows them. */
/* Work done only when needed that failed twice is one thing to do. */
static void
a_second_failure_is_no_new_cycle(void **state)
{
    struct world *w = *state;
    struct job *j = world_job(w, "job", "when needed");

    world_done(w, j, "2026-01-10")->kind = RECORD_FAILED;
    struct cycle first = world_due(w, j, "2026-02-01")->cycle;
    world_done(w, j, "2026-01-20")->kind = RECORD_FAILED;
    struct cycle second = world_due(w, j, "2026-02-01")->cycle;
    assert_int_equal(first.record, second.record);
    assert_int_equal(first.start, second.start);
    world_done(w, j, "2026-01-25");
    world_done(w, j, "2026-01-28")->kind = RECORD_FAILED;
    struct cycle third = world_due(w, j, "2026-02-01")->cycle;
    assert_int_not_equal(third.record, second.record);
}

static void
the_words_of_the_contract(void **state)
{
    (void)state;
    assert_string_equal(due_state_word(DUE_FAILED), "failed");
    assert_string_equal(due_state_word(DUE_NO_RECORD), "no-record");
    assert_string_equal(due_state_word(DUE_OVERDUE), "overdue");
    assert_string_equal(due_state_word(DUE_NEEDS_READING), "needs-reading");
    assert_string_equal(due_state_word(DUE_BEFORE_RETURN), "before-return");
    assert_string_equal(due_state_word(DUE_NOW), "due");
    assert_string_equal(due_state_word(DUE_AHEAD), "ahead");
    for (unsigned a = 1; a <= WARN_LAST; a <<= 1) {
        assert_true(due_warning_word((enum due_warning)a)[0] != '\0');
        for (unsigned b = 1; b < a; b <<= 1)
            assert_string_not_equal(due_warning_word((enum due_warning)a),
                due_warning_word((enum due_warning)b));
    }
    for (int a = REASON_START; a <= REASON_NOTE; a++)
        for (int b = REASON_START; b < a; b++)
            assert_string_not_equal(due_step_word((enum reason_step)a),
                due_step_word((enum reason_step)b));
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        WORLD_TEST(due_from_monday_of_its_week_on),
        WORLD_TEST(the_plan_day_alone_makes_it_due),
        WORLD_TEST(the_deadline_alone_makes_it_due),
        WORLD_TEST(over_the_turn_of_the_year),
        WORLD_TEST(never_done_and_nothing_known),
        WORLD_TEST(before_return_until_it_is_back),
        WORLD_TEST(warnings_as_the_days_go_by),
        WORLD_TEST(done_on_a_day_to_come),
        WORLD_TEST(failed_until_it_is_done),
        WORLD_TEST(what_comes_after_a_failure_has_not_failed),
        WORLD_TEST(failed_and_passed_on_one_day),
        WORLD_TEST(the_file_undoes_no_failure_of_its_day),
        WORLD_TEST(a_failure_before_the_last_time),
        WORLD_TEST(failed_and_never_done),
        WORLD_TEST(a_second_failure_is_no_new_cycle),
        WORLD_TEST(failed_and_off_the_road),
        WORLD_TEST(a_wider_job_and_a_narrower),
        WORLD_TEST(failed_when_nothing_asks_for_it),
        WORLD_TEST(what_failed_comes_first),
        WORLD_TEST(warnings_have_words),
        WORLD_TEST(the_words_of_the_contract),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
