/*
 * What a clash says would help: on small problems of one place, where trying
 * everything shows how many calls have to be late.
 */
#include <string.h>

#include "chance.h"
#include "plan.h"
#include "test.h"

#define CASES 2000
#define JOBS 6
#define DAYS 8
#define TODAY ((day_t)20794) /* a Monday */

/* Jobs of one day each at a place that takes so many a day; the place's limit
 * is a group's here, which can differ from day to day. */
struct jobs {
    struct chance chance;
    int n;
    int room[DAYS];
    day_t from[JOBS];
    day_t to[JOBS];
};

static int
next_call(
    void *with, size_t work, const day_t *done, size_t n, struct plan_call *out)
{
    const struct jobs *j = with;

    (void)done;
    *out =
        (struct plan_call){j->from[work], j->to[work], DAY_NONE, DAY_NONE, 0};
    return n == 0;
}

static void
make_jobs(struct jobs *j, uint64_t seed)
{
    memset(j, 0, sizeof *j);
    j->chance = chance_of(seed, 0);
    j->n = 2 + chance_from(&j->chance, 0, JOBS - 2);
    for (int d = 0; d < DAYS; d++)
        j->room[d] = 1;
    for (int i = 0; i < j->n; i++) {
        j->from[i] = TODAY + chance_from(&j->chance, 0, DAYS - 2);
        j->to[i] = j->from[i] + chance_from(&j->chance, 0, 2);
        if (j->to[i] >= TODAY + DAYS)
            j->to[i] = TODAY + DAYS - 1;
    }
}

/* How many jobs of those from @i on are late at best: every day of each is
 * tried. */
static int
least_late(struct jobs *j, int i)
{
    if (i == j->n)
        return 0;
    int best = 1 + least_late(j, i + 1);
    for (day_t d = j->from[i]; d <= j->to[i]; d++) {
        int *room = &j->room[d - TODAY];
        if (*room == 0)
            continue;
        --*room;
        int late = least_late(j, i + 1);
        ++*room;
        if (late < best)
            best = late;
    }
    return best;
}

static void
check_more(struct jobs *j, const struct plan_clash *c, int late)
{
    assert_int_not_equal(c->more, DAY_NONE);
    assert_int_equal(c->limit, PLAN_VEHICLES);
    j->room[c->more - TODAY]++;
    assert_int_equal(least_late(j, 0), late - 1);
    j->room[c->more - TODAY]--;
}

/* The least that helps is what the clash says, or nothing does. */
static void
check_earlier(struct jobs *j, const struct plan_clash *c, size_t work, int late)
{
    day_t from = j->from[work];
    int least = 0;

    while (least == 0 && --j->from[work] >= TODAY)
        if (least_late(j, 0) < late)
            least = from - j->from[work];
    j->from[work] = from;
    assert_int_equal(c->earlier, least);
}

static int
check_case(struct jobs *j, const struct work_calendar *open)
{
    static const struct plan_unit units[JOBS];
    struct plan_place place = {"workshop", 1, 0};
    struct plan_work works[JOBS];
    struct plan_problem p = {TODAY, TODAY + DAYS, &place, 1, NULL, 0, units,
        (size_t)j->n, works, (size_t)j->n, next_call, j};
    size_t n;
    size_t late;

    for (int i = 0; i < j->n; i++)
        works[i] = (struct plan_work){(size_t)i, 0, 60, 0, open};
    struct plan *plan = plan_new(&p);
    assert_non_null(plan);
    const struct plan_booking *b = plan_bookings(plan, &n);
    const struct plan_clash *c = plan_clashes(plan, &late);
    assert_int_equal(late, least_late(j, 0));
    for (size_t i = 0; i < late; i++) {
        check_more(j, &c[i], (int)late);
        check_earlier(j, &c[i], b[c[i].booking].work, (int)late);
    }
    plan_free(plan);
    return (int)late;
}

static void
what_is_said_to_help_helps(void **state)
{
    struct work_calendar *open =
        work_calendar_new(&(struct work_calendar_plan){.works = WEEKDAYS_ALL});
    int clashes = 0;

    (void)state;
    assert_non_null(open);
    for (uint64_t seed = 1; seed <= CASES; seed++) {
        struct jobs j;
        make_jobs(&j, seed);
        clashes += check_case(&j, open);
    }
    assert_true(clashes > CASES / 10);
    work_calendar_free(open);
}

/* A place with 480 minutes a day; two vehicles of a group of which one may be
 * away, both with five hours' work due on the same Monday. */
static void
two_limits_in_the_way_are_not_one(void **state)
{
    struct work_calendar *open =
        work_calendar_new(&(struct work_calendar_plan){.works = 0x1f});
    struct jobs j = {.n = 2, .from = {TODAY, TODAY}, .to = {TODAY, TODAY}};
    struct plan_place place = {"workshop", 0, 480};
    struct plan_group group = {"buses", NULL, 1};
    static const size_t in[] = {0};
    struct plan_unit units[] = {{"a", in, 1}, {"b", in, 1}};
    struct plan_work works[] = {{0, 0, 300, 0, open}, {1, 0, 300, 0, open}};
    struct plan_problem p = {TODAY, TODAY + DAYS, &place, 1, &group, 1, units,
        2, works, 2, next_call, &j};
    size_t n;

    (void)state;
    struct plan *plan = plan_new(&p);
    assert_non_null(plan);
    const struct plan_clash *c = plan_clashes(plan, &n);
    assert_int_equal(n, 1);
    assert_int_equal(c->more, DAY_NONE);
    plan_free(plan);

    /* With enough hours only the group is in the way. */
    place.minutes = 600;
    plan = plan_new(&p);
    assert_non_null(plan);
    c = plan_clashes(plan, &n);
    assert_int_equal(n, 1);
    assert_int_equal(c->more, TODAY);
    assert_int_equal(c->limit, PLAN_AWAY);
    assert_int_equal(c->group, 0);
    plan_free(plan);
    work_calendar_free(open);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_is_said_to_help_helps),
        cmocka_unit_test(two_limits_in_the_way_are_not_one),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
