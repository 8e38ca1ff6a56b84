#include "defects.h"

#include <stdlib.h>
#include <string.h>
#include <strings.h>

#define NONE SIZE_MAX

/* An event, and the next one of the same defect. */
struct linked {
    size_t defect; /* in defects, or NONE */
    size_t next;   /* in events, or NONE */
    int is_late;   /* it joined what was closed by then, and is no act on it */
};

/* Where the events of a defect begin and end, and the one before it of the
 * same subject. */
struct acts_of {
    size_t first;
    size_t last;
    size_t before;
};

struct defects {
    const struct fleet *fleet;
    struct defect_event *events; /* by id */
    struct linked *links;        /* one for each */
    size_t n_events, room_events;
    struct defect *all; /* by number, as they are opened */
    struct acts_of *chains;
    size_t n, room;
    size_t *newest; /* of each subject, and of those that are unknown */
    const struct subject **carriers;
};

struct defects *
defects_new(const struct fleet *fleet)
{
    struct defects *ds = calloc(1, sizeof *ds);

    if (ds == NULL)
        return NULL;
    ds->fleet = fleet;
    ds->newest = malloc((fleet->n_subjects + 1) * sizeof *ds->newest);
    ds->carriers = calloc(fleet->n_subjects + 1, sizeof *ds->carriers);
    if (ds->newest == NULL || ds->carriers == NULL) {
        defects_free(ds);
        return NULL;
    }
    for (size_t i = 0; i <= fleet->n_subjects; i++)
        ds->newest[i] = NONE;
    for (size_t i = 0; i < fleet->n_subjects; i++)
        ds->carriers[i] = fleet->subjects[i].first_carrier;
    return ds;
}

void
defects_free(struct defects *ds)
{
    if (ds == NULL)
        return;
    free(ds->events);
    free(ds->links);
    free(ds->all);
    free(ds->chains);
    free(ds->newest);
    free(ds->carriers);
    free(ds);
}

/* Room for one more in both of two lists of the same length. */
static int
both_grow(
    void **a, size_t size_a, void **b, size_t size_b, size_t n, size_t *room)
{
    size_t more = *room ? 2 * *room : 64;

    if (n < *room)
        return 0;
    void *grown = realloc(*a, more * size_a);
    if (grown == NULL)
        return -1;
    *a = grown;
    grown = realloc(*b, more * size_b);
    if (grown == NULL)
        return -1;
    *b = grown;
    *room = more;
    return 0;
}

static int
make_room(struct defects *ds)
{
    void *events = ds->events;
    void *links = ds->links;
    void *all = ds->all;
    void *chains = ds->chains;
    int failed = both_grow(&events, sizeof *ds->events, &links,
                     sizeof *ds->links, ds->n_events, &ds->room_events) ||
                 both_grow(&all, sizeof *ds->all, &chains, sizeof *ds->chains,
                     ds->n, &ds->room);

    ds->events = events;
    ds->links = links;
    ds->all = all;
    ds->chains = chains;
    return failed ? -1 : 0;
}

/* Where the event with that id is, or NONE. */
static size_t
find(const struct defects *ds, int64_t id)
{
    size_t from = 0;
    size_t to = ds->n_events;

    while (from < to) {
        size_t middle = from + (to - from) / 2;
        if (ds->events[middle].id < id)
            from = middle + 1;
        else
            to = middle;
    }
    return from < ds->n_events && ds->events[from].id == id ? from : NONE;
}

static size_t
chain_of(const struct defects *ds, const struct subject *s)
{
    return s ? s->index : ds->fleet->n_subjects;
}

static int
is_same(const struct defect *d, const struct defect_event *e)
{
    return d->subject == e->subject &&
           strcasecmp(d->subject_id, e->subject_id) == 0 &&
           strcasecmp(d->item, e->item) == 0;
}

