/* What holds for every plan, on random problems. */
#include <stdlib.h>

#include "random_plan.h"
#include "test.h"

#define PROBLEMS 3000
#define DAYS 300 /* more than a plan reaches */

static struct work_calendar *calendars[RANDOM_CALENDARS];

static int
set_up(void **state)
{
    (void)state;
    random_calendars(calendars);
    return 0;
}

static int
tear_down(void **state)
{
    (void)state;
    for (size_t i = 0; i < RANDOM_CALENDARS; i++)
        work_calendar_free(calendars[i]);
    return 0;
}

static struct plan *
make(const struct random_plan *r)
{
    struct plan *plan = plan_new(&r->problem);

    assert_non_null(plan);
    return plan;
}

/* Where each call is, DAY_NONE for those that are not there. */
struct days {
    day_t of[RANDOM_WORKS][RANDOM_CYCLES];
    size_t n;
};

static void
take_days(const struct plan *plan, struct days *d)
{
    const struct plan_booking *b = plan_bookings(plan, &d->n);

    for (size_t w = 0; w < RANDOM_WORKS; w++)
        for (size_t c = 0; c < RANDOM_CYCLES; c++)
            d->of[w][c] = DAY_NONE;
    for (size_t i = 0; i < d->n; i++)
        d->of[b[i].work][b[i].cycle] = b[i].day;
}

/* Each call once, the cycles of a work in a row, as many as there are by
 * `until'; its window is what the day before it gives. */
static void
check_calls(const struct random_plan *r, const struct plan *plan)
{
    size_t n;
    const struct plan_booking *b = plan_bookings(plan, &n);
    int seen[RANDOM_WORKS][RANDOM_CYCLES] = {{0}};
    struct days d;

    take_days(plan, &d);
    for (size_t i = 0; i < n; i++)
        assert_int_equal(seen[b[i].work][b[i].cycle]++, 0);
    for (size_t w = 0; w < r->problem.n_works; w++)
        for (size_t c = 0; c < r->rules[w].cycles; c++) {
            day_t to = r->rules[w].to;
            if (c > 0 && (!seen[w][c - 1] || d.of[w][c - 1] == DAY_NONE)) {
                assert_false(seen[w][c]);
                continue;
            }
            if (c > 0)
                to = d.of[w][c - 1] + r->rules[w].gap_to;
            assert_int_equal(seen[w][c], to <= r->problem.until);
        }
}

static int
is_clash(const struct plan *plan, size_t booking)
{
    size_t n;
    const struct plan_clash *c = plan_clashes(plan, &n);

    for (size_t i = 0; i < n; i++)
        if (c[i].booking == booking)
            return 1;
    return 0;
}

/* What is booked is on its day; all else on an open day of its window, or it is
 * reported. */
static void
check_days(const struct random_plan *r, const struct plan *plan)
{
    size_t n;
    const struct plan_booking *b = plan_bookings(plan, &n);

    for (size_t i = 0; i < n; i++) {
        const struct plan_call *call = &b[i].call;
        if (call->fixed != DAY_NONE) {
            assert_int_equal(b[i].day, call->fixed);
            continue;
        }
        assert_int_equal(
            b[i].day == DAY_NONE || b[i].day > call->to, is_clash(plan, i));
        if (b[i].day == DAY_NONE)
            continue;
        assert_true(work_calendar_is_open(r->works[b[i].work].open, b[i].day));
        assert_true(b[i].day >= call->from && b[i].day >= r->problem.today);
    }
}

/* How many stand on a day. */
struct tally {
    int vehicles[3];
    int minutes[3];
    int away[3];
    int fixed;
};

static void
count_day(const struct random_plan *r, const struct plan *plan, day_t day,
    struct tally *t)
{
    size_t n;
    const struct plan_booking *b = plan_bookings(plan, &n);
    int place_of[8] = {0};

    memset(t, 0, sizeof *t);
    for (size_t i = 0; i < n; i++) {
        const struct plan_work *w = &r->works[b[i].work];
        if (b[i].day != day)
            continue;
        t->fixed |= b[i].call.fixed == day;
        t->minutes[w->place] += w->minutes;
        if (w->stays || place_of[w->unit] == (int)w->place + 1)
            continue;
        t->vehicles[w->place]++;
        for (size_t g = 0; g < r->units[w->unit].n_groups; g++)
            t->away[r->groups_of[w->unit][g]] += !place_of[w->unit];
        /* A unit is at one place a day, unless somebody booked it so. */
        assert_true(!place_of[w->unit] || t->fixed);
        place_of[w->unit] = (int)w->place + 1;
    }
}

