#ifndef REASSIGN_H
#define REASSIGN_H

#include "schedule.h"

/*
 * Inside the plan layer only: making room for an item by moving others.
 *
 * This is the search for an augmenting path (Kuhn, The Hungarian method for
 * the assignment problem, 1955): whatever stands in the way on a day looks
 * for another day, moving others in turn, and no day of a place is looked at
 * twice.  For works of one size, a place at a time, it finds a day whenever
 * there is one; where hours, groups and several works of one vehicle play
 * into each other it may miss one.
 */
struct reassign;

/* A search over @t; NULL when memory is out.  Free with reassign_free(). */
struct reassign *reassign_new(const struct plan_problem *p, struct schedule *t);

/* Free @r; NULL is ignored. */
void reassign_free(struct reassign *r);

/* Give item @i a day within its window.  Returns 1, 0 with nothing changed
 * when none was found, or -1 when memory is out. */
int reassign_item(struct reassign *r, long i);

/* The same, on the day @d and no other. */
int reassign_to(struct reassign *r, long i, day_t d);

/* Put item @i on @d, which somebody booked: others make room where they can,
 * and where they cannot, the limit is passed.  Returns as reassign_item(). */
int reassign_booked(struct reassign *r, long i, day_t d);

#endif
