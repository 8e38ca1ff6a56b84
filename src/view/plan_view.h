#ifndef PLAN_VIEW_H
#define PLAN_VIEW_H

#include "fleet_plan.h"

struct buf;

/*
 * A plan, appended to @out for a terminal, as JSON for other programs, or as
 * CSV (RFC 4180) for a spreadsheet.  Each returns 0, or -1 when memory is out.
 */
int plan_view_text(const struct fleet_plan *a, struct buf *out);
int plan_view_json(const struct fleet_plan *a, struct buf *out);
int plan_view_csv(const struct fleet_plan *a, struct buf *out);

/* What it is told to do about work without a day: a clause. */
const char *plan_view_advice(const struct fleet_plan_undated *u);

#endif
