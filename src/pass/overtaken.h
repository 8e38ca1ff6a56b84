#ifndef OVERTAKEN_H
#define OVERTAKEN_H

#include "run_context.h"

/* Warn of deadlines that the fleet file states and the records have overtaken,
 * or leave to stand although something was done.  The run must have the whole
 * history.  0, or -1 when memory is out. */
int overtaken_warn(
    const struct run_context *p, struct problems *ps, struct fault *f);

#endif
