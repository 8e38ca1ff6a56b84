/*
 * One place that takes so many vehicles a day, and jobs of one day, each with
 * a window: a matching in a convex bipartite graph, whose largest one is found
 * by taking, day by day, the waiting job with the earliest deadline (Glover,
 * Maximum matching in a convex bipartite graph, Naval Research Logistics
 * Quarterly 14, 1967).  The planner has as many jobs in time.
 */
#include "chance.h"
#include "plan.h"
#include "test.h"

#define CASES 10000
#define JOBS 30
#define TODAY ((day_t)20794) /* a Monday */
#define DAYS 35

struct jobs {
    struct chance chance;
    int n;
    int vehicles;
    day_t from[JOBS];
    day_t to[JOBS];
    struct plan_work works[JOBS];
    struct plan_unit units[JOBS];
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
make_jobs(struct jobs *j, uint64_t seed, const struct work_calendar *open)
{
    int days;
    int width;

    j->chance = chance_of(seed, 0);
    j->n = 1 + chance_from(&j->chance, 0, JOBS - 1);
    j->vehicles = 1 + chance_from(&j->chance, 0, 2) / 2;
    days = 5 + chance_from(&j->chance, 0, DAYS - 6);
    width = 1 + chance_from(&j->chance, 0, days - 1);
    for (int i = 0; i < j->n; i++) {
        j->from[i] = TODAY + chance_from(&j->chance, 0, days - 1);
        j->to[i] = j->from[i] + chance_from(&j->chance, 0, width);
        j->units[i] = (struct plan_unit){"unit", NULL, 0};
        j->works[i] = (struct plan_work){(size_t)i, 0, 60, 0, open};
    }
}

/* Glover's rule. */
static int
most_in_time(const struct jobs *j, const struct work_calendar *open)
{
    int done[JOBS] = {0};
    int count = 0;

    for (day_t d = TODAY; d < TODAY + 2 * DAYS; d++) {
        for (int k = 0; k < j->vehicles && work_calendar_is_open(open, d);
             k++) {
            int best = -1;
            for (int i = 0; i < j->n; i++)
                if (!done[i] && j->from[i] <= d && d <= j->to[i] &&
                    (best < 0 || j->to[i] < j->to[best]))
                    best = i;
            if (best < 0)
                break;
            done[best] = 1;
            count++;
        }
    }
    return count;
}

static int
in_time(struct jobs *j)
{
    struct plan_place place = {"workshop", j->vehicles, 0};
    struct plan_problem p = {TODAY, TODAY + 2 * DAYS, &place, 1, NULL, 0,
        j->units, (size_t)j->n, j->works, (size_t)j->n, next_call, j};
    struct plan *plan = plan_new(&p);
    int count = 0;
    size_t n;
    size_t late;

    assert_non_null(plan);
    const struct plan_booking *b = plan_bookings(plan, &n);
    assert_int_equal(n, j->n);
    for (size_t i = 0; i < n; i++)
        count += b[i].day >= b[i].call.from && b[i].day <= b[i].call.to;
    (void)plan_clashes(plan, &late);
    assert_int_equal(late, j->n - count);
    plan_free(plan);
    return count;
}

static void
as_many_as_can_be_are_in_time(void **state)
{
    struct work_calendar *open =
        work_calendar_new(&(struct work_calendar_plan){.works = 0x1f});
    int full = 0;

    (void)state;
    assert_non_null(open);
    for (uint64_t seed = 1; seed <= CASES; seed++) {
        static struct jobs j;
        make_jobs(&j, seed, open);
        int most = most_in_time(&j, open);
        full += most == j.n;
        assert_int_equal(in_time(&j), most);
    }
    print_message("# %d of %d have all jobs in time\n", full, CASES);
    assert_in_range(full, CASES / 10, CASES * 9 / 10);
    work_calendar_free(open);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(as_many_as_can_be_are_in_time),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
