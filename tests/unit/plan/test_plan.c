/* The planner on small problems whose plan is reasoned out beside them. */
#include "plan.h"
#include "test.h"

#define TODAY ((day_t)20794) /* 2026-12-07, a Monday */

/* Works of one call each. */
struct calls {
    struct plan_call of[4];
};

static int
next_call(
    void *with, size_t work, const day_t *done, size_t n, struct plan_call *out)
{
    (void)done;
    *out = ((const struct calls *)with)->of[work];
    return n == 0;
}

static struct work_calendar *weekdays;

static int
set_up(void **state)
{
    (void)state;
    weekdays = work_calendar_new(&(struct work_calendar_plan){.works = 0x1f});
    return weekdays ? 0 : -1;
}

static int
tear_down(void **state)
{
    (void)state;
    work_calendar_free(weekdays);
    return 0;
}

static struct plan *
make(const struct plan_place *place, const struct plan_work *works,
    size_t n_works, struct calls *calls)
{
    static const struct plan_unit units[] = {
        {"K1", NULL, 0}, {"K2", NULL, 0}, {"K3", NULL, 0}};
    static struct plan_problem p;

    p = (struct plan_problem){TODAY, TODAY + 60, place, 1, NULL, 0, units, 3,
        works, n_works, next_call, calls};
    struct plan *plan = plan_new(&p);
    assert_non_null(plan);
    return plan;
}

static void
today_is_a_monday(void **state)
{
    (void)state;
    assert_int_equal(day_weekday(TODAY), 0);
}

/* K1's inspection is due on Friday, its service a week later; the service may
 * be done on that Friday: one visit, on the inspection's last day.  K2 alone
 * comes on its own last day. */
static void
works_of_one_unit_are_joined(void **state)
{
    struct plan_place place = {"workshop", 2, 0};
    struct plan_work works[] = {{0, 0, 60, 0, weekdays},
        {0, 0, 60, 0, weekdays}, {1, 0, 60, 0, weekdays}};
    struct calls calls = {{{TODAY, TODAY + 4, DAY_NONE, DAY_NONE, 0},
        {TODAY + 2, TODAY + 11, DAY_NONE, DAY_NONE, 0},
        {TODAY, TODAY + 9, DAY_NONE, DAY_NONE, 0}}};
    struct plan *plan = make(&place, works, 3, &calls);
    size_t n;
    const struct plan_booking *b = plan_bookings(plan, &n);

    (void)state;
    assert_int_equal(n, 3);
    assert_int_equal(b[0].day, TODAY + 4);
    assert_int_equal(b[0].cause, PLAN_LAST_DAY);
    assert_int_equal(b[1].day, TODAY + 4);
    assert_int_equal(b[1].cause, PLAN_TOGETHER);
    assert_int_equal(b[1].with, 0);
    assert_int_equal(b[2].day, TODAY + 9);
    assert_int_equal(plan_visits(plan), 2);
    plan_free(plan);
}

/* K2 is booked for the Friday, so K1's inspection takes the emptier Thursday
 * and its service, which may begin on the Friday, the week after.  Both can be
 * done on the Friday: one visit in place of two. */
static void
two_visits_become_one(void **state)
{
    struct plan_place place = {"workshop", 2, 0};
    struct plan_work works[] = {{1, 0, 60, 0, weekdays},
        {0, 0, 60, 0, weekdays}, {0, 0, 60, 0, weekdays}};
    struct calls calls = {{{TODAY, TODAY + 4, TODAY + 4, DAY_NONE, 0},
        {TODAY, TODAY + 4, DAY_NONE, DAY_NONE, 0},
        {TODAY + 4, TODAY + 8, DAY_NONE, DAY_NONE, 0}}};
    struct plan *plan = make(&place, works, 3, &calls);
    size_t n;
    const struct plan_booking *b = plan_bookings(plan, &n);

    (void)state;
    assert_int_equal(n, 3);
    for (size_t i = 0; i < n; i++)
        assert_int_equal(b[i].day, TODAY + 4);
    assert_int_equal(plan_visits(plan), 2);
    plan_free(plan);
}

/* One place, three units due on the same Friday: Friday, and the two days
 * before it, where the place is full on every later day. */
