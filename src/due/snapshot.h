#ifndef SNAPSHOT_H
#define SNAPSHOT_H

#include "due.h"

/*
 * All dues of a fleet on one day: the one thing that every view is made from.
 * It is made once and then only read; it borrows the facts and their fleet.
 */
struct booked;
struct calm;
struct snapshot;

struct snapshot_options {
    day_t today;
    day_t horizon; /* project coming cycles up to here; DAY_NONE for none */
    int reasons;   /* nonzero to keep the reasons of every due */
    const struct task *only; /* this task alone; NULL for all */
    struct calm *calm;       /* forecasts that stand, used up to the end of
                                snapshot_new(); NULL when none do */
    planned_day *planned;    /* NULL: each on its last working day */
    void *with;
    const struct booked *booked; /* in order of task, then of entry; borrowed
                                    up to the end of snapshot_new() */
    size_t n_booked;
};

/* Work out every due, the most urgent first.  NULL when memory is out.  Free
 * with snapshot_free(). */
struct snapshot *snapshot_new(
    const struct facts *facts, const struct snapshot_options *options);

/* Free @s; NULL is ignored. */
void snapshot_free(struct snapshot *s);

/* The day it was made for. */
day_t snapshot_today(const struct snapshot *s);

/* The fleet it was made from. */
const struct fleet *snapshot_fleet(const struct snapshot *s);

/* Its dues, in order of urgency, then of day, subject and job; sets @n. */
const struct due *snapshot_dues(const struct snapshot *s, size_t *n);

#endif
