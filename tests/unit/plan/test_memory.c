/*
 * Memory that runs out at any point: the planner says so and leaves nothing
 * behind.
 */
#include "out_of_memory.h"
#include "random_plan.h"
#include "test.h"

#if OWN_MALLOC
/* Fail the first allocation, then the second, until there are no more. */
static int
fail_each(const struct random_plan *r)
{
    for (int n = 0;; n++) {
        long before = live;
        left = n;
        struct plan *plan = plan_new(&r->problem);
        int all = left >= 0;
        left = -1;
        if (all)
            assert_non_null(plan);
        plan_free(plan);
        assert_int_equal(live, before);
        if (all)
            return n;
        /* qsort makes do without the memory that it asks for, others do not. */
        if (n == 0)
            assert_null(plan);
    }
}

static void
memory_that_runs_out_is_told(void **state)
{
    struct work_calendar *calendars[RANDOM_CALENDARS];
    static struct random_plan r;

    (void)state;
    random_calendars(calendars);
    for (uint64_t seed = 1; seed <= 40; seed++) {
        random_plan(&r, seed, calendars);
        assert_true(fail_each(&r) > 10);
    }
    for (size_t i = 0; i < RANDOM_CALENDARS; i++)
        work_calendar_free(calendars[i]);
}
#else
static void
memory_that_runs_out_is_told(void **state)
{
    (void)state;
}
#endif

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(memory_that_runs_out_is_told),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
