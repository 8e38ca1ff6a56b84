#ifndef RANDOM_FLEET_H
#define RANDOM_FLEET_H

/*
 * Fleets made by chance: two vehicles and what one of them carries, with jobs
 * that cover, follow and count one another, and what happened to them.  Only
 * what the reader of fleet files takes is made, so that each can be written
 * down as one.  Include after "fixture.h".
 */

#include "calc_context.h"
#include "random_task.h"
#include "test.h"

#define FLEET_JOBS 6
#define FLEET_CLOSED 60

struct random_fleet {
    struct world *w;
    struct work_calendar *place;           /* beside the depot's calendar */
    struct named_day closed[FLEET_CLOSED]; /* of the depot */
    size_t n_closed;
};

static inline int
span_days(struct span s)
{
    static const int days[] = {1, 7, 31, 366};

    return s.n * days[s.unit];
}

static inline int
has_length(const struct rule *r)
{
    for (int i = 0; i < r->n_every; i++)
        if (kind_is_length(&r->every[i]))
            return 1;
    return 0;
}

static inline int
has_meter(const struct rule *r, enum meter meter)
{
    for (int i = 0; i < r->n_every; i++)
        if (kind_meter(&r->every[i]) == meter)
            return 1;
    return 0;
}

static inline int
looks_back(const struct rule *r)
{
    for (int i = 0; i < r->n_every; i++)
        if (kind_looks_back(&r->every[i]))
            return 1;
    return 0;
}

static inline int
in_weeks(const struct rule *r)
{
    for (int i = 0; i < r->n_every; i++)
        if (r->every[i].span.n > 0 && r->every[i].span.unit != STEP_WEEKS)
            return 0;
    return has_length(r) &&
           (r->first.origin == ORIGIN_NONE || r->first.origin == ORIGIN_ON ||
               r->first.after.unit == STEP_WEEKS);
}

/* Ages need a length that is longer than theirs. */
static inline int
fits_age(const struct rule *r)
{
    for (int i = 0; i < r->n_every; i++)
        for (int k = 0; k < r->n_ages; k++)
            if (kind_is_length(&r->every[i]) &&
                span_days(r->ages[k].every) >
                    28 * span_days(r->every[i].span) / 31)
                return 0;
    return has_length(r);
}

/* Take back what the reader of the fleet file would refuse. */
static inline void
make_valid(struct job *j, const struct subject *oldest)
{
    struct rule *r = &j->rule;

    if (!in_weeks(r)) {
        if (r->ends == ENDS_WEEK_END)
            r->ends = ENDS_SAME_DAY;
        if (r->first_ends == ENDS_WEEK_END)
            r->first_ends = ENDS_SAME_DAY;
    }
    if (j->class == CLASS_LAW)
        r->roll = ROLL_PRECEDING;
    if (!fits_age(r) || oldest->registered == DAY_NONE)
        r->n_ages = 0;
    if (r->runs_from == KEEPS_DATE && r->window.n == 0)
        r->window = (struct span){1, STEP_MONTHS};
    if (r->runs_from == FROM_COMPLETION)
        r->window.n = 0;
    if (r->runs_from != KEEPS_DATE)
        r->late = LATE_RESTARTS;
    if (r->late == LATE_RESTARTS)
        r->shortest.n = 0;
    if (r->first.origin != ORIGIN_ON && r->first.origin != ORIGIN_NONE)
        r->first.origin = ORIGIN_REGISTERED;
}

/* One or two of the jobs before @j, or none. */
static inline size_t
chance_earlier(
    struct chance *c, struct world *w, struct job *j, const struct job ***out)
{
    size_t n = (size_t)chance_from(c, 1, 2);

    if (j->index == 0)
        return 0;
    *out = arena_take(w->arena, 2 * sizeof **out);
    assert_non_null(*out);
    if (n > j->index)
        n = j->index;
    size_t first = (size_t)chance_from(c, 0, (int)(j->index - n));
    for (size_t i = 0; i < n; i++)
        (*out)[i] = &w->jobs[first + i];
    return n;
}

static inline void
chance_job(struct chance *c, struct world *w, const struct subject *oldest)
{
    static const char *const names[] = {"j0", "j1", "j2", "j3", "j4", "j5"};
    struct job *j = world_loose_job(w, names[w->n_jobs], "1 day");

    j->class = (enum job_class)chance_from(c, 0, 3);
    chance_rule(c, w, &j->rule);
    chance_ages(c, &j->rule);
    if (one_in(c, 3))
        j->n_follows = chance_earlier(c, w, j, &j->follows);
    else if (one_in(c, 6))
        world_every(w, &j->rule, "when needed");
    if (j->n_follows > 0)
        world_every(w, &j->rule, one_in(c, 3) ? "2 weeks or 5 days" : "7 days");
    if (one_in(c, 4))
        j->n_covers = chance_earlier(c, w, j, &j->covers);
    if (kind_looks_back(&j->rule.every[0]) && j->rule.n_every == 1 &&
        j->index > 0 && one_in(c, 2))
        j->also_counts =
            (struct also_counts){&w->jobs[chance_from(c, 0, (int)j->index - 1)],
                chance_from(c, 1, 2)};
    make_valid(j, oldest);
}

static inline void
of_subject(struct record *k, const struct subject *s, day_t day)
{
    k->subject = s;
    k->subject_id = s->id;
    k->day = day;
}

