#ifndef RECORD_H
#define RECORD_H

#include "fleet.h"

/* What happened. */
enum record_kind {
    RECORD_COMPLETED, /* a job was done */
    RECORD_FAILED,    /* a job was tried and not passed */
    RECORD_READING,   /* a meter was read */
    RECORD_OFF_ROAD,  /* a spell off the road */
    RECORD_REPLACED,  /* a meter was replaced; the reading is the new one's */
    RECORD_MOVED      /* equipment is carried by another vehicle from then on */
};

#define RECORD_KINDS (RECORD_MOVED + 1)

/*
 * One fact from the ledger.  Facts are never edited; one that was voided by a
 * later record is not handed to the calculator.
 */
struct record {
    int64_t id; /* in the order of entry, from 1 */
    enum record_kind kind;
    enum meter meter; /* of the reading */
    int other_unit; /* a distance that was read in the unit which its subject's
                       odometer counts no more */
    const char *subject_id;        /* as the ledger holds it */
    const char *job_id;            /* completed and failed, else NULL */
    const struct subject *subject; /* NULL when the fleet file has it no more */
    const struct job *job;
    const char *other_id;        /* moved: the vehicle that carries it from
                                    that day on, else NULL */
    const struct subject *other; /* NULL as subject is */
    day_t day;                   /* on which it happened, or began */
    day_t until;                 /* off the road: the last day of the spell,
                                    DAY_NONE while no return is known */
    int64_t reading;             /* -1 when none was taken */
    int64_t entered;             /* seconds since 1970-01-01T00:00:00Z */
    int64_t voided_by;           /* the record that voids this one, or 0 */
    const char *voided_note;     /* and why, or NULL */
    const char *by;              /* these three may be NULL */
    const char *reference;
    const char *note;
};

/*
 * The facts the calculator works from: records that stand, grouped by subject
 * and in order of day, then of entry.
 */
struct facts {
    const struct fleet *fleet;
    const struct record *records;
    const size_t *first; /* for each subject, and one past the last */
};

/*
 * Put @n records in order and count where each subject's begin; those of a
 * subject that the fleet no longer has are left out.  @records is sorted in
 * place and @first has room for n_subjects + 1; both are kept.
 */
struct facts facts_of(
    const struct fleet *fleet, struct record *records, size_t n, size_t *first);

/* The unit of the reading of @r: "km", "miles", "hours", or "" when its subject
 * is not known. */
const char *record_unit_word(const struct record *r);

/* The reading of @r in the unit that its subject's meter counts now; -1 for
 * none.  Its subject must be known.  Where it was read in the other unit, that
 * is the least it can be, or the most: what a job runs from errs early by the
 * one, how far the meter has come by the other. */
int64_t record_reading(const struct record *r);
int64_t record_reading_at_most(const struct record *r);

/* The word for a kind of record, as history and CSV show it. */
const char *record_kind_word(enum record_kind kind);

#endif
