#ifndef EXPLAIN_H
#define EXPLAIN_H

#include "buf.h"
#include "load_context.h"

/* Append the fleet as it was understood, when it was read without errors. */
void explain_fleet(const struct load_context *r, struct buf *out);

#endif
