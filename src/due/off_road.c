#include "off_road.h"

#include <stdlib.h>

int
off_road_add(struct spells *s, const struct record *k, const struct record *end,
    day_t from, day_t to)
{
    for (; k < end; k++) {
        struct spell spell = {
            day_later(k->day, from), day_earlier(k->until, to)};
        if (k->kind != RECORD_OFF_ROAD ||
            (spell.until != DAY_NONE && spell.until < spell.from))
            continue;
        if (LIST_ADD(*s, spell))
            return -1;
    }
    return 0;
}

static int
by_from(const void *left, const void *right)
{
    const struct spell *a = left;
    const struct spell *b = right;

    return (a->from > b->from) - (a->from < b->from);
}

void
off_road_join(struct spells *s)
{
    size_t kept = 0;

    if (s->n > 1)
        qsort(s->at, s->n, sizeof *s->at, by_from);
    for (size_t i = 0; i < s->n; i++) {
        struct spell *last = kept ? &s->at[kept - 1] : NULL;
        const struct spell *next = &s->at[i];
        if (last == NULL ||
            (last->until != DAY_NONE && next->from > last->until + 1))
            s->at[kept++] = *next;
        else if (last->until != DAY_NONE)
            last->until = next->until == DAY_NONE
                              ? DAY_NONE
                              : day_later(last->until, next->until);
    }
    s->n = kept;
}
