#ifndef RECORDS_H
#define RECORDS_H

#include "fault.h"
#include "record.h"

#include <stddef.h>
#include <stdint.h>

struct arena;
struct ledger;

/*
 * Records, the facts of the ledger.  They are only ever added: what was wrong
 * is voided by a later record, and both stay.
 */

/*
 * Add @r: its kind, subject_id, job_id, other_id, day, until, meter with
 * reading, about, entered, by, reference, note and values; nothing else of it
 * is read.  Sets @id, which may be NULL.  Returns 0 or -1; a record that lacks
 * what its kind has to have, has what it has not, or contradicts itself, such
 * as a spell that ends before it begins, is refused with EX_DATAERR, and so is
 * one about a record that does not stand or is of another kind than the row of
 * its own allows.
 *
 * Several that belong together, such as a check, its defects and the message
 * about them, are written between ledger_begin() and ledger_commit(), in the
 * order in which they are to be read: all of them or none, and what is read in
 * between nobody else has changed when they are written.
 */
int records_add(
    struct ledger *l, const struct record *r, int64_t *id, struct fault *f);

/* The number of the last record, 0 when there is none: within a group the next
 * one has the number after it.  0 or -1. */
int records_last_id(struct ledger *l, int64_t *id, struct fault *f);

/*
 * Void the record @id, of whatever kind but those that take
 * one back, because of @note and by @by, either of which may be NULL.  @entered
 * is now in seconds since 1970.  Returns 0 or -1; no such record, or one
 * already voided, is refused with EX_DATAERR.
 */
int records_void(struct ledger *l, int64_t id, const char *by, const char *note,
    int64_t entered, struct fault *f);

/*
 * Add @r as records_add() does and void the record @old by it, together: a
 * spell off the road that has now ended, say, or a booking that is moved.  @old
 * is of a kind that the row of @r's allows.  Returns 0 or -1; else @old is
 * refused as by records_void().
 */
int records_replace(struct ledger *l, int64_t old, const struct record *r,
    int64_t *id, struct fault *f);

/*
 * 1 when there is a record that says what @r says: the same kind, subject, job,
 * day, until, meter, reading, reference and other_id.  Whether it stands or was
 * voided: what was taken back does not come in again.  Sets @id, which may be
 * NULL, to the one entered last.  0 when there is none, or -1.
 */
int records_find(
    struct ledger *l, const struct record *r, int64_t *id, struct fault *f);

/*
 * 1 when a record that stands says that the job of @r was completed on the
 * subject and the day of @r, whatever else it says, and did not fail there
 * since: sets @id to the last one.  0 when none does, or -1.
 */
int records_done_on(
    struct ledger *l, const struct record *r, int64_t *id, struct fault *f);

/* A reading on record, taken by itself or with something else. */
struct known_reading {
    int found; /* when 0, the rest is too, but for the day of a fitted one */
    int64_t id;
    day_t day;
    int64_t value;
    int fitted; /* nonzero for that of a RECORD_REPLACED */
};

/*
 * Between which readings that stand one of @meter of @subject_id on @day
 * lies: the last up to and on that day, in the order of day and then of
 * entry, and the first on a later day.  A RECORD_REPLACED is one too, and can
 * be the one before; it is never the one after, nor is anything beyond it: that
 * another instrument shows.  Then @after has only its day, and is fitted.
 * Returns 0 or -1.
 */
int records_readings_around(struct ledger *l, const char *subject_id,
    enum meter meter, day_t day, struct known_reading *before,
    struct known_reading *after, struct fault *f);

/*
 * All records in the order of entry, voided ones included (voided_by and
 * voided_note tell), without the bare entries of records_void().  Their
 * subject, job and other are looked up in @fleet, letters in either case, and
 * NULL when it has them no more.  The list and its texts are in @a.  Returns 0
 * or -1.
 */
int records_read(struct ledger *l, const struct fleet *fleet, struct arena *a,
    struct record **out, size_t *n, struct fault *f);

/*
 * The records that stand of these kinds, bits of RECORD_BIT(), of @subject_id
 * or with NULL of all subjects, in the order of entry: what a fold over events
 * goes over.  What it costs grows with how many there are of each kind, and
 * for a kind that dues follow from with how many records there are at all.
 * Else as records_read().
 */
int records_standing(struct ledger *l, const struct fleet *fleet,
    unsigned kinds, const char *subject_id, struct arena *a,
    struct record **out, size_t *n, struct fault *f);

/*
 * The records of these kinds, from none of which dues follow, of all subjects
 * in the order of entry, voided ones too: what the numbers of defects go by.
 * Else as records_read().
 */
int records_of_kinds(struct ledger *l, const struct fleet *fleet,
    unsigned kinds, struct arena *a, struct record **out, size_t *n,
    struct fault *f);

/*
 * The newest check that stands of each vehicle that counts as fit only with
 * one, see enum first_use: of what may be millions all that conditions need.
 * Else as records_read().
 */
int records_newest_checks(struct ledger *l, const struct fleet *fleet,
    struct arena *a, struct record **out, size_t *n, struct fault *f);

/*
 * Of the records that stand those that the dues of @fleet follow from, or,
 * unless @only is NULL, those of that one task, see need.h: its dues are the
 * ones that all records would give, and what it costs grows with what is
 * needed, not with all that there ever was.  In no order.  A reading that was
 * noted with work and is needed without it is a RECORD_READING.  Else as
 * records_read().
 */
int records_needed(struct ledger *l, const struct fleet *fleet,
    const struct task *only, struct arena *a, struct record **out, size_t *n,
    struct fault *f);

#endif
