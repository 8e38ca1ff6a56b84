#ifndef TASKS_H
#define TASKS_H

#include "reading.h"

/*
 * Make the tasks of the fleet from what the holders have, each with the
 * calendar of its depot and its place of work together.
 */
void tasks_make(struct reading *r);

#endif
