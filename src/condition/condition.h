#ifndef CONDITION_H
#define CONDITION_H

#include "defects.h"
#include "snapshot.h"

struct buf;

/*
 * What is known of each vehicle today: whether it may be driven, and if not
 * why, since when, and who can lift it (design, section 8).  Made once a run.
 * It reads deadlines and never plan days.
 */

/* In the order of gravity. */
enum fitness {
    CONDITION_NOT_TO_BE_DRIVEN,
    CONDITION_NOT_KNOWN,
    CONDITION_OPEN_DEFECTS,
    CONDITION_FIT
};

/* Why a vehicle is not fit.  Those up to STOP_LEFT stop it. */
enum stop_kind {
    STOP_DEFECT,    /* open, and it stops */
    STOP_LAPSED,    /* it was put off, and that ended */
    STOP_FAILED,    /* a job that stops it was not passed */
    STOP_OVERDUE,   /* a job's deadline is past */
    STOP_OFF_ROAD,  /* a spell off the road */
    STOP_LEFT,      /* sold, scrapped or returned */
    STOP_NO_RECORD, /* not known: a job of class law without a record */
    STOP_FIRST_USE, /* not known: no check or inspection since it came */
    STOP_OPEN,      /* an open defect that does not stop it */
    STOP_TELLS      /* a job that does not stop it was not passed */
};

/* One reason. */
struct stop {
    enum stop_kind kind;
    enum fitness makes;            /* the condition that it makes, at best */
    const struct subject *subject; /* it, or what it carries */
    day_t since;                   /* or DAY_NONE where nobody can say */
    const struct defect *defect;   /* of a defect, else NULL */
    const struct due *due;         /* of a job, else NULL */
    const struct record *record;   /* of a spell or a leaving, else NULL */
};

/* One vehicle. */
struct vehicle_condition {
    const struct subject *vehicle;
    enum fitness condition;
    const struct stop *stops; /* the gravest first, then the oldest */
    size_t n_stops;
};

/* The open defect @d as a reason on @today. */
struct stop stop_by_defect(const struct defect *d, day_t today);

struct conditions;

/* Of every vehicle of the fleet of @s on its day, which must not be before the
 * newest one that conditions were worked out for (rule 13).  The records are
 * the facts of @s, leavings, and of checks the newest of each vehicle that
 * needs one.  All is borrowed.  NULL when memory is out.  Free with
 * conditions_free(). */
struct conditions *conditions_new(const struct snapshot *s,
    const struct defects *ds, const struct record *records, size_t n_records);

/* Free @c; NULL is ignored. */
void conditions_free(struct conditions *c);

/* They, in the order of gravity, then of the fleet file; sets @n. */
const struct vehicle_condition *conditions_all(
    const struct conditions *c, size_t *n);

/* That of the vehicle @s; NULL for what is none. */
const struct vehicle_condition *conditions_of(
    const struct conditions *c, const struct subject *s);

/* The words: "fit", "open-defects", "not-known", "not-to-be-driven"; and as
 * people read them, "fit, as far as is known", ... */
const char *condition_word(enum fitness condition);
const char *condition_said(enum fitness condition);

/* Of a reason: "defect", "lapsed", "failed", "overdue", ...; what it says,
 * without a full stop, appended to @out; and who can lift it. */
const char *stop_word(enum stop_kind kind);
void stop_say(const struct stop *s, struct buf *out);
const char *stop_lifted_by(enum stop_kind kind);

/* What was said when it was reported, failed or taken off the road, or NULL. */
const char *stop_note(const struct stop *s);

#endif
