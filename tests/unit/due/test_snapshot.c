/* The snapshot: its order, and that looking ahead is stepping ahead. */
#include <stdio.h>

#include "fixture.h"
#include "test.h"

/* The dues in order as "subject/job" words. */
static void
assert_order(struct world *w, const char *want)
{
    size_t n;
    const struct due *dues = snapshot_dues(w->snapshot, &n);
    char got[400] = "";

    for (size_t i = 0; i < n; i++) {
        size_t len = strlen(got);
        snprintf(got + len, sizeof got - len, "%s%s/%s%s", i ? " " : "",
            dues[i].task->subject->id, dues[i].task->job->id,
            dues[i].cycle.ahead ? "+" : "");
    }
    assert_string_equal(got, want);
}

/* Added in the order of least urgency; found in that of most. */
static void
the_most_urgent_first(void **state)
{
    struct world *w = *state;
    struct job *ahead = world_job(w, "ahead", "6 months");
    struct job *now = world_job(w, "now", "1 month");
    struct job *away = world_job(w, "away", "6 weeks");
    struct job *reading = world_job(w, "reading", "1000 km");
    struct job *overdue = world_job(w, "overdue", "1 week");

    world_job(w, "unknown", "1 year");
    world_done(w, ahead, "2026-01-05");
    world_done(w, now, "2026-01-07");
    world_done(w, away, "2026-01-10"); /* Sat 21 Feb */
    world_done(w, reading, "2026-01-05");
    world_done(w, overdue, "2026-01-05");
    world_off_road(w, "2026-02-20", "2026-02-22");
    world_snapshot(w, "2026-02-03", "-");
    assert_order(w, "K7/unknown K7/overdue K7/reading K7/away K7/now K7/ahead");
}

/* By day, then as the fleet file has subjects and jobs; what is projected
 * stands among what lies ahead. */
static void
by_day_then_as_in_the_file(void **state)
{
    struct world *w = *state;
    struct job *a = world_job(w, "a", "6 months");
    struct job *b = world_job(w, "b", "3 months");
    struct subject *k8 = world_subject(w, "K8");

    world_task(w, k8, b);
    world_task(w, k8, a);
    world_done(w, a, "2026-01-06");
    world_done(w, b, "2026-01-06");
    world_done(w, a, "2026-01-06")->subject = k8;
    world_done(w, b, "2026-01-06")->subject = k8;
    world_snapshot(w, "2026-01-07", "2026-07-06");
    /* 6 April, and on 6 July both the second of b and a's. */
    assert_order(w, "K7/b K8/b K7/a K7/b+ K8/b+ K8/a");
}

/* An overdue cycle's projections do not push into what is in force. */
static void
projections_rank_with_what_lies_ahead(void **state)
{
    struct world *w = *state;
    struct job *late = world_job(w, "late", "1 month");
    struct job *now = world_job(w, "now", "1 month");

    world_done(w, late, "2026-01-06");
    world_done(w, now, "2026-03-05");
    world_snapshot(w, "2026-04-01", "2026-04-30");
    assert_order(w, "K7/late K7/now K7/late+ K7/late+");
}

static void
what_it_says_of_itself(void **state)
{
    struct world *w = *state;
    struct snapshot_options bare = {
        .today = date("2026-02-03"), .horizon = DAY_NONE};
    size_t n;

    world_done(w, world_job(w, "job", "1 month"), "2026-01-06");
    world_snapshot(w, "2026-02-03", "-");
    assert_day(snapshot_today(w->snapshot), "2026-02-03");
    assert_ptr_equal(snapshot_fleet(w->snapshot), &w->fleet);
    struct snapshot *s = snapshot_new(&w->facts, &bare);
    assert_non_null(s);
    assert_int_equal(snapshot_dues(s, &n)->n_reasons, 0);
    assert_int_equal(n, 1);
    assert_int_equal(snapshot_dues(s, &n)->deadline,
        world_find(w, &w->jobs[0], 0)->deadline);
    snapshot_free(s);
    snapshot_free(NULL);
}

static void
an_empty_fleet(void **state)
{
    struct world *w = *state;
    size_t n;

    snapshot_dues(world_snapshot(w, "2026-02-03", "2027-02-03"), &n);
    assert_int_equal(n, 0);
}

/* The cycle so far ahead is what stands when the ones before it have been
 * recorded, each on the plan day that was foreseen. */
static void
assert_stepping(struct world *w, struct job *j, int cycles)
{
    day_t deadline[12];
    day_t plan[12];
    int n = 0;

    assert_true(cycles <= 12);
    world_snapshot(w, "2026-01-01", "2030-12-31");
    for (; n < cycles; n++) {
        const struct due *d = world_find(w, j, n);
        assert_non_null(d);
        assert_reasoned(d);
        deadline[n] = d->deadline;
        plan[n] = d->plan_day;
    }
    for (int i = 0; i < n; i++) {
        world_snapshot(w, "2026-01-01", "-");
        assert_int_equal(world_find(w, j, 0)->deadline, deadline[i]);
        assert_int_equal(world_find(w, j, 0)->plan_day, plan[i]);
        world_done(w, j, "2026-01-01")->day = plan[i];
    }
}

static void
looking_ahead_is_stepping_ahead(void **state)
{
    struct world *w = *state;
    struct job *j = world_job(w, "length", "7 weeks");
    struct job *k = world_job(w, "kept", "6 months");
    struct job *y = world_job(w, "yearly", "yearly on 1 nov");
    struct job *c = world_job(w, "count", "4 within 12 months");
    struct job *r =
        world_job(w, "rule", "rule FREQ=MONTHLY;BYDAY=-1FR from 2026-01-30");
    struct job *h = world_job(w, "rhythm", "5 months");

    world_done(w, j, "2025-12-20");
    assert_stepping(w, j, 10);
    k->rule.ends = ENDS_DAY_BEFORE;
    k->rule.runs_from = KEEPS_DATE;
    k->rule.window = (struct span){1, STEP_MONTHS};
    world_done(w, k, "2025-08-31");
    assert_stepping(w, k, 6);
    y->rule.first =
        (struct first){.origin = ORIGIN_ON, .on = date("2026-06-01")};
    assert_stepping(w, y, 4);
    world_done(w, c, "2025-12-20");
    assert_stepping(w, c, 10);
    r->rule.first =
        (struct first){.origin = ORIGIN_ON, .on = date("2026-01-01")};
    assert_stepping(w, r, 10);
    h->rule.first =
        (struct first){.origin = ORIGIN_ON, .on = date("2026-01-31")};
    h->rule.runs_from = FROM_DEADLINE;
    assert_stepping(w, h, 10);
}

/* An unknown subject's or job's records are facts that bear on nothing. */
static void
records_of_what_is_no_more(void **state)
{
    struct world *w = *state;
    struct job *j = world_job(w, "job", "1 month");

    world_done(w, j, "2026-01-06");
    world_done(w, j, "2026-02-06")->subject = NULL;
    world_done(w, j, "2026-03-06")->job = NULL;
    assert_deadline(w, j, "2026-02-06");
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        WORLD_TEST(the_most_urgent_first),
        WORLD_TEST(by_day_then_as_in_the_file),
        WORLD_TEST(projections_rank_with_what_lies_ahead),
        WORLD_TEST(what_it_says_of_itself),
        WORLD_TEST(an_empty_fleet),
        WORLD_TEST(looking_ahead_is_stepping_ahead),
        WORLD_TEST(records_of_what_is_no_more),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