/* What was done of @j on @s, or failed, most of it near other work. */
static inline void
chance_work(
    struct chance *c, struct world *w, const struct subject *s, struct job *j)
{
    int n = chance_from(c, 0, 3);

    for (int i = 0; i < n; i++) {
        day_t day = chance_day(c, 2023, 2025);
        if (w->n_records > 0 && one_in(c, 3))
            day = w->records[chance_from(c, 0, (int)w->n_records - 1)].day +
                  chance_from(c, -1, 3);
        struct record *k = world_done(w, j, "2020-01-01");
        of_subject(k, s, day);
        if (one_in(c, 6))
            k->kind = RECORD_FAILED;
    }
}

static inline void
chance_baseline(struct chance *c, struct task *t)
{
    if (one_in(c, 3))
        t->baseline.last = chance_day(c, 2022, 2025);
    if (t->job->n_follows > 0 || !one_in(c, 4))
        return;
    day_t from =
        t->baseline.last == DAY_NONE ? day_of(2024, 1, 1) : t->baseline.last;
    t->baseline.deadline = from + chance_from(c, 1, 900);
}

/* Spells off the road that know their ends, but for the last of them. */
static inline void
chance_spells(struct chance *c, struct world *w, const struct subject *s)
{
    int n = one_in(c, 2) ? chance_from(c, 1, 3) : 0;
    day_t from = chance_day(c, 2024, 2026);

    for (int i = 0; i < n; i++) {
        struct record *k = world_off_road(w, "2020-01-01", "-");
        of_subject(k, s, from);
        if (i == n - 1 && one_in(c, 5))
            return;
        k->until = from + chance_from(c, 0, 90);
        from = k->until + chance_from(c, 1, 120);
    }
}

static inline void
chance_readings(struct chance *c, struct world *w, const struct subject *s)
{
    int rate = chance_from(c, 10, 150);

    for (int i = chance_from(c, 0, 5); i > 0; i--) {
        struct record *k = world_reading(w, "2020-01-01", 0);
        of_subject(k, s, chance_day(c, 2023, 2025));
        k->reading = 1000 + (k->day - day_of(2020, 1, 1)) * rate;
    }
}

static inline void
chance_things(struct chance *c, struct world *w, struct subject *s)
{
    if (s->kind == SUBJECT_VEHICLE) {
        chance_readings(c, w, s);
        if (one_in(c, 2))
            s->yearly_distance = chance_from(c, 1000, 60000);
    }
    chance_spells(c, w, s);
    for (size_t i = 0; i < w->n_jobs; i++) {
        struct job *j = &w->jobs[i];
        if (one_in(c, 3) ||
            (s->carrier != NULL && has_meter(&j->rule, METER_DISTANCE)))
            continue;
        struct task *t = world_task(w, s, j);
        chance_baseline(c, t);
        chance_work(c, w, s, j);
    }
}

static inline void
chance_places(struct chance *c, struct random_fleet *f)
{
    static const weekdays_t works[] = {0x1f, 0x1f, 0x7f, 0x0a};
    struct work_calendar_plan plan = {
        .works = works[chance_from(c, 0, 3)], .closed = f->closed};

    for (int i = chance_from(c, 0, 3); i > 0; i--) {
        day_t day = chance_day(c, 2025, 2027);
        for (int k = chance_from(c, 1, 20); k > 0; k--)
            f->closed[f->n_closed++] = (struct named_day){day++, "Shut"};
    }
    plan.n_closed = f->n_closed;
    world_calendar(f->w, &plan);
    f->place = work_calendar_new(&(struct work_calendar_plan){.works = 0x12});
    assert_non_null(f->place);
}

/* Fleet @number; free it with random_fleet_free(). */
static inline void
random_fleet_make(struct random_fleet *f, uint64_t seed, int number)
{
    static const char *const names[] = {"V1", "V2", "E1"};
    struct chance c = chance_of(seed, 7000000 + (uint64_t)number);

    memset(f, 0, sizeof *f);
    f->w = world_bare();
    chance_places(&c, f);
    for (int i = 0; i < 3; i++) {
        struct subject *s = world_subject(f->w, names[i]);
        s->registered = chance_day(&c, 2012, 2023);
    }
    struct subject *carried = &f->w->subjects[2];
    carried->kind = SUBJECT_EQUIPMENT;
    carried->carrier = carried->first_carrier = &f->w->subjects[0];
    for (int n = chance_from(&c, 2, FLEET_JOBS); n > 0; n--)
        chance_job(&c, f->w, &f->w->subjects[0]);
    for (size_t i = 0; i < 3; i++)
        chance_things(&c, f->w, &f->w->subjects[i]);
    for (size_t i = 0; i < f->w->n_tasks; i++)
        if (f->w->tasks[i].job->index % 3 == 2)
            f->w->tasks[i].calendar = f->place;
    if (one_in(&c, 3)) {
        struct record *k = world_record(f->w, RECORD_MOVED, "2020-01-01");
        of_subject(k, carried, chance_day(&c, 2024, 2025));
        k->other = &f->w->subjects[1];
        k->other_id = k->other->id;
    }
}

static inline void
random_fleet_free(struct random_fleet *f)
{
    work_calendar_free(f->place);
    world_free(f->w);
}

#endif
