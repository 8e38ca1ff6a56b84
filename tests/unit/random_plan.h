#ifndef RANDOM_PLAN_H
#define RANDOM_PLAN_H

#include "chance.h"
#include "plan.h"

#include <assert.h>
#include <stdint.h>
#include <string.h>

/*
 * Random problems for the planner's tests, from a number that repeats them: up
 * to eight units and three places, with groups, bookings and work that leaves
 * the unit in use.  Today is a Monday.
 */
#define RANDOM_TODAY ((day_t)20794)
#define RANDOM_WORKS 24
#define RANDOM_CYCLES 8
#define RANDOM_CALENDARS 4

struct random_rule {
    size_t cycles;
    day_t from;
    day_t to;
    day_t gap_from;
    day_t gap_to;
    day_t fixed[RANDOM_CYCLES];
    day_t planned[RANDOM_CYCLES];
};

struct random_plan {
    struct chance chance;
    struct plan_problem problem;
    struct plan_place places[3];
    struct plan_group groups[3];
    struct plan_unit units[8];
    size_t groups_of[8][3];
    struct plan_work works[RANDOM_WORKS];
    struct random_rule rules[RANDOM_WORKS];
};

/* A number from 0 to @most. */
static inline int
random_to(struct random_plan *r, int most)
{
    return chance_from(&r->chance, 0, most);
}

static inline int
random_next(
    void *with, size_t work, const day_t *done, size_t n, struct plan_call *out)
{
    const struct random_rule *rule = &((struct random_plan *)with)->rules[work];

    if (n >= rule->cycles)
        return 0;
    *out = (struct plan_call){
        rule->from, rule->to, rule->fixed[n], rule->planned[n], 0};
    if (n > 0) {
        out->from = done[n - 1] + rule->gap_from;
        out->to = done[n - 1] + rule->gap_to;
    }
    return 1;
}

static inline void
random_work(
    struct random_plan *r, size_t w, struct work_calendar *const *calendars)
{
    struct random_rule *rule = &r->rules[w];
    static const int minutes[] = {0, 60, 60, 120, 240};

    r->works[w] =
        (struct plan_work){(size_t)random_to(r, (int)r->problem.n_units - 1),
            (size_t)random_to(r, (int)r->problem.n_places - 1),
            minutes[random_to(r, 4)], random_to(r, 6) == 0,
            calendars[random_to(r, RANDOM_CALENDARS - 1)]};
    rule->cycles = (size_t)random_to(r, 3) + 1;
    rule->to = RANDOM_TODAY + random_to(r, 25);
    rule->from = rule->to - random_to(r, 12);
    rule->gap_to = 6 + random_to(r, 15);
    rule->gap_from = rule->gap_to - random_to(r, 5);
    for (size_t c = 0; c < RANDOM_CYCLES; c++)
        rule->fixed[c] = rule->planned[c] = DAY_NONE;
    if (random_to(r, 14) == 0)
        rule->fixed[0] = rule->to - random_to(r, 4);
}

static inline void
random_plan(struct random_plan *r, uint64_t seed,
    struct work_calendar *const *calendars)
{
    struct plan_problem *p = &r->problem;

    memset(r, 0, sizeof *r);
    r->chance = chance_of(seed, 0);
    *p = (struct plan_problem){RANDOM_TODAY, RANDOM_TODAY + 60, r->places,
        (size_t)random_to(r, 2) + 1, r->groups, (size_t)random_to(r, 3),
        r->units, (size_t)random_to(r, 7) + 1, r->works,
        (size_t)random_to(r, RANDOM_WORKS - 1) + 1, random_next, r};
    for (size_t i = 0; i < p->n_places; i++)
        r->places[i] = (struct plan_place){
            "place", random_to(r, 3), 240 * random_to(r, 2)};
    for (size_t i = 0; i < p->n_groups; i++)
        r->groups[i] = (struct plan_group){"group",
            random_to(r, 1) ? calendars[random_to(r, RANDOM_CALENDARS - 1)]
                            : NULL,
            1 + random_to(r, 2)};
    for (size_t u = 0; u < p->n_units; u++) {
        r->units[u] = (struct plan_unit){"unit", r->groups_of[u], 0};
        for (size_t g = 0; g < p->n_groups; g++)
            if (random_to(r, 1))
                r->groups_of[u][r->units[u].n_groups++] = g;
    }
    for (size_t w = 0; w < p->n_works; w++)
        random_work(r, w, calendars);
}

static inline void
random_calendars(struct work_calendar *calendars[RANDOM_CALENDARS])
{
    static const struct named_day closed[] = {
        {.day = RANDOM_TODAY + 3, .name = "Regatta day"},
        {.day = RANDOM_TODAY + 18, .name = "Fair"}};
    static const struct work_calendar_plan plans[RANDOM_CALENDARS] = {
        {.works = 0x1f}, {.works = 0x7f},
        {.works = 0x1f, .closed = closed, .n_closed = 2}, {.works = 0x0a}};

    for (size_t i = 0; i < RANDOM_CALENDARS; i++) {
        calendars[i] = work_calendar_new(&plans[i]);
        assert(calendars[i] != NULL);
    }
}

#endif
