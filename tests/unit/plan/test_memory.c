/*
 * Memory that runs out at any point: the planner says so and leaves nothing
 * behind.  malloc, calloc and realloc are this file's own, in front of glibc's,
 * except under a sanitizer, which has its own.
 */
#include <stdlib.h>

#include "random_plan.h"
#include "test.h"

#if defined(__SANITIZE_ADDRESS__)
#define OWN_MALLOC 0
#elif defined(__has_feature)
#if __has_feature(address_sanitizer)
#define OWN_MALLOC 0
#endif
#endif
#ifndef OWN_MALLOC
#define OWN_MALLOC 1
#endif

#if OWN_MALLOC
/* Allocations until one fails, or -1 for none; and how many are not freed. */
static long left = -1;
static long live;

void *__libc_malloc(size_t size);
void *__libc_calloc(size_t n, size_t size);
void *__libc_realloc(void *at, size_t size);
void __libc_free(void *at);

static int
fails(void)
{
    return left >= 0 && left-- == 0;
}

static void *
counted(void *at)
{
    live += at != NULL;
    return at;
}

void *
malloc(size_t size)
{
    return fails() ? NULL : counted(__libc_malloc(size));
}

void *
calloc(size_t n, size_t size)
{
    return fails() ? NULL : counted(__libc_calloc(n, size));
}

void *
realloc(void *at, size_t size)
{
    if (fails())
        return NULL;
    return at ? __libc_realloc(at, size) : counted(__libc_realloc(at, size));
}

void
free(void *at)
{
    live -= at != NULL;
    __libc_free(at);
}

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