static void
a_full_place_sends_earlier(void **state)
{
    struct plan_place place = {"workshop", 1, 0};
    struct plan_work works[] = {{0, 0, 60, 0, weekdays},
        {1, 0, 60, 0, weekdays}, {2, 0, 60, 0, weekdays}};
    struct plan_call call = {TODAY + 2, TODAY + 4, DAY_NONE, DAY_NONE, 0};
    struct calls calls = {{call, call, call}};
    struct plan *plan = make(&place, works, 3, &calls);
    size_t n;
    const struct plan_booking *b = plan_bookings(plan, &n);

    (void)state;
    for (int i = 0; i < 3; i++)
        assert_int_equal(b[i].day, TODAY + 2 + i);
    assert_int_equal(b[0].cause, PLAN_CROWDED);
    assert_int_equal(b[0].limit, PLAN_VEHICLES);
    assert_int_equal(b[0].on, TODAY + 4);
    assert_int_equal(b[2].cause, PLAN_LAST_DAY);
    plan_free(plan);
}

/* K1 is booked for the day that K2 could only have: K2 is late, K1 stays. */
static void
what_is_booked_stays(void **state)
{
    struct plan_place place = {"workshop", 1, 0};
    struct plan_work works[] = {
        {0, 0, 60, 0, weekdays}, {1, 0, 60, 0, weekdays}};
    struct calls calls = {{{TODAY, TODAY + 11, TODAY + 2, DAY_NONE, 0},
        {TODAY + 2, TODAY + 2, DAY_NONE, DAY_NONE, 0}}};
    struct plan *plan = make(&place, works, 2, &calls);
    size_t n;
    const struct plan_booking *b = plan_bookings(plan, &n);

    (void)state;
    assert_int_equal(b[0].day, TODAY + 2);
    assert_int_equal(b[0].cause, PLAN_FIXED);
    assert_int_equal(b[0].limit, PLAN_FREE);
    assert_int_equal(b[1].day, TODAY + 3);
    assert_int_equal(b[1].cause, PLAN_LATE);
    assert_int_equal(b[1].limit, PLAN_VEHICLES);
    plan_free(plan);
}

/* K1's second time, one to four days after the first, is booked for Friday;
 * K2's, due on Friday, could be on Wednesday. */
static int
next_of_two(
    void *with, size_t work, const day_t *done, size_t n, struct plan_call *out)
{
    (void)with;
    if (work == 1)
        *out = (struct plan_call){TODAY + 2, TODAY + 4, DAY_NONE, DAY_NONE, 0};
    else if (n == 0)
        *out = (struct plan_call){TODAY, TODAY + 7, DAY_NONE, DAY_NONE, 0};
    else
        *out = (struct plan_call){
            done[0] + 1, done[0] + 4, TODAY + 4, DAY_NONE, 0};
    return n < (work == 1 ? 1 : 2);
}

/* The place takes one: K1's first time is on Thursday, early enough for the
 * booking, whose Friday K2 leaves for the Wednesday. */
static void
a_later_booking_is_made_room_for(void **state)
{
    static const struct plan_place place = {"workshop", 1, 0};
    static const struct plan_unit units[] = {{"K1", NULL, 0}, {"K2", NULL, 0}};
    const struct plan_work works[] = {
        {0, 0, 60, 0, weekdays}, {1, 0, 60, 0, weekdays}};
    struct plan_problem p = {TODAY, TODAY + 60, &place, 1, NULL, 0, units, 2,
        works, 2, next_of_two, NULL};
    struct plan *plan = plan_new(&p);
    size_t n;

    (void)state;
    assert_non_null(plan);
    const struct plan_booking *b = plan_bookings(plan, &n);
    assert_int_equal(n, 3);
    assert_int_equal(b[0].work, 1);
    assert_int_equal(b[0].day, TODAY + 2);
    assert_int_equal(b[1].day, TODAY + 3);
    assert_int_equal(b[2].day, TODAY + 4);
    assert_int_equal(b[2].cause, PLAN_FIXED);
    assert_int_equal(b[2].limit, PLAN_FREE);
    plan_free(plan);
}

/* A booking on a Saturday stays and says so; one before today is none. */
static void
a_booking_says_what_it_passes(void **state)
{
    struct plan_place place = {"workshop", 0, 0};
    struct plan_work works[] = {
        {0, 0, 60, 0, weekdays}, {1, 0, 60, 0, weekdays}};
    struct calls calls = {{{TODAY, TODAY + 11, TODAY + 5, DAY_NONE, 0},
        {TODAY - 9, TODAY + 8, TODAY - 3, DAY_NONE, 0}}};
    struct plan *plan = make(&place, works, 2, &calls);
    size_t n;
    const struct plan_booking *b = plan_bookings(plan, &n);

    (void)state;
    assert_int_equal(b[0].day, TODAY + 5);
    assert_int_equal(b[0].limit, PLAN_SHUT);
    assert_int_equal(b[1].day, TODAY + 8);
    assert_int_equal(b[1].cause, PLAN_LAST_DAY);
    plan_free(plan);
}

