#ifndef PLAN_SHEET_H
#define PLAN_SHEET_H

#include "fault.h"
#include "fleet_plan.h"

struct buf;

/*
 * Write a plan to pin up into @path, which ends with .pdf or .svg; the second
 * sheet of an SVG goes into a file of its own, with -2 before its ending, and
 * so on.  Says in @out what was written.  Returns 0, or -1 with @f set.
 */
int plan_sheet_write(const struct fleet_plan *a, const char *path,
    struct buf *out, struct fault *f);

#endif
