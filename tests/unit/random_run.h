#ifndef RANDOM_RUN_H
#define RANDOM_RUN_H

/*
 * Trying a property on tasks made by chance.  SEED=n in the environment
 * repeats a run; a failure says which task it was.  Include after
 * "fixture.h".
 */

#include "random_task.h"
#include "test.h"

#define TASKS 10000
#define CALENDARS 8

/* Calendars in pairs: the second of a pair is closed on more days. */
struct run {
    uint64_t seed;
    struct work_calendar *calendar[CALENDARS][2];
};

/* Which task is being looked at, for the message after a failure. */
static int looking_at;

static inline struct work_calendar *
closed_calendar(struct chance *c, weekdays_t works, int one_day_in)
{
    struct named_day closed[2000];
    struct work_calendar_plan plan = {.works = works, .closed = closed};

    for (day_t d = day_of(2019, 1, 1); d < day_of(2034, 1, 1); d++)
        if (one_in(c, one_day_in) && plan.n_closed < 2000)
            closed[plan.n_closed++] = (struct named_day){d, "closed"};
    return work_calendar_new(&plan);
}

static inline int
run_setup(void **state)
{
    static const weekdays_t works[] = {
        0x1f, 0x7f, 0x0a, 0x1f, 0x40, 0x1f, 0x3f, 0x15};
    static struct run run;
    const char *seed = getenv("SEED");

    run.seed = seed ? strtoull(seed, NULL, 10) : 20260901;
    print_message("# SEED=%llu\n", (unsigned long long)run.seed);
    for (int i = 0; i < CALENDARS; i++) {
        struct chance c = chance_of(run.seed, (uint64_t)i);
        run.calendar[i][0] = closed_calendar(&c, works[i], 30);
        struct work_calendar *more = closed_calendar(&c, WEEKDAYS_ALL, 8);
        if (run.calendar[i][0] == NULL || more == NULL)
            return -1;
        run.calendar[i][1] = work_calendar_both(run.calendar[i][0], more);
        work_calendar_free(more);
        if (run.calendar[i][1] == NULL)
            return -1;
    }
    *state = &run;
    return 0;
}

static inline int
run_teardown(void **state)
{
    struct run *run = *state;

    for (int i = 0; i < CALENDARS; i++) {
        work_calendar_free(run->calendar[i][0]);
        work_calendar_free(run->calendar[i][1]);
    }
    return 0;
}

static inline int
say_which(void **state)
{
    const struct run *run = *state;

    if (looking_at >= 0)
        print_message("# at task %d of SEED=%llu\n", looking_at,
            (unsigned long long)run->seed);
    return 0;
}

/* The world of task @number: one vehicle, one job. */
static inline struct world *
world_of(const struct run *run, int number)
{
    struct chance c = chance_of(run->seed, 1000 + (uint64_t)number);
    struct world *w = world_bare();

    looking_at = number;
    world_subject(w, "K7");
    chance_subject(&c, w, &w->subjects[0], 1);
    struct task *t = chance_task(&c, w, &w->subjects[0], "job", 100);
    t->calendar = run->calendar[number % CALENDARS][0];
    return w;
}

typedef void property(const struct run *run, struct world *w, int number);

/* For each task, or for one in so many where that costs more. */
static inline void
for_tasks(const struct run *run, int one_of, property *holds)
{
    for (int i = 0; i < TASKS; i += one_of) {
        struct world *w = world_of(run, i);
        holds(run, w, i);
        world_free(w);
    }
    looking_at = -1;
}

/* The due of the only task; never NULL, as none is a follow-on. */
static inline struct due
due_on(struct world *w, day_t today)
{
    world_snapshot_to(w, today, DAY_NONE);
    const struct due *d = world_find(w, &w->jobs[0], 0);

    assert_non_null(d);
    return *d;
}

#define PROPERTY(f) cmocka_unit_test_teardown(f, say_which)

#endif