static void
check_limits(const struct random_plan *r, const struct plan *plan)
{
    for (day_t day = RANDOM_TODAY; day < RANDOM_TODAY + DAYS; day++) {
        struct tally t;
        count_day(r, plan, day, &t);
        if (t.fixed)
            continue;
        for (size_t p = 0; p < r->problem.n_places; p++) {
            const struct plan_place *place = &r->places[p];
            assert_true(!place->vehicles || t.vehicles[p] <= place->vehicles);
            assert_true(!place->minutes || t.minutes[p] <= place->minutes);
        }
        for (size_t g = 0; g < r->problem.n_groups; g++)
            if (!r->groups[g].on || work_calendar_is_open(r->groups[g].on, day))
                assert_true(t.away[g] <= r->groups[g].away);
    }
}

/* In the order of day, unit and work. */
static void
check_order(const struct random_plan *r, const struct plan *plan)
{
    size_t n;
    const struct plan_booking *b = plan_bookings(plan, &n);

    for (size_t i = 1; i < n; i++) {
        size_t unit = r->works[b[i].work].unit;
        size_t before = r->works[b[i - 1].work].unit;
        assert_true(b[i - 1].day <= b[i].day);
        if (b[i - 1].day != b[i].day)
            continue;
        assert_true(before <= unit);
        assert_true(before < unit || b[i - 1].work <= b[i].work);
    }
}

static void
no_rule_is_broken(void **state)
{
    static struct random_plan r;

    (void)state;
    for (uint64_t seed = 1; seed <= PROBLEMS; seed++) {
        random_plan(&r, seed, calendars);
        struct plan *plan = make(&r);
        check_calls(&r, plan);
        check_days(&r, plan);
        check_limits(&r, plan);
        check_order(&r, plan);
        plan_free(plan);
    }
}

static void
keep_as_planned(struct random_plan *r, const struct plan *plan)
{
    struct days d;

    take_days(plan, &d);
    for (size_t w = 0; w < RANDOM_WORKS; w++)
        memcpy(r->rules[w].planned, d.of[w], sizeof d.of[w]);
}

/* The bookings of both plans that are not on the same day. */
static int
count_moved(const struct plan *before, const struct plan *after)
{
    struct days a;
    struct days b;
    int moved = 0;

    take_days(before, &a);
    take_days(after, &b);
    for (size_t w = 0; w < RANDOM_WORKS; w++)
        for (size_t c = 0; c < RANDOM_CYCLES; c++)
            moved += a.of[w][c] != b.of[w][c];
    return moved;
}

/* With what was planned before, the plan is what it was: what is published
 * today is not taken back tomorrow, though nothing has changed. */
static void
the_same_again_is_the_same_plan(void **state)
{
    static struct random_plan r;

    (void)state;
    for (uint64_t seed = 1; seed <= PROBLEMS; seed++) {
        random_plan(&r, seed, calendars);
        struct plan *first = make(&r);
        struct plan *second = make(&r);
        assert_int_equal(count_moved(first, second), 0);
        keep_as_planned(&r, first);
        struct plan *third = make(&r);
        assert_int_equal(count_moved(first, third), 0);
        plan_free(first);
        plan_free(second);
        plan_free(third);
    }
}

/* One deadline comes four days earlier.  The calls of that work move, and what
 * has to make room: on average no more than one booking in twelve. */
static void
a_small_change_moves_little(void **state)
{
    static struct random_plan r;
    size_t bookings = 0;
    int moved = 0;
    int most = 0;

    (void)state;
    for (uint64_t seed = 1; seed <= PROBLEMS; seed++) {
        random_plan(&r, seed, calendars);
        struct plan *before = make(&r);
        keep_as_planned(&r, before);
        r.rules[0].to -= 4;
        r.rules[0].from -= 4;
        struct plan *after = make(&r);
        size_t n;
        (void)plan_bookings(after, &n);
        int now = count_moved(before, after);
        bookings += n;
        moved += now;
        most = now > most ? now : most;
        plan_free(before);
        plan_free(after);
    }
    print_message("# of %zu bookings %d moved, at most %d in one plan\n",
        bookings, moved, most);
    assert_true((size_t)moved * 12 <= bookings);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(no_rule_is_broken),
        cmocka_unit_test(the_same_again_is_the_same_plan),
        cmocka_unit_test(a_small_change_moves_little),
    };

    return cmocka_run_group_tests(tests, set_up, tear_down);
}
