#ifndef OVERFLOW_H
#define OVERFLOW_H

#include "contents.h"

/*
 * Append a sentence, without a full stop, that the feed @c has no room for
 * @left_out of its dues, from which day on, and into which parts of the fleet
 * it could be split.  Returns 0, or -1 when memory is out.
 */
int overflow_advice(const struct fleet *fleet, const struct contents *c,
    size_t left_out, struct buf *out);

#endif
