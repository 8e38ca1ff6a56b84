#ifndef RECORD_H
#define RECORD_H

#include "fleet.h"

struct buf;

/* What happened.  Whatever else is to be known of a kind is in its row of the
 * table of kinds, see record_kind(). */
enum record_kind {
    RECORD_COMPLETED, /* a job was done */
    RECORD_FAILED,    /* a job was tried and not passed */
    RECORD_READING,   /* a meter was read */
    RECORD_OFF_ROAD,  /* a spell off the road */
    RECORD_REPLACED,  /* a meter was replaced; the reading is the new one's */
    RECORD_MOVED,     /* equipment is carried by another vehicle from then on */
    RECORD_BOOKED,    /* a day was fixed for a job */
    RECORD_UNBOOKED,  /* and is so no longer */
    RECORD_VOIDED,    /* a record was wrong */
    RECORD_CHECKED,   /* somebody walked round a vehicle by its sheet */
    RECORD_REPORTED,  /* a defect was found, or seen again */
    RECORD_ASSESSED,  /* it was decided what to do about it */
    RECORD_REPAIRED,  /* it was mended */
    RECORD_RELEASED,  /* what it is on may be used again */
    RECORD_LEFT,      /* a subject was sold, scrapped or returned */
    RECORD_KINDS      /* how many there are */
};

/* What a record may say, besides who entered it, a reference and a note. */
enum record_field {
    RECORD_HAS_SUBJECT = 1 << 0,
    RECORD_HAS_JOB = 1 << 1,
    RECORD_HAS_DAY = 1 << 2,
    RECORD_HAS_UNTIL = 1 << 3,
    RECORD_HAS_READING = 1 << 4,
    RECORD_HAS_OTHER = 1 << 5,
    RECORD_HAS_ABOUT = 1 << 6,
    RECORD_HAS_VOIDS = 1 << 7
};

/* What a value in the body of a record is. */
enum record_type {
    RECORD_TEXT,   /* not empty */
    RECORD_PERSON, /* the id of one, so that the name can be taken out */
    RECORD_NUMBER, /* whole, in the unit that the field names */
    RECORD_DAY,    /* a day_t */
    RECORD_CLOCK,  /* minutes after midnight, 0 to 1439 */
    RECORD_LIST    /* texts, none empty, in their order */
};

/* A field of the body of a kind: what SQL is never asked for. */
struct record_body_field {
    const char *word; /* its key in the body, and in messages */
    enum record_type type;
    int is_needed;
    const char *said; /* what record_say() puts before it, or NULL to leave it
                         out */
};

/* One row of the table of kinds. */
struct record_kind_row {
    const char *word; /* in the ledger, the history and on the command line */
    unsigned needs;   /* the fields that it has, of enum record_field */
    unsigned may;     /* and those that it may have besides */
    unsigned voids;   /* the kinds of which it may void a record, as bits:
                         RECORD_BIT(RECORD_BOOKED) */
    unsigned about;   /* and of those to which it may belong */
    const struct record_body_field *body; /* ends with a word of NULL; NULL for
                                             no fields */
    int is_result;   /* somebody enters it as what came of a job */
    int is_due;      /* dues follow from it, see need.h */
    int is_imported; /* a row of a sheet may say it */
};

#define RECORD_BIT(kind) (1U << (kind))

/* The value of a field of the body. */
struct record_value {
    const char *word;         /* of the field */
    const char *text;         /* of a text or a person */
    int64_t number;           /* of a number, a day or a clock time */
    const char *const *items; /* of a list */
    size_t n_items;
};

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
    int64_t about;               /* the record that this one belongs to, or 0 */
    int64_t voided_by;           /* the record that voids this one, or 0 */
    const char *voided_note;     /* and why, or NULL */
    const char *by;              /* these three may be NULL */
    const char *reference;
    const char *note;
    const struct record_value *values; /* of its body, in any order; NULL
                                          when it has none */
    size_t n_values;
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
 * subject that the fleet no longer has, and those from which no due follows,
 * are left out.  @records is sorted in
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

/* The row of that kind; only the ledger's own kinds are asked for. */
const struct record_kind_row *record_kind(enum record_kind kind);

/* The word for a kind of record, as history and CSV show it. */
const char *record_kind_word(enum record_kind kind);

/* The kind with that word, exactly so, or -1. */
int record_kind_find(const char *word);

/* The kind that is entered as what came of a job under that word, letters in
 * either case, or -1; and the kind that a sheet may name so. */
int record_result(const char *word);
int record_imported(const char *word);

/* The value of that field of the body of @r, or NULL when it has none. */
const struct record_value *record_value(
    const struct record *r, const char *word);

/* The text of that field, or NULL. */
const char *record_text(const struct record *r, const char *word);

/* Append all that @r says after its subject, kind and job, each with two spaces
 * before it: "  at 48210 km  by R. Teal". */
void record_say(const struct record *r, struct buf *out);

/* What a record can have against the row of its kind. */
enum record_amiss { RECORD_FITS, RECORD_LACKS, RECORD_HAS_NO, RECORD_IS_NOT };

/*
 * Hold @r against the row of its kind: whether it has all that the kind needs
 * and nothing else, and each value of the body is of the type of its field.
 * Sets @field to the name of the first field that is amiss and, with
 * RECORD_IS_NOT, @type to what it has to be.  @voids is the record that it
 * voids, or 0.  Which record it voids or is about is for the ledger to look at.
 */
enum record_amiss record_amiss(const struct record *r, int64_t voids,
    const char **field, const char **type);

#endif
