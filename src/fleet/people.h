#ifndef PEOPLE_H
#define PEOPLE_H

#include "fleet.h"

/* Who somebody is that a command, a form or an event names, and what they may
 * do about defects. */

/* The person with that id, or else that name, letters in either case; NULL for
 * nobody, and for a name that two have. */
const struct person *people_find(const struct fleet *f, const char *word);

/*
 * The id that stands in the ledger for whoever is so called: of a person, or of
 * a driver by id or title; NULL for nobody.  A driver with the title of a
 * person is that person, so that nobody lifts under one name what they reported
 * under the other.
 */
const char *people_id(const struct fleet *f, const char *word);

/* Whether @p may do all of @may, of enum person_may, to @s: it or its carrier
 * is in what @p is told of as all, a depot or a subject.  For who is told
 * nothing, that is all of them. */
int people_may(const struct person *p, unsigned may, const struct subject *s);

/* Whether the person or driver with that id, of people_id(), checks @s: a
 * person what they are told of, or all when that is nothing, and a driver all.
 */
int people_check(
    const struct fleet *f, const char *id, const struct subject *s);

/* How many people may do all of @may to @s. */
size_t people_count(
    const struct fleet *f, unsigned may, const struct subject *s);

#endif