/* The number of the newest one like it that is closed, or 0. */
static int64_t
earlier(const struct defects *ds, const struct defect_event *e)
{
    size_t i = ds->newest[chain_of(ds, e->subject)];

    while (i != NONE &&
           !(ds->all[i].state == DEFECT_CLOSED && is_same(&ds->all[i], e)))
        i = ds->chains[i].before;
    return i == NONE ? 0 : ds->all[i].number;
}

/* The defect from its events, without those that were voided and without the
 * event at @without. */
static struct defect
fold(const struct defects *ds, size_t defect, size_t without)
{
    const struct defect *was = &ds->all[defect];
    struct defect d = {.again = was->again};

    for (size_t i = ds->chains[defect].first; i != NONE; i = ds->links[i].next)
        if (i != without && ds->events[i].voided_by == 0 &&
            !ds->links[i].is_late)
            defect_step(&d, &ds->events[i]);
    if (d.first != 0)
        return d;
    /* Its report was voided, which happens last: what is left to show. */
    defect_step(&d, &ds->events[ds->chains[defect].first]);
    d.state = DEFECT_VOID;
    return d;
}

static void
fold_again(struct defects *ds, size_t event)
{
    size_t defect = ds->links[event].defect;
    const struct subject *s = ds->events[event].subject;

    if (defect != NONE)
        ds->all[defect] = fold(ds, defect, NONE);
    if (ds->events[event].kind != EVENT_MOVED || s == NULL)
        return;
    ds->carriers[s->index] = s->first_carrier;
    for (size_t i = 0; i < ds->n_events; i++)
        if (ds->events[i].kind == EVENT_MOVED && ds->events[i].subject == s &&
            ds->events[i].voided_by == 0)
            ds->carriers[s->index] = ds->events[i].other;
}

/* A first report makes a defect; every other act goes to the end of its
 * chain. */
static void
link_event(struct defects *ds, size_t at)
{
    const struct defect_event *e = &ds->events[at];
    int is_first = e->kind == EVENT_REPORTED && e->about == 0;
    size_t defect = NONE;
    int is_late = 0;

    if (is_first) {
        size_t *newest = &ds->newest[chain_of(ds, e->subject)];
        defect = ds->n++;
        ds->all[defect] = (struct defect){.again = earlier(ds, e)};
        ds->chains[defect] = (struct acts_of){at, at, *newest};
        *newest = defect;
    } else if (e->kind >= EVENT_REPORTED && e->kind <= EVENT_RELEASED) {
        size_t first = find(ds, e->about);
        defect = first == NONE ? NONE : ds->links[first].defect;
        if (defect != NONE) {
            is_late =
                e->kind == EVENT_REPORTED && !defect_is_open(&ds->all[defect]);
            ds->links[ds->chains[defect].last].next = at;
            ds->chains[defect].last = at;
        }
    }
    ds->links[at] = (struct linked){defect, NONE, is_late};
}

int
defects_add(struct defects *ds, const struct defect_event *e)
{
    size_t at = ds->n_events;

    if (make_room(ds))
        return -1;
    ds->events[at] = *e;
    ds->events[at].voided_by = 0;
    ds->n_events++;
    link_event(ds, at);
    if (e->kind == EVENT_VOIDED) {
        at = find(ds, e->about);
        if (at != NONE) {
            ds->events[at].voided_by = e->id;
            fold_again(ds, at);
        }
    } else if (e->kind == EVENT_MOVED && e->subject != NULL)
        ds->carriers[e->subject->index] = e->other;
    else if (ds->links[at].defect != NONE && !ds->links[at].is_late)
        defect_step(&ds->all[ds->links[at].defect], e);
    return 0;
}

int
defects_is_late(const struct defects *ds, int64_t id)
{
    size_t at = find(ds, id);

    return at != NONE && ds->links[at].is_late;
}

const struct defect *
defects_all(const struct defects *ds, size_t *n)
{
    *n = ds->n;
    return ds->all;
}

