#ifndef BUILD_H
#define BUILD_H

#include "load_context.h"

/*
 * Give a sealed document its meaning: fill r->fleet from its sections, in the
 * order of their kinds, and add every problem there is.  @whole is where to say
 * what is missing altogether.
 */
void build_fleet(struct load_context *r, struct place whole);

#endif
