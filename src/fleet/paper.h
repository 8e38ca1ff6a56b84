#ifndef PAPER_H
#define PAPER_H

#include "fleet.h"

/*
 * The number of a check sheet on paper, which says whose it is and of which
 * week, so that what is typed in later cannot go to another vehicle:
 * K7-2026W49-4F2C-67 is a vehicle, an ISO week, which of its printings, and two
 * check digits (ISO/IEC 7064 MOD 97-10, see check_digits.h) over all before.
 */

enum {
    PAPER_SERIALS = 36 * 36 * 36 * 36, /* of one vehicle and week */
    PAPER_TAIL = 17 /* bytes after the vehicle, with the NUL */
};

enum paper_fault {
    PAPER_GOOD,
    PAPER_SHAPE,  /* it is not such a number */
    PAPER_DIGITS, /* some character of it is wrong: which, nobody can tell */
    PAPER_WEEK,   /* the year has no such week */
    PAPER_SUBJECT /* the fleet has no such vehicle */
};

struct paper {
    const struct subject *subject;
    day_t monday; /* of its week */
};

/* Write the end of the number, after the vehicle, of the printing @serial, 0 to
 * PAPER_SERIALS - 1, of the week that begins on @monday. */
void paper_tail(const struct subject *s, day_t monday, unsigned serial,
    char out[PAPER_TAIL]);

/* Read the whole number, letters in either case, into @out. */
enum paper_fault paper_read(
    const struct fleet *f, const char *number, struct paper *out);

#endif