const struct defect *
defects_numbered(const struct defects *ds, int64_t number)
{
    size_t from = 0;
    size_t to = ds->n;

    while (from < to) {
        size_t middle = from + (to - from) / 2;
        if (ds->all[middle].number < number)
            from = middle + 1;
        else
            to = middle;
    }
    return from < ds->n && ds->all[from].number == number ? &ds->all[from]
                                                          : NULL;
}

const struct defect *
defects_of_event(const struct defects *ds, int64_t id)
{
    size_t at = find(ds, id);

    if (at == NONE || ds->links[at].defect == NONE)
        return NULL;
    return &ds->all[ds->links[at].defect];
}

int64_t
defects_next_number(const struct defects *ds)
{
    return ds->n ? ds->all[ds->n - 1].number + 1 : 1;
}

/* Within the time of a closed one, before its repair and no worse: that tells
 * nothing that whoever mended and released it did not see. */
static int
says_nothing_new(const struct defect *d, const struct defect_event *e)
{
    struct day_time end = d->repaired.id ? d->repaired.at : d->released.at;

    return d->state == DEFECT_CLOSED && e->grade <= d->grade &&
           day_time_compare(e->at, d->reported.at) >= 0 &&
           day_time_compare(e->at, end) < 0;
}

/* Whether that report puts back what was decided or repaired. */
static int
undoes(const struct defect *d, const struct defect_event *report)
{
    struct defect after = *d;

    defect_step(&after, report);
    return d->state != DEFECT_REPORTED && after.state == DEFECT_REPORTED;
}

const struct defect *
defects_joined(const struct defects *ds, const struct defect_event *report)
{
    size_t i = ds->newest[chain_of(ds, report->subject)];
    const struct defect *open = NULL;
    const struct defect *closed = NULL;

    for (; i != NONE; i = ds->chains[i].before) {
        const struct defect *d = &ds->all[i];
        if (!is_same(d, report))
            continue;
        if (defect_is_open(d) && (!report->paper || day_time_compare(report->at,
                                                        d->reported.at) >= 0))
            open = open == NULL || undoes(d, report) || !undoes(open, report)
                       ? d
                       : open;
        if (closed == NULL && report->paper && says_nothing_new(d, report))
            closed = d;
    }
    return open ? open : closed;
}

const struct defect_event *
defects_released_failure(const struct defects *ds, int64_t failed)
{
    for (size_t i = 0; i < ds->n_events; i++)
        if (ds->events[i].kind == EVENT_RELEASED &&
            ds->events[i].about == failed && ds->events[i].voided_by == 0)
            return &ds->events[i];
    return NULL;
}

const struct subject *
defects_carrier(const struct defects *ds, const struct subject *s)
{
    const struct subject *carrier = ds->carriers[s->index];

    return carrier ? carrier : s;
}

const struct defect *
defects_open_on(const struct defects *ds, const struct subject *s,
    const struct defect *after)
{
    for (size_t i = after ? (size_t)(after - ds->all) + 1 : 0; i < ds->n; i++) {
        const struct defect *d = &ds->all[i];
        if (defect_is_open(d) && d->subject != NULL &&
            (d->subject == s || defects_carrier(ds, d->subject) == s))
            return d;
    }
    return NULL;
}

const struct fleet *
defects_fleet(const struct defects *ds)
{
    return ds->fleet;
}

const struct defect_event *
defects_event(const struct defects *ds, int64_t id)
{
    size_t at = find(ds, id);

    return at == NONE ? NULL : &ds->events[at];
}

const struct defect_event *
defects_events(const struct defects *ds, size_t *n)
{
    *n = ds->n_events;
    return ds->events;
}

struct defect
defects_without(const struct defects *ds, int64_t without)
{
    size_t at = find(ds, without);

    if (at == NONE || ds->links[at].defect == NONE)
        return (struct defect){0};
    return fold(ds, ds->links[at].defect, at);
}
