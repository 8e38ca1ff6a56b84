#ifndef TASKS_H
#define TASKS_H

#include "load_context.h"

/*
 * Make the tasks of the fleet from what the holders have, each with the
 * calendar of its depot and its place of work together.
 */
void tasks_make(struct load_context *r);

/*
 * Let @carrier carry the subject at @index from now on: its depot, unless it
 * has one of its own, and the calendars of its tasks follow.  Returns 0, or -1
 * and changes nothing: when it is no equipment or @carrier no vehicle, when a
 * job would have no working days, or memory is out.
 */
int tasks_move(
    struct load_context *r, size_t index, const struct subject *carrier);

#endif
