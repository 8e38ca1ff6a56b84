#ifndef INTAKE_H
#define INTAKE_H

#include "query.h"
#include "record.h"

/*
 * From rows to records, whichever were asked for.  For this layer only.
 *
 * A row has the columns of INTAKE_COLUMNS in that order.  Ids are looked up in
 * the fleet, letters in either case.
 */
#define INTAKE_COLUMNS                                                         \
    " event.id, kind, subject, job, day, until, meter, reading, entered,"      \
    " by_whom, reference, note, other, about, body"

struct lookup;
struct words;

/* Ids as they are written in the ledger, with what they stand for. */
struct ids {
    struct lookup *known; /* by the fleet file */
    struct words *seen;
};

struct intake {
    struct ledger *ledger;
    struct arena *arena; /* of the records and their texts */
    struct ids subjects;
    struct ids jobs;
    struct words *people;
    struct record *records; /* so far */
    size_t n;
    size_t room;
};

/* Get ready to read @l into @a.  0 or -1; intake_end() in either case. */
int intake_start(struct intake *in, struct ledger *l, const struct fleet *fleet,
    struct arena *a, struct fault *f);

/* Put away what was only needed to read; the records stay. */
void intake_end(struct intake *in);

/* A zeroed record behind the others, or NULL with @f set.  Valid until the
 * next. */
struct record *intake_add(struct intake *in, struct fault *f);

/* The same, from the row that @q is at. */
struct record *intake_take(
    struct intake *in, const struct query *q, struct fault *f);

/* Take all rows of @q: 0 or -1. */
int intake_take_all(struct intake *in, struct query *q, struct fault *f);

#endif
