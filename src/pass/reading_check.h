#ifndef READING_CHECK_H
#define READING_CHECK_H

#include "fleet.h"
#include "records.h"

/* A reading that cannot be, and what speaks against it. */
struct reading_doubt {
    struct known_reading against;
    const struct task *stated; /* whose last-reading in the fleet file that
                                  is; NULL when it is on record */
    char why[200];             /* "backwards" and the like, to follow "is" */
};

/*
 * Hold the reading of @r against those around it, on record in @l or stated in
 * the file of @fleet.  It cannot be when it goes backwards, differs from one of
 * the same day, or is further off than the vehicle can have driven or run in
 * that time.  For a RECORD_REPLACED only a later one counts.  The subject of @r
 * must be known.  Returns 1 with @out set, 0 when nothing speaks against it, or
 * -1 with @f set.
 */
int reading_check(const struct fleet *fleet, struct ledger *l,
    const struct record *r, struct reading_doubt *out, struct fault *f);

/* Refuse @r for that reason: sets @f to it, with the ways to go on, of which
 * @say_sure, as "add --sure", is to insist; returns -1. */
int reading_check_refuse(const struct record *r, const struct reading_doubt *s,
    const char *say_sure, struct fault *f);

#endif
