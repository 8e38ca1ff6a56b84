#include "posed.h"

#include <stdlib.h>

/* Days on which work cannot be done, over and above its calendar. */

/* What is due before the return is done in the spell, and so is what is
 * overdue; nothing else is. */
static int
waits_for_return(struct agenda *a, size_t at)
{
    struct forward_call c;

    return forward_call(a->forward, at, NULL, 0, &c) == 1 &&
           c.state != DUE_BEFORE_RETURN &&
           (c.deadline == DAY_NONE || c.deadline >= a->options.today);
}

static int
is_changed_shut(const struct agenda *a, const struct workplace *p, day_t d)
{
    for (size_t i = 0; i < a->options.n_changes; i++) {
        const struct change *c = &a->options.changes[i];
        int applies = c->kind == CHANGE_HOLIDAY ||
                      (c->kind == CHANGE_SHUT && c->place == p);
        if (applies && c->from <= d && d <= c->to)
            return 1;
    }
    return 0;
}

/* The days to take out of the calendar of a task, into @out: how many.  Sets
 * @by_road when some of them are for being off the road. */
static size_t
find_closed(struct agenda *a, size_t at, struct named_day *out, int *by_road)
{
    const struct task *t = &a->facts->fleet->tasks[at];
    const struct workplace *place = fleet_workplace(t);
    int waits = waits_for_return(a, at);
    size_t n = 0;

    *by_road = 0;
    for (day_t d = a->options.today; d <= posed_last(a); d++) {
        int road = waits && forward_is_off_road(a->forward, at, d);
        if (!work_calendar_is_open(t->calendar, d) ||
            !(road || is_changed_shut(a, place, d)))
            continue;
        out[n++] = (struct named_day){d, "off the road, or shut"};
        *by_road |= road;
    }
    return n;
}

static struct work_calendar *
find_cut(const struct agenda *a, const struct cut_calendar *key)
{
    for (const struct cut_calendar *c = a->cut; c != NULL; c = c->next)
        if (c->of == key->of && c->place == key->place && c->root == key->root)
            return c->made;
    return NULL;
}

struct work_calendar *
posed_keep(struct agenda *a, struct work_calendar *c, struct cut_calendar key)
{
    struct cut_calendar *kept = arena_take(a->arena, sizeof *kept);

    if (c == NULL || kept == NULL) {
        work_calendar_free(c);
        return NULL;
    }
    *kept = key;
    kept->made = c;
    kept->next = a->cut;
    a->cut = kept;
    return c;
}

static struct work_calendar *
without(
    const struct work_calendar *of, const struct named_day *closed, size_t n)
{
    struct work_calendar *others =
        work_calendar_new(&(struct work_calendar_plan){
            .works = WEEKDAYS_ALL, .closed = closed, .n_closed = n});
    struct work_calendar *both = others ? work_calendar_both(of, others) : NULL;

    work_calendar_free(others);
    return both;
}

const struct work_calendar *
posed_calendar(struct agenda *a, size_t at)
{
    const struct task *t = &a->facts->fleet->tasks[at];

    if (a->options.n_changes == 0 && !forward_has_spells(a->forward, at))
        return t->calendar;
    size_t days = (size_t)(posed_last(a) - a->options.today) + 1;
    struct named_day *closed = malloc(days * sizeof *closed);
    int by_road;

    if (closed == NULL)
        return NULL;
    size_t n = find_closed(a, at, closed, &by_road);
    struct cut_calendar key = {.of = t->calendar,
        .place = fleet_workplace(t),
        .root = by_road ? posed_root(t->subject) : NULL};
    const struct work_calendar *found = n ? find_cut(a, &key) : t->calendar;
    if (found == NULL)
        found = posed_keep(a, without(t->calendar, closed, n), key);
    free(closed);
    return found;
}
