#ifndef EXPLAIN_H
#define EXPLAIN_H

#include "buf.h"
#include "reading.h"

/* Append the fleet as it was understood, when it was read without errors. */
void explain_fleet(const struct reading *r, struct buf *out);

#endif
