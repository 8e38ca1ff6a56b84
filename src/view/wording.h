#ifndef WORDING_H
#define WORDING_H

#include "due.h"

struct buf;

/* What is asked for of a due without any day to do it on. */
#define WORDING_NO_RETURN "no return known: do it before it returns"

/* Words that several views share. */

/* What a state is called.  No view has words of its own for one. */
struct wording {
    const char *heading; /* "Overdue", over a list of such dues */
    const char *title;   /* "overdue", in the title of an event; "" where the
                            day alone says it all */
    const char *count;   /* "overdue", after how many there are */
    const char *matter;  /* "overdue", after the name of the one; "" likewise */
    const char *besides; /* what is so as well of one that failed: a clause, or
                            NULL where its days say it */
    const char *advice;  /* what its line asks for, or NULL */
};
const struct wording *wording_of(enum due_state state);

/* Append the states of @d for a title, the gravest first: "overdue", "failed
 * and before return".  Nothing where its day says it all. */
void wording_states(const struct due *d, struct buf *out);

/* Append "failed on Mon 2026-11-30 (by Ann, reference J-12): NOTE" of the
 * failure of @d, as much as there is on record of it. */
void wording_failure(const struct due *d, struct buf *out);

/*
 * Hand to @line, one after another, all that @d warns of on @today: first that
 * it failed and what is so besides, then its warnings but for those in the bits
 * @without.  Each is a clause without a full stop.  Returns 0, or -1 when
 * memory is out.
 */
typedef void wording_line(void *to, const char *text);
int wording_notes(const struct due *d, day_t today, unsigned without,
    wording_line *line, void *to);

/* Append each of these as a line that begins with @indent blanks: 0 or -1. */
int wording_warnings(
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
