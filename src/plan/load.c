#include "load.h"

#include <stdint.h>
#include <stdlib.h>

/* What a place has on a day, and what it may have. */
struct room {
    int vehicles;
    int minutes;
    int more_vehicles;
    int more_minutes;
};

/* How many of a group are away on a day, and how many more may be. */
struct absence {
    int away;
    int more;
};

/* Where a unit is on a day: its place, for so many works; and how many works
 * somebody booked for it at other places, whatever that comes to. */
struct stand {
    unsigned place;
    uint16_t works;
    uint16_t apart;
};

struct load {
    const struct plan_problem *problem;
    day_t first;
    size_t days;
    struct room *rooms;       /* by place and day */
    struct absence *absences; /* by group and day */
    struct stand *stands;     /* by unit and day */
};

struct load *
load_new(const struct plan_problem *p, day_t first, day_t last)
{
    struct load *l = calloc(1, sizeof *l);

    if (l == NULL)
        return NULL;
    l->problem = p;
    l->first = first;
    l->days = (size_t)(last - first) + 1;
    l->rooms = calloc(p->n_places * l->days + 1, sizeof *l->rooms);
    l->absences = calloc(p->n_groups * l->days + 1, sizeof *l->absences);
    l->stands = calloc(p->n_units * l->days + 1, sizeof *l->stands);
    if (l->rooms && l->absences && l->stands)
        return l;
    load_free(l);
    return NULL;
}

void
load_free(struct load *l)
{
    if (l == NULL)
        return;
    free(l->rooms);
    free(l->absences);
    free(l->stands);
    free(l);
}

static size_t
at(const struct load *l, size_t row, day_t d)
{
    return row * l->days + (size_t)(d - l->first);
}

static const struct plan_unit *
unit_of(const struct load *l, const struct plan_work *w)
{
    return &l->problem->units[w->unit];
}

static int
holds_on(const struct plan_group *g, day_t d)
{
    return g->on == NULL || work_calendar_is_open(g->on, d);
}

/* The first group of @w's unit that can spare nobody more on @d. */
static struct hindrance
check_groups(const struct load *l, const struct plan_work *w, day_t d)
{
    const struct plan_unit *u = unit_of(l, w);

    for (size_t i = 0; i < u->n_groups; i++) {
        const struct plan_group *g = &l->problem->groups[u->groups[i]];
        const struct absence *a = &l->absences[at(l, u->groups[i], d)];
        if (holds_on(g, d) && a->away >= g->away + a->more)
            return (struct hindrance){PLAN_AWAY, u->groups[i]};
    }
    return (struct hindrance){PLAN_FREE, 0};
}

struct hindrance
load_check_open(const struct load *l, const struct plan_work *w, day_t d)
{
    const struct plan_place *p = &l->problem->places[w->place];
    const struct room *r = &l->rooms[at(l, w->place, d)];
    const struct stand *s = &l->stands[at(l, w->unit, d)];

    if (p->minutes && r->minutes + w->minutes > p->minutes + r->more_minutes)
        return (struct hindrance){PLAN_MINUTES, 0};
    if (w->stays)
        return (struct hindrance){PLAN_FREE, 0};
    if (s->works > 0 || s->apart > 0)
        return (struct hindrance){
            s->place == w->place && !s->apart ? PLAN_FREE : PLAN_ELSEWHERE, 0};
    if (p->vehicles && r->vehicles >= p->vehicles + r->more_vehicles)
        return (struct hindrance){PLAN_VEHICLES, 0};
    return check_groups(l, w, d);
}

struct hindrance
load_check(const struct load *l, const struct plan_work *w, day_t d)
{
    if (!work_calendar_is_open(w->open, d))
        return (struct hindrance){PLAN_SHUT, 0};
    return load_check_open(l, w, d);
}

/* The unit of @w comes to its place, or leaves it. */
static void
count_unit(struct load *l, const struct plan_work *w, day_t d, int by)
{
    const struct plan_unit *u = unit_of(l, w);

    l->rooms[at(l, w->place, d)].vehicles += by;
    for (size_t i = 0; i < u->n_groups; i++)
        l->absences[at(l, u->groups[i], d)].away += by;
}

int
load_put(struct load *l, const struct plan_work *w, day_t d)
{
    struct stand *s = &l->stands[at(l, w->unit, d)];

    l->rooms[at(l, w->place, d)].minutes += w->minutes;
    if (w->stays)
        return 0;
    if (s->works > 0 && s->place != w->place) {
        s->apart++;
        return 1;
    }
    s->place = (unsigned)w->place;
    if (s->works++ == 0)
        count_unit(l, w, d, 1);
    return 0;
}

void
load_take(struct load *l, const struct plan_work *w, day_t d, int apart)
{
    struct stand *s = &l->stands[at(l, w->unit, d)];

    l->rooms[at(l, w->place, d)].minutes -= w->minutes;
    if (apart)
        s->apart--;
    else if (!w->stays && --s->works == 0)
        count_unit(l, w, d, -1);
}

/* A vehicle away weighs as much as an hour's work. */
long
load_weight(const struct load *l, const struct plan_work *w, day_t d)
{
    const struct plan_unit *u = unit_of(l, w);
    const struct room *r = &l->rooms[at(l, w->place, d)];
    long weight = 60L * r->vehicles + r->minutes;

    for (size_t i = 0; i < u->n_groups; i++)
        weight += 60L * l->absences[at(l, u->groups[i], d)].away;
    return weight;
}

void
load_allow(struct load *l, const struct plan_work *w, day_t d,
    const struct hindrance *h, int sign)
{
    struct room *r = &l->rooms[at(l, w->place, d)];

    switch (h->limit) {
    case PLAN_VEHICLES:
        r->more_vehicles += sign;
        break;
    case PLAN_MINUTES:
        r->more_minutes += sign * w->minutes;
        break;
    case PLAN_AWAY:
        l->absences[at(l, h->group, d)].more += sign;
        break;
    case PLAN_FREE:
    case PLAN_SHUT:
    case PLAN_ELSEWHERE:
        break;
    }
}
