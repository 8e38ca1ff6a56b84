/* A snapshot whose plan days are those of a plan. */
#include "fixture.h"
#include "test.h"

/* A plan of one day for one deadline. */
struct one_day {
    day_t deadline;
    day_t day;
};

static day_t
day_of_plan(void *with, const struct task *t, day_t deadline, const char **why)
{
    const struct one_day *plan = with;

    (void)t;
    *why = "the ramp is free";
    return deadline == plan->deadline ? plan->day : DAY_NONE;
}

/* K7's only job, 12 weeks, last done on 2025-12-29: due on Monday 2026-03-23.
 */
static const struct due *
planned(struct world *w, struct one_day *plan, int ahead)
{
    struct snapshot_options options = {.today = date("2026-03-02"),
        .horizon = date("2026-12-31"),
        .reasons = 1,
        .planned = day_of_plan,
        .with = plan};

    if (w->n_jobs == 0) {
        struct job *j = world_job(w, "check", "12 weeks");
        j->rule.lead = (struct lead){{1, STEP_WEEKS}, 0};
        world_done(w, j, "2025-12-29");
    }
    world_group(w);
    snapshot_free(w->snapshot);
    w->snapshot = snapshot_new(&w->facts, &options);
    assert_non_null(w->snapshot);
    return world_find(w, &w->jobs[0], ahead);
}

static void
it_has_that_day_and_says_why(void **state)
{
    struct one_day plan = {date("2026-03-23"), date("2026-03-18")};
    const struct due *d = planned(*state, &plan, 0);

    assert_day(d->deadline, "2026-03-23");
    assert_day(d->plan_day, "2026-03-18");
    assert_day(d->book_by, "2026-03-11"); /* a week before */
    assert_reasoned(d);
    assert_true(has_reason(d, REASON_PLAN));
    assert_true(says(d, "the ramp is free"));
}

/* 12 weeks from Wednesday 18 March are Wednesday 10 June. */
static void
what_comes_after_runs_from_it(void **state)
{
    struct one_day plan = {date("2026-03-23"), date("2026-03-18")};

    assert_day(planned(*state, &plan, 1)->deadline, "2026-06-10");
}

static void
the_state_is_of_that_day(void **state)
{
    struct one_day plan = {date("2026-03-23"), date("2026-03-06")};
    const struct due *d = planned(*state, &plan, 0);

    assert_int_equal(d->state, DUE_NOW);
    assert_int_equal(d->warnings & WARN_BOOK_NOW, WARN_BOOK_NOW);
}

static void
never_after_the_deadline(void **state)
{
    struct one_day plan = {date("2026-03-23"), date("2026-03-24")};
    const struct due *d = planned(*state, &plan, 0);

    assert_day(d->plan_day, "2026-03-23");
    assert_false(has_reason(d, REASON_PLAN));
}

static void
without_a_day_nothing_changes(void **state)
{
    struct one_day none = {date("2026-03-24"), date("2026-03-18")};
    struct one_day same = {date("2026-03-23"), date("2026-03-23")};
    const struct due *d = planned(*state, &none, 0);

    assert_day(d->plan_day, "2026-03-23");
    assert_false(has_reason(d, REASON_PLAN));
    d = planned(*state, &same, 0);
    assert_false(has_reason(d, REASON_PLAN));
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        WORLD_TEST(it_has_that_day_and_says_why),
        WORLD_TEST(what_comes_after_runs_from_it),
        WORLD_TEST(the_state_is_of_that_day),
        WORLD_TEST(never_after_the_deadline),
        WORLD_TEST(without_a_day_nothing_changes),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
