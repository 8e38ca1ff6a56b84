#ifndef WORDING_H
#define WORDING_H

#include "due.h"

struct buf;

/* Words that several views share. */

/* The heading under which dues of a state stand: "Overdue". */
const char *wording_state(enum due_state state);

/* Append every warning of @d as a line that begins with @indent blanks. */
void wording_warnings(
    const struct due *d, day_t today, size_t indent, struct buf *out);

/* Append the command that records what @d's meter shows. */
void wording_reading(const struct due *d, struct buf *out);

/* Append what kind of thing the subject is called beside its id: its title in
 * brackets after it, or nothing. */
void wording_subject(const struct subject *s, struct buf *out);

/* Append "Wed 2026-12-02 (2026-W49)". */
void wording_today(day_t today, struct buf *out);

#define WORDING_DATE 16 /* room for "Wed 23 Nov 2026" and a NUL */

/* Write @d for people, "Wed 2 Dec 2026", or "-" for DAY_NONE, into @out and
 * return it; wording_short_date() leaves the year away. */
const char *wording_date(day_t d, char out[WORDING_DATE]);
const char *wording_short_date(day_t d, char out[WORDING_DATE]);

#endif
