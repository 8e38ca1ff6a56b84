/* What holds for the dates of every task, tried on ten thousand made by
 * chance. */
#include "fixture.h"
#include "random_run.h"
#include "test.h"

static void
check_order_of_days(const struct run *run, struct world *w, int number)
{
    struct due d = due_on(w, day_of(2026, 1, 1));
    const struct work_calendar *calendar = d.task->calendar;

    (void)run;
    (void)number;
    if (d.deadline == DAY_NONE)
        assert_int_equal(d.plan_day, DAY_NONE);
    if (d.plan_day == DAY_NONE) {
        assert_int_equal(d.book_by, DAY_NONE);
        return;
    }
    assert_true(d.plan_day <= d.deadline);
    assert_true(work_calendar_is_open(calendar, d.plan_day));
    assert_int_equal(
        work_calendar_between(calendar, d.plan_day, d.deadline), 0);
    assert_true(d.last_done == DAY_NONE || d.plan_day >= d.last_done);
    if (d.book_by != DAY_NONE) {
        assert_true(d.book_by < d.plan_day);
        assert_true(work_calendar_is_open(calendar, d.book_by));
    }
}

static void
plan_day_is_never_after_the_deadline(void **state)
{
    for_tasks(*state, 1, check_order_of_days);
}

static void
check_reasons(const struct run *run, struct world *w, int number)
{
    size_t n;

    (void)run;
    (void)number;
    world_snapshot_to(w, day_of(2026, 1, 1), day_of(2028, 1, 1));
    const struct due *dues = snapshot_dues(w->snapshot, &n);
    assert_true(n >= 1);
    for (size_t i = 0; i < n; i++)
        assert_reasoned(&dues[i]);
}

static void
every_date_says_why(void **state)
{
    for_tasks(*state, 5, check_reasons);
}

static void
check_today(const struct run *run, struct world *w, int number)
{
    struct due first = due_on(w, day_of(2020, 6, 1));

    (void)run;
    for (int i = 0; i < 3; i++) {
        day_t today = day_of(2022 + 2 * i, 1, 1) + number % 365;
        struct due d = due_on(w, today);
        assert_int_equal(d.deadline, first.deadline);
        assert_int_equal(d.plan_day, first.plan_day);
        assert_int_equal(d.book_by, first.book_by);
        assert_int_equal(d.due_reading, first.due_reading);
        assert_int_equal(d.cycle.record, first.cycle.record);
        assert_int_equal(d.cycle.start, first.cycle.start);
        assert_int_equal(d.n_reasons, first.n_reasons);
        assert_int_equal(d.state == DUE_FAILED, first.state == DUE_FAILED);
        if (d.besides == DUE_OVERDUE)
            assert_true(d.deadline != DAY_NONE && d.deadline < today);
        else if (d.besides != DUE_BEFORE_RETURN)
            assert_true(d.deadline == DAY_NONE || d.deadline >= today);
    }
}

static void
no_date_moves_with_today(void **state)
{
    for_tasks(*state, 1, check_today);
}

/* The newest completion, or NULL. */
static struct record *
newest(struct world *w)
{
    struct record *last = NULL;

    for (size_t i = 0; i < w->n_records; i++) {
        struct record *k = &w->records[i];
        if (k->kind == RECORD_COMPLETED && (last == NULL || k->day > last->day))
            last = k;
    }
    return last;
}

/*
 * Not where a meter decides, which reads something else on another day; nor
 * where days off the road are left out, for of two completions in one month
 * the later has fewer of them after it and may run to the same month's end;
 * nor where NEAREST rolls a Monday forwards and the Tuesday after it back.
 */
static void
check_later(const struct run *run, struct world *w, int number)
{
    struct rule *rule = &w->jobs[0].rule;
    struct record *last = newest(w);

    (void)run;
    for (int i = 0; i < rule->n_every; i++)
        if (kind_meter(&rule->every[i]) != METER_NONE ||
            kind_is_calendar_rule(&rule->every[i]))
            return;
    rule->runs_from = FROM_COMPLETION;
    rule->off_road = OFF_ROAD_RUNS_ON;
    if (rule->roll == ROLL_NEAREST || last == NULL ||
        last->day <= w->tasks[0].baseline.last)
        return;
    struct due before = due_on(w, day_of(2026, 1, 1));
    last->day += 1 + number % 50;
    struct due after = due_on(w, day_of(2026, 1, 1));
    assert_true(
        after.deadline == DAY_NONE || after.deadline >= before.deadline);
}

static void
done_later_is_never_due_earlier(void **state)
{
    for_tasks(*state, 1, check_later);
}

static void
check_holidays(const struct run *run, struct world *w, int number)
{
    struct rule *rule = &w->jobs[0].rule;

    rule->roll = ROLL_PRECEDING;
    struct due before = due_on(w, day_of(2026, 1, 1));
    w->tasks[0].calendar = run->calendar[number % CALENDARS][1];
    struct due after = due_on(w, day_of(2026, 1, 1));
    assert_int_equal(after.deadline, before.deadline);
    assert_true(after.plan_day <= before.plan_day);
    assert_true(after.book_by <= before.book_by);
}

static void
a_holiday_never_makes_a_plan_day_later(void **state)
{
    for_tasks(*state, 1, check_holidays);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        PROPERTY(plan_day_is_never_after_the_deadline),
        PROPERTY(every_date_says_why),
        PROPERTY(no_date_moves_with_today),
        PROPERTY(done_later_is_never_due_earlier),
        PROPERTY(a_holiday_never_makes_a_plan_day_later),
    };

    return cmocka_run_group_tests(tests, run_setup, run_teardown);
}
