#ifndef REASONS_H
#define REASONS_H

#include "due.h"

struct arena;

/*
 * Inside the due layer only: the list to which the steps of one due are
 * added.  Every function takes NULL for "nobody asks" and then does nothing.
 */
struct reasons;

/* A list whose texts and steps are taken from @a; NULL when memory is out. */
struct reasons *reasons_new(struct arena *a);

/* Add one step.  Running out of memory is remembered, see reasons_take(). */
void reasons_add(struct reasons *rs, enum reason_step step, day_t before,
    day_t after, const char *format, ...) __attribute__((format(printf, 5, 6)));

/* Hand the steps added so far to @d and begin an empty list: 0, or -1 when
 * memory ran out since the last time. */
int reasons_take(struct reasons *rs, struct due *d);

/* Forget the steps added so far. */
void reasons_clear(struct reasons *rs);

#endif
