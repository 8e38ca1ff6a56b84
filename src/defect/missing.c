#include "missing.h"

#include <strings.h>

/* The item for which the sheets of @vehicle ask for such equipment, or NULL. */
static const struct check_item *
asked_for(const struct subject *vehicle, const struct subject *equipment)
{
    if (vehicle == NULL || equipment->type == NULL)
        return NULL;
    return sheet_item_carried(vehicle, equipment->type);
}

/* Whether an event that stands came of that one. */
static int
is_used(const struct defects *ds, int64_t id)
{
    size_t n;
    const struct defect_event *e = defects_events(ds, &n);

    for (size_t i = 0; i < n; i++)
        if (e[i].cause == id && e[i].voided_by == 0 &&
            e[i].kind != EVENT_REPORTED)
            return 1;
    return 0;
}

/* An arrival of the same day that is still there and stands in for nothing
 * else: one for one. */
static int64_t
stand_in(const struct defects *ds, const struct subject *at,
    const struct defect_event *move)
{
    size_t n;
    const struct defect_event *e = defects_events(ds, &n);

    for (size_t i = 0; i < n; i++)
        if (e[i].kind == EVENT_MOVED && e[i].voided_by == 0 &&
            e[i].other == at && e[i].at.day == move->at.day &&
            e[i].subject != move->subject && e[i].subject != NULL &&
            e[i].subject->type == move->subject->type &&
            defects_carrier(ds, e[i].subject) == at && !is_used(ds, e[i].id))
            return e[i].id;
    return 0;
}

/* What went missing at @at on the same day, and on which nobody acted; another
 * stands in for it, while the very thing that comes back needs its move voided
 * or a release. */
static const struct defect *
was_missing(const struct defects *ds, const struct subject *at,
    const struct check_item *item, const struct defect_event *move)
{
    const struct defect *d = NULL;

    while ((d = defects_open_on(ds, at, d)) != NULL) {
        const struct defect_event *cause = defects_event(ds, d->cause);
        if (d->subject == at && strcasecmp(d->item, item->code) == 0 &&
            d->last == d->first && cause != NULL &&
            cause->kind == EVENT_MOVED && cause->subject != move->subject &&
            cause->at.day == move->at.day)
            return d;
    }
    return NULL;
}

struct move_brings
missing_by_move(const struct defects *ds, const struct defect_event *e)
{
    struct move_brings b = {0};
    const struct subject *from = defects_carrier(ds, e->subject);
    const struct check_item *left = asked_for(from, e->subject);
    const struct check_item *came = asked_for(e->other, e->subject);

    if (from == e->other)
        return b;
    if (left != NULL && from != e->subject) {
        b.excused_by = stand_in(ds, from, e);
        if (b.excused_by == 0) {
            b.lacking = from;
            b.item = left;
        }
    }
    if (came != NULL)
        b.found = was_missing(ds, e->other, came, e);
    return b;
}
