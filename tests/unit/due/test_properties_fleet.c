/* What holds for every list of dues: its order, the coming cycles, and that it
 * does not depend on the order of what it is made from. */
#include "fixture.h"
#include "random_run.h"
#include "select.h"
#include "test.h"

/* Where a plan day is the day of the completion there is nothing to step
 * to. */
static void
check_stepping(const struct run *run, struct world *w, int number)
{
    struct due ahead[5];
    int n = 0;

    (void)run;
    (void)number;
    world_snapshot_to(w, day_of(2026, 1, 1), day_of(2031, 1, 1));
    for (; n < 5; n++) {
        const struct due *d = world_find(w, &w->jobs[0], n);
        if (d == NULL || select_day(d) <= d->cycle.start)
            break;
        ahead[n] = *d;
    }
    for (int i = 0; i < n; i++) {
        struct due d = due_on(w, day_of(2026, 1, 1));
        assert_int_equal(d.deadline, ahead[i].deadline);
        assert_int_equal(d.plan_day, ahead[i].plan_day);
        assert_int_equal(d.book_by, ahead[i].book_by);
        assert_int_equal(d.due_reading, ahead[i].due_reading);
        if (select_day(&d) == DAY_NONE)
            break;
        struct record *k = world_done(w, &w->jobs[0], "2026-01-01");
        k->id = 1000 + i;
        k->day = select_day(&d);
    }
}

static void
looking_ahead_is_stepping_ahead(void **state)
{
    for_tasks(*state, 5, check_stepping);
}

static void
check_sorted(const struct run *run, struct world *w, int number)
{
    size_t n;

    (void)run;
    (void)number;
    world_snapshot_to(w, day_of(2025, 6, 1), day_of(2028, 1, 1));
    const struct due *dues = snapshot_dues(w->snapshot, &n);
    for (size_t i = 1; i < n; i++) {
        const struct due *a = &dues[i - 1];
        const struct due *b = &dues[i];
        int rank_a = a->cycle.ahead ? DUE_AHEAD : (int)a->state;
        int rank_b = b->cycle.ahead ? DUE_AHEAD : (int)b->state;
        assert_true(rank_a <= rank_b);
        assert_true(rank_a < rank_b || select_day(a) <= select_day(b));
    }
}

static void
the_list_is_in_order(void **state)
{
    for_tasks(*state, 5, check_sorted);
}

/* Three vehicles with two jobs each, put in by the order of @shuffled; what
 * each is does not depend on that. */
static struct world *
fleet_of(const struct run *run, int number, int shuffled)
{
    static const char *const names[] = {"K1", "K2", "K3"};
    static const char *const jobs[] = {"a", "b", "c", "d", "e", "f"};
    struct world *w = world_bare();

    for (int i = 0; i < 3; i++) {
        int s = shuffled ? (i + 1 + number) % 3 : i;
        struct chance c =
            chance_of(run->seed, 100000 + 10 * (uint64_t)number + (uint64_t)s);
        struct subject *subject = world_subject(w, names[s]);
        chance_subject(&c, w, subject, 1 + 1000 * s);
        for (int k = 0; k < 2; k++) {
            int j = 2 * s + (shuffled ? 1 - k : k);
            c = chance_of(
                run->seed, 500000 + 10 * (uint64_t)number + (uint64_t)j);
            chance_task(&c, w, subject, jobs[j], 100 + 1000 * s + 500 * (j % 2))
                ->calendar = run->calendar[j][0];
        }
    }
    for (size_t i = w->n_records; shuffled && i-- > 1;) {
        struct record other = w->records[i];
        size_t to = (size_t)number * 7 % (i + 1);
        w->records[i] = w->records[to];
        w->records[to] = other;
    }
    return w;
}

/* The due of that name, so many cycles ahead. */
static const struct due *
of_name(const struct world *w, const struct due *like)
{
    size_t n;
    const struct due *dues = snapshot_dues(w->snapshot, &n);

    for (size_t i = 0; i < n; i++)
        if (strcmp(dues[i].task->subject->id, like->task->subject->id) == 0 &&
            strcmp(dues[i].task->job->id, like->task->job->id) == 0 &&
            dues[i].cycle.ahead == like->cycle.ahead)
            return &dues[i];
    return NULL;
}

static void
check_same(struct world *w, struct world *other)
{
    size_t n, m;

    world_snapshot_to(w, day_of(2026, 1, 1), day_of(2027, 1, 1));
    world_snapshot_to(other, day_of(2026, 1, 1), day_of(2027, 1, 1));
    const struct due *dues = snapshot_dues(w->snapshot, &n);
    snapshot_dues(other->snapshot, &m);
    assert_int_equal(n, m);
    for (size_t i = 0; i < n; i++) {
        const struct due *d = of_name(other, &dues[i]);
        assert_non_null(d);
        assert_int_equal(d->deadline, dues[i].deadline);
        assert_int_equal(d->plan_day, dues[i].plan_day);
        assert_int_equal(d->book_by, dues[i].book_by);
        assert_int_equal(d->state, dues[i].state);
        assert_int_equal(d->warnings, dues[i].warnings);
        assert_int_equal(d->last_done, dues[i].last_done);
        assert_int_equal(d->cycle.record, dues[i].cycle.record);
    }
}

static void
the_order_of_things_changes_no_date(void **state)
{
    for (int i = 0; i < TASKS / 12; i++) {
        looking_at = i;
        struct world *w = fleet_of(*state, i, 0);
        struct world *other = fleet_of(*state, i, 1);
        check_same(w, other);
        world_free(w);
        world_free(other);
    }
    looking_at = -1;
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        PROPERTY(looking_ahead_is_stepping_ahead),
        PROPERTY(the_list_is_in_order),
        PROPERTY(the_order_of_things_changes_no_date),
    };

    return cmocka_run_group_tests(tests, run_setup, run_teardown);
}
