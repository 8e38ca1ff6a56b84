#ifndef POSTER_H
#define POSTER_H

#include "fleet_plan.h"

struct buf;

/*
 * A plan to pin up: sheets of A3 on their side, the vehicles down and the weeks
 * across, a box a visit.  Whatever matters is said by letters and shapes, so
 * that it can be read in black and white.  The same plan gives the same bytes.
 */
struct poster;

/* Lay @a out, which is borrowed; NULL when memory is out.  Free with
 * poster_free(). */
struct poster *poster_new(const struct fleet_plan *a);

/* Free @p; NULL is ignored. */
void poster_free(struct poster *p);

/* How many sheets there are, at least one. */
size_t poster_sheets(const struct poster *p);

/* Append all sheets as one PDF, or the sheet @n, counted from 0, as SVG.  Each
 * returns 0, or -1 when memory is out. */
int poster_pdf(struct poster *p, struct buf *out);
int poster_svg(struct poster *p, size_t n, struct buf *out);

#endif