/* Overdue: the first day that is open, and no limit is to blame.  Work that is
 * longer than the place's day finds none at all. */
static void
what_is_late_is_told(void **state)
{
    struct plan_place place = {"workshop", 0, 240};
    struct plan_work works[] = {
        {0, 0, 60, 0, weekdays}, {1, 0, 300, 0, weekdays}};
    struct calls calls = {{{TODAY - 30, TODAY - 2, DAY_NONE, DAY_NONE, 0},
        {TODAY, TODAY + 5, DAY_NONE, DAY_NONE, 0}}};
    struct plan *plan = make(&place, works, 2, &calls);
    size_t n;
    const struct plan_booking *b = plan_bookings(plan, &n);
    const struct plan_clash *c = plan_clashes(plan, &n);

    (void)state;
    assert_int_equal(n, 2);
    assert_int_equal(b[0].day, DAY_NONE);
    assert_int_equal(b[0].cause, PLAN_LATE);
    assert_int_equal(b[0].limit, PLAN_MINUTES);
    assert_int_equal(b[0].on, TODAY + 4);
    assert_int_equal(c[0].more, TODAY + 4);
    assert_int_equal(c[0].limit, PLAN_MINUTES);
    assert_int_equal(b[1].day, TODAY);
    assert_int_equal(b[1].limit, PLAN_FREE);
    assert_int_equal(plan_visits(plan), 1);
    plan_free(plan);
}

static int
next_or_second(
    void *with, size_t work, const day_t *done, size_t n, struct plan_call *out)
{
    if (work != 2 || n != 1)
        return next_call(with, work, done, n, out);
    *out = ((const struct calls *)with)->of[3];
    return 1;
}

/*
 * One vehicle a day, and K1 is booked for today, when K2 and K3 are due: both
 * are late.  K3's work can be done on Thursday and on one day more; it takes
 * the Thursday.  K2 has Tuesday, and then calls for more, on that Thursday and
 * no other day.  K3, which is late anyway, moves on to its other day, @then, or
 * to the first of two, @and.
 */
static void
check_moved_on(day_t then, day_t and)
{
    const day_t open[] = {TODAY + 3, then, and};
    struct work_calendar *few = work_calendar_new(
        &(struct work_calendar_plan){.open = open, .n_open = 3});
    struct plan_place place = {"workshop", 1, 0};
    static const struct plan_unit units[] = {
        {"K1", NULL, 0}, {"K2", NULL, 0}, {"K3", NULL, 0}};
    struct plan_work works[] = {
        {0, 0, 60, 0, weekdays}, {1, 0, 60, 0, few}, {2, 0, 60, 0, weekdays}};
    struct calls calls = {{{TODAY, TODAY, TODAY, DAY_NONE, 0},
        {TODAY, TODAY, DAY_NONE, DAY_NONE, 0},
        {TODAY, TODAY, DAY_NONE, DAY_NONE, 0},
        {TODAY + 3, TODAY + 3, DAY_NONE, DAY_NONE, 0}}};
    struct plan_problem p = {TODAY, TODAY + 60, &place, 1, NULL, 0, units, 3,
        works, 3, next_or_second, &calls};
    struct plan *plan = plan_new(&p);
    size_t n;

    assert_non_null(few);
    assert_non_null(plan);
    const struct plan_booking *b = plan_bookings(plan, &n);
    assert_int_equal(n, 4);
    assert_int_equal(b[1].work, 2);
    assert_int_equal(b[1].day, TODAY + 1);
    assert_int_equal(b[2].work, 2);
    assert_int_equal(b[2].day, TODAY + 3);
    assert_int_equal(b[3].work, 1);
    assert_int_equal(b[3].day, then);
    plan_free(plan);
    work_calendar_free(few);
}

/* To the very next day, or, where there is no other, to the last day on which
 * anything is planned: 180 days after the horizon. */
static void
what_is_late_anyway_moves_on(void **state)
{
    (void)state;
    check_moved_on(TODAY + 4, TODAY + 5);
    check_moved_on(TODAY + 60 + 180, TODAY + 60 + 180);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_is_late_anyway_moves_on),
        cmocka_unit_test(today_is_a_monday),
        cmocka_unit_test(works_of_one_unit_are_joined),
        cmocka_unit_test(two_visits_become_one),
        cmocka_unit_test(a_full_place_sends_earlier),
        cmocka_unit_test(what_is_booked_stays),
        cmocka_unit_test(a_later_booking_is_made_room_for),
        cmocka_unit_test(a_booking_says_what_it_passes),
        cmocka_unit_test(what_is_late_is_told),
    };

    return cmocka_run_group_tests(tests, set_up, tear_down);
}
