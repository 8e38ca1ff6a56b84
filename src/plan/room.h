#ifndef ROOM_H
#define ROOM_H

#include "timetable.h"

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
struct room;

/* A search over @t; NULL when memory is out.  Free with room_free(). */
struct room *room_new(const struct plan_problem *p, struct timetable *t);

/* Free @r; NULL is ignored. */
void room_free(struct room *r);

/* Give item @i a day within its window.  Returns 1, 0 with nothing changed
 * when none was found, or -1 when memory is out. */
int room_make(struct room *r, long i);

/* The same, on the day @d and no other. */
int room_make_on(struct room *r, long i, day_t d);

/* Put item @i on @d, which somebody booked: others make room where they can,
 * and where they cannot, the limit is passed.  Returns as room_make(). */
int room_book(struct room *r, long i, day_t d);

#endif
