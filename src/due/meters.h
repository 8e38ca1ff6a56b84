#ifndef METERS_H
#define METERS_H

#include "calc_context.h"
#include "list.h"

/*
 * Inside the due layer only: what the meters of a subject showed, by its
 * records and by the fleet file.  Where one was replaced, the new one goes on
 * from the old, and all that was read before is brought to its scale.
 */
struct replacement;

struct meters {
    LIST(struct reading) distance;
    LIST(struct reading) hours;
    LIST(struct replacement) replaced;
};

/* Take up the readings of @s, whose tasks are @tasks and whose records are
 * those from @k up to @end, in place of those of the subject before: 0, or -1
 * when memory is out. */
int meters_take(struct meters *m, const struct subject *s,
    const struct task *tasks, const struct record *k, const struct record *end);

/* What is known of the use of @meter of @s, the subject taken up, but for its
 * spells off the road. */
struct usage meters_usage(
    const struct meters *m, const struct subject *s, enum meter meter);

/* @reading of @meter, noted with @c, as the present meter would have shown it;
 * USAGE_UNKNOWN when nobody can tell, or when @reading is -1. */
int64_t meters_at(const struct meters *m, enum meter meter,
    const struct completion *c, int64_t reading);

/* Give back its lists. */
void meters_free(struct meters *m);

#endif
