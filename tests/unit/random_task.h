#ifndef RANDOM_TASK_H
#define RANDOM_TASK_H

/* Tasks made by chance, for tests of what holds for all.  Include after
 * "fixture.h". */

#include "chance.h"

#include <stdio.h>

static inline day_t
chance_day(struct chance *c, int first_year, int last_year)
{
    return chance_from(c, day_of(first_year, 1, 1), day_of(last_year, 12, 31));
}

static inline struct span
chance_span(struct chance *c)
{
    switch (chance_from(c, 0, 3)) {
    case 0:
        return (struct span){chance_from(c, 3, 120), STEP_DAYS};
    case 1:
        return (struct span){chance_from(c, 1, 13), STEP_WEEKS};
    case 2:
        return (struct span){chance_from(c, 1, 24), STEP_MONTHS};
    }
    return (struct span){chance_from(c, 1, 6), STEP_YEARS};
}

static inline void
chance_interval(struct chance *c, char *out, size_t size)
{
    static const char *const units[] = {"days", "weeks", "months", "years"};
    /* Each starts on one of its days, as the reader of rules wants it:
     * 2022-01-31, a Monday, and the last Friday of January 2022. */
    static const char *const rules[] = {"FREQ=MONTHLY from 2022-01-31",
        "FREQ=WEEKLY;INTERVAL=5 from 2022-01-31",
        "FREQ=MONTHLY;BYDAY=-1FR from 2022-01-28",
        "FREQ=YEARLY;BYMONTH=3,9;BYMONTHDAY=15 from 2021-09-15"};
    struct span s = chance_span(c);

    switch (chance_from(c, 0, 9)) {
    case 0:
        snprintf(out, size, "%d km", chance_from(c, 500, 30000));
        return;
    case 1:
        snprintf(out, size, "%d within %d %s", chance_from(c, 2, 5), s.n,
            units[s.unit]);
        return;
    case 2:
        snprintf(out, size, "yearly on %d %s", chance_from(c, 1, 29),
            one_in(c, 2) ? "feb" : "nov");
        return;
    case 3: /* these cost a hundred times as much as all the others */
        if (!one_in(c, 15))
            break;
        snprintf(out, size, "rule %s", rules[chance_from(c, 0, 3)]);
        return;
    }
    snprintf(out, size, "%d %s", s.n, units[s.unit]);
}

static inline void
chance_rule(struct chance *c, struct world *w, struct rule *r)
{
    char one[80];
    char two[200];

    chance_interval(c, one, sizeof one);
    chance_interval(c, two, sizeof two);
    if (one_in(c, 4)) {
        char both[300];
        snprintf(both, sizeof both, "%s or %s", one, two);
        world_every(w, r, both);
    } else {
        world_every(w, r, one);
    }
    r->ends = (enum ends)chance_from(c, 0, 3);
    r->first_ends = (enum ends)chance_from(c, 0, 3);
    r->month_end = (enum month_end)one_in(c, 4);
    r->runs_from = (enum runs_from)chance_from(c, 0, 2);
    if (!one_in(c, 3))
        r->window = (struct span){chance_from(c, 1, 2), STEP_MONTHS};
    r->window_opens = (enum window_opens)chance_from(c, 0, 2);
    r->late = (enum when_late)one_in(c, 3);
    if (one_in(c, 3))
        r->shortest = (struct span){chance_from(c, 1, 8), STEP_WEEKS};
    r->off_road = (enum off_road)one_in(c, 2);
    r->roll = one_in(c, 3) ? (enum roll)chance_from(c, 0, 2) : ROLL_PRECEDING;
    r->forecast = (enum forecast_day)chance_from(c, 0, 2);
    if (one_in(c, 2))
        r->lead =
            (struct lead){{chance_from(c, 1, 20), STEP_DAYS}, one_in(c, 2)};
}

/* The first deadline and the steps of age. */
static inline void
chance_ages(struct chance *c, struct rule *r)
{
    if (!one_in(c, 4))
        r->first = (struct first){
            (enum origin)chance_from(c, 1, 4), chance_span(c), DAY_NONE};
    else if (one_in(c, 2))
        r->first = (struct first){
            .origin = ORIGIN_ON, .on = chance_day(c, 2019, 2026)};
    r->n_ages = one_in(c, 3) ? chance_from(c, 1, 2) : 0;
    r->age_from = ORIGIN_EARLIEST;
    for (int i = 0; i < r->n_ages; i++)
        r->ages[i] = (struct age_step){
            {chance_from(c, 1, 6) + 6 * i, STEP_YEARS}, chance_span(c)};
}

/* What happened to @t's subject: the ids say in which order. */
static inline void
chance_history(struct chance *c, struct world *w, struct task *t, int64_t id)
{
    int n = chance_from(c, 0, 5);

    for (int i = 0; i < n; i++) {
        struct record *k = world_done(w, t->job, "2020-01-01");
        k->id = id++;
        k->subject = t->subject;
        k->day = chance_day(c, 2020, 2025);
        if (one_in(c, 6))
            k->kind = RECORD_FAILED;
    }
    if (!one_in(c, 3))
        return;
    t->baseline.last = chance_day(c, 2019, 2025);
    if (one_in(c, 2))
        t->baseline.deadline = t->baseline.last + chance_from(c, 1, 400);
}

/* Spells and readings of a subject, and the days it began on. */
static inline void
chance_subject(struct chance *c, struct world *w, struct subject *s, int64_t id)
{
    int n = chance_from(c, 0, 3);
    int rate = chance_from(c, 1, 200);

    s->registered = one_in(c, 4) ? DAY_NONE : chance_day(c, 2012, 2021);
    s->built = one_in(c, 2) ? DAY_NONE : chance_day(c, 2010, 2019);
    s->in_service = one_in(c, 2) ? DAY_NONE : chance_day(c, 2015, 2022);
    if (one_in(c, 2))
        s->yearly_distance = chance_from(c, 1000, 60000);
    for (int i = 0; i < n; i++) {
        struct record *k = world_off_road(w, "2020-01-01", "-");
        k->id = id++;
        k->subject = s;
        k->day = chance_day(c, 2021, 2027);
        if (!one_in(c, 5))
            k->until = k->day + chance_from(c, 0, 120);
    }
    for (int i = chance_from(c, 0, 6); i > 0; i--) {
        struct record *k = world_reading(w, "2020-01-01", 0);
        k->id = id++;
        k->subject = s;
        k->day = chance_day(c, 2020, 2025);
        k->reading = 1000 + (k->day - day_of(2020, 1, 1)) * rate +
                     chance_from(c, 0, 500);
    }
}

/* One task of @s with its own job, of the id given. */
static inline struct task *
chance_task(struct chance *c, struct world *w, struct subject *s,
    const char *id, int64_t record)
{
    struct job *j = world_loose_job(w, id, "1 day");
    struct task *t = world_task(w, s, j);

    j->class = (enum job_class)chance_from(c, 0, 3);
    chance_rule(c, w, &j->rule);
    chance_ages(c, &j->rule);
    chance_history(c, w, t, record);
    return t;
}

#endif
