#ifndef SPAN_H
#define SPAN_H

#include "step.h"

struct scan;

#define SPAN_TEXT 24
#define SPAN_MOST 100000

/* Take "6 weeks", "1 month" or the like, from 0 to SPAN_MOST of the unit, from
 * the scan: 1, or 0 and nothing taken. */
int span_scan(struct scan *s, struct span *out);

/* A number that puts lengths of time in order: on average, in parts of a day.
 */
int64_t span_size(struct span s);

/* Write @length as "6 weeks" or "1 month" into @out and return it. */
const char *span_text(struct span length, char out[SPAN_TEXT]);

#endif
