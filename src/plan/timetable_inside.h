#ifndef TIMETABLE_INSIDE_H
#define TIMETABLE_INSIDE_H

#include "queue.h"
#include "timetable.h"

/* For timetable.c, which makes one and reads it, and timetable_change.c. */

/* How an item was before it was changed. */
struct was {
    size_t item;
    day_t day;
    enum turn turn;
    int wide;
    struct plan_call call;
    long newest; /* of its work */
    int created; /* it was not there */
};

struct timetable {
    const struct plan_problem *problem;
    const struct timetable *like; /* whose days are held to, or NULL */
    day_t last;
    struct load *load;
    struct queue *waiting; /* items without a day, by deadline */
    struct item *items;
    size_t n;
    size_t size;
    long *at;     /* the first item of each place and day */
    long *of;     /* of each unit */
    long *newest; /* of each work */
    struct was *log;
    size_t n_log;
    size_t log_size;
    day_t *done; /* of one work, while its next call is asked for */
    size_t done_size;
};

/* Ask for the first call of each work: 0, or -1 when memory is out. */
int timetable_begin(struct timetable *t);

/* Where the list of the items at the place of @w on @d begins. */
long *timetable_head(
    const struct timetable *t, const struct plan_work *w, day_t d);

#endif
