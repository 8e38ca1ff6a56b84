#ifndef LINK_H
#define LINK_H

#include "reading.h"

/*
 * Make the tasks of the fleet from what the holders have, each with the
 * calendar of its depot and its place of work together.
 */
void link_tasks(struct reading *r);

#endif
