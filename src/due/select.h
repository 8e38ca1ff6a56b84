#ifndef SELECT_H
#define SELECT_H

#include "snapshot.h"

/* Which dues somebody asks for.  Zeroed, it asks for all current ones. */
struct filter {
    const struct scope *scopes; /* any of these; none means all */
    size_t n_scopes;
    const struct subject *subject; /* each of these three may be NULL */
    const struct job *job;
    const struct depot *depot;
    unsigned states; /* bits 1 << enum due_state; 0 means all */
    day_t until;     /* only those with a plan day or deadline by then, and
                        those without any; 0 or DAY_NONE means no limit */
    int projected;   /* coming cycles too, */
    day_t from;      /* but not those before this day, */
    day_t to;        /* nor those after this one; 0 means no limit */
};

/* Some of a snapshot's dues, in its order.  Borrows the snapshot. */
struct selection {
    const struct snapshot *of;
    const struct due **dues;
    size_t n;
};

/* Nonzero when the due is what the scope names. */
int select_in_scope(const struct scope *scope, const struct due *d);

/* Nonzero when @filter asks for the vehicle @v, whatever its dues: by depot, by
 * subject, which may be what it carries, and by scopes, of which a job names no
 * vehicle. */
int select_vehicle(const struct filter *filter, const struct subject *v);

/*
 * Choose dues into @out, whose list is to be given to free().  Returns 0, or -1
 * when memory is out.
 */
int select_dues(const struct snapshot *s, const struct filter *filter,
    struct selection *out);

/* See due_day(). */
static inline day_t
select_day(const struct due *d)
{
    return due_day(d);
}

#endif
