#include "booked.h"

#include "calc_context.h"
#include "num.h"

#include <string.h>

/* Work booked for a day so soon after its deadline was booked late; later, it
 * is the next time. */
#define LATE_MOST 28

/* It was used, though to no avail, unless it was made for another try. */
static int
was_tried(const struct booked *b, const struct record *failed)
{
    return failed != NULL && failed->day >= b->day &&
           failed->entered >= b->entered;
}

/* How many completions came after the one that @b's cycle began with; -1 when
 * that one is not among them, which older ones are not. */
static int
done_since(
    const struct booked *b, size_t base, const struct calc_context *r, size_t n)
{
    int64_t record = 0;

    if (b->cycle[0] != 'r')
        return (int)n;
    if (num_parse(b->cycle + 1, base - 1, 1, INT64_MAX, &record))
        return -1;
    for (size_t i = n; i > 0; i--)
        if (r->done[i - 1].record == record)
            return (int)(n - i);
    return -1;
}

int
booked_ahead(const struct booked *b, const struct calc_context *r,
    size_t n_done, const struct cycle *now)
{
    char present[CYCLE_TEXT];
    int64_t ahead = 0;

    if (b->cycle == NULL)
        return BOOKED_UNTOLD;
    size_t base = strcspn(b->cycle, "+");
    if (b->cycle[base] == '+' &&
        num_parse(
            b->cycle + base + 1, strlen(b->cycle + base + 1), 1, 10000, &ahead))
        return BOOKED_UNTOLD;
    due_cycle_text(&(struct cycle){now->record, now->start, 0}, present);
    if (strlen(present) == base && strncmp(b->cycle, present, base) == 0)
        return ahead == 0 && was_tried(b, r->failed) ? BOOKED_OVER : (int)ahead;
    if (ahead == 0)
        return BOOKED_OVER;
    int done = done_since(b, base, r, n_done);
    if (done < 0)
        return BOOKED_UNTOLD;
    if (done == ahead && was_tried(b, r->failed))
        return BOOKED_OVER;
    return done > ahead ? BOOKED_OVER : (int)ahead - done;
}

int
booked_takes(day_t d, day_t deadline, day_t last, int first, day_t today)
{
    if (last != DAY_NONE && d <= last)
        return 0;
    if (d <= deadline || (first && deadline == DAY_NONE))
        return 1;
    return deadline < today || (first && d - deadline <= LATE_MOST);
}

/* Of several bookings of one cycle the one entered last counts: it was
 * moved. */
const struct booked *
booked_for(
    const struct calc_context *r, const struct cycle *now, day_t deadline)
{
    size_t n_done = r->n_done - (size_t)r->ahead;
    day_t last = r->n_done ? r->done[r->n_done - 1].day : DAY_NONE;
    const struct booked *found = NULL;

    for (size_t i = 0; i < r->n_booked; i++) {
        const struct booked *b = &r->booked[i];
        int ahead = booked_ahead(b, r, n_done, now);
        if (ahead == BOOKED_UNTOLD &&
            booked_takes(b->day, deadline, last, r->ahead == 0, DAY_FIRST))
            ahead = r->ahead;
        if (ahead == r->ahead && (found == NULL || b->id > found->id))
            found = b;
    }
    return found;
}
