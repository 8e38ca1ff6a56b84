#ifndef RECORD_READER_H
#define RECORD_READER_H

#include "query.h"
#include "record.h"

/*
 * From rows to records, whichever were asked for.  For this layer only.
 *
 * A row has the columns of RECORD_COLUMNS (query.h) in that order.  Ids are
 * looked up in the fleet, letters in either case.
 */

struct lookup;
struct string_pool;

/* Ids as they are written in the ledger, with what they stand for. */
struct ids {
    struct lookup *known; /* by the fleet file */
    struct string_pool *seen;
};

struct record_reader {
    struct ledger *ledger;
    struct arena *arena; /* of the records and their texts */
    struct ids subjects;
    struct ids jobs;
    struct string_pool *people;
    struct record *records; /* so far */
    size_t n;
    size_t room;
};

/* Get ready to read @l into @a.  0 or -1; record_reader_end() in either case.
 */
int record_reader_start(struct record_reader *in, struct ledger *l,
    const struct fleet *fleet, struct arena *a, struct fault *f);

/* Put away what was only needed to read; the records stay. */
void record_reader_end(struct record_reader *in);

/* A zeroed record behind the others, or NULL with @f set.  Valid until the
 * next. */
struct record *record_reader_add(struct record_reader *in, struct fault *f);

/* The same, from the row that @q is at. */
struct record *record_reader_take(
    struct record_reader *in, const struct query *q, struct fault *f);

/* Take all rows of @q: 0 or -1. */
int record_reader_take_all(
    struct record_reader *in, struct query *q, struct fault *f);

#endif
