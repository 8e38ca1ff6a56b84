#ifndef METERS_H
#define METERS_H

#include "list.h"
#include "reckon.h"

/*
 * Inside the due layer only: what the meters of a subject showed.  Where one
 * was replaced, the new one goes on from the last reading of the old, and all
 * that was read before is brought to its scale.
 */
struct replacement;

struct meters {
    LIST(struct reading) distance;
    LIST(struct reading) hours;
    LIST(struct replacement) replaced;
};

/* Take up the readings of the records from @k up to @end in place of those of
 * the subject before: 0, or -1 when memory is out. */
int meters_take(
    struct meters *m, const struct record *k, const struct record *end);

/* Put in what the fleet file says of @meter, as the present one would have
 * shown it, unless it was read on that day or the value is USAGE_UNKNOWN: 0, or
 * -1 when memory is out. */
int meters_add(struct meters *m, enum meter meter, struct reading reading);

/* What was read of @meter at @c, or USAGE_UNKNOWN, as the present meter would
 * have shown it. */
int64_t meters_at(
    const struct meters *m, enum meter meter, const struct completion *c);

/* Give back its lists. */
void meters_free(struct meters *m);

#endif
