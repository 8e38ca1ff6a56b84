#ifndef DEFECT_H
#define DEFECT_H

#include "record.h"
#include "sheet.h"

/*
 * A defect, from the first report to its release.  What each event does to it
 * is the table in defect.c; design, section 8, is its source, and the rules
 * named here are the thirteen below that table.  No clock is read: moments are
 * in the depot's time zone, and the caller makes them.
 */

struct day_time {
    day_t day;
    int minute; /* after midnight, 0 to 1439 */
};

/* Below 0, 0 or above it as @a is before, at or after @b. */
int day_time_compare(struct day_time a, struct day_time b);

enum defect_state {
    DEFECT_REPORTED, /* nobody decided yet: stops by its grade */
    DEFECT_STOP,     /* decided: not to be driven */
    DEFECT_UNTIL,    /* decided: may be driven up to a day, or a reading */
    DEFECT_WATCH,    /* decided: may be driven, and is looked at each time */
    DEFECT_REPAIRED, /* mended, and not yet released */
    DEFECT_CLOSED,   /* released, or found to be nothing */
    DEFECT_VOID      /* its report was wrong */
};

/* What somebody decides: the word of `assess`. */
enum defect_verdict {
    VERDICT_STOP,
    VERDICT_UNTIL,
    VERDICT_WATCH,
    VERDICT_NONE
};

/* What can happen to a defect, or bears on one. */
enum defect_kind {
    EVENT_CHECKED,
    EVENT_FAILED, /* a job, which is its own stop (rule 9) */
    EVENT_REPORTED,
    EVENT_ASSESSED,
    EVENT_REPAIRED,
    EVENT_RELEASED,
    EVENT_MOVED, /* equipment, to another vehicle */
    EVENT_VOIDED
};

/* One event, as it stands in the ledger or is about to be entered.  Texts are
 * borrowed.  What its kind does not have is 0, NULL, DAY_NONE. */
struct defect_event {
    enum defect_kind kind;
    int64_t id;        /* rises in the order of entry; 0 when not entered yet */
    int64_t voided_by; /* the event that voids it, or 0: set by the fold */
    /* Of a report: the first report of the same defect, or 0 for a first one.
     * Of other acts: the first report, or of a release the failed job that it
     * lets out of its stop.  Of a void: the event that it voids. */
    int64_t about;
    /* What it came of, or 0.  Of a report: the check or failed job it was found
     * in, or the move by which equipment is missing.  Of a move, and of the
     * void of what was missing: the arrival that stands in for it. */
    int64_t cause;
    struct day_time at;
    int whole_day;  /* at some time of that day, and at.minute is 0 */
    const char *by; /* id of a person or driver; NULL: by the vehicle's key */
    const char *note;
    int alone; /* said to be alone with it (rule 2), with the reason in note */
    int paper; /* typed in from paper, later */
    /* A check, a report and a move. */
    const char *subject_id;
    const struct subject *subject; /* NULL where the fleet file has it not */
    const struct subject *other;   /* a move: the new carrier */
    int sure;                      /* a move: though it has a defect */
    /* A check. */
    const int64_t *answered; /* the numbers of defects that it answers */
    size_t n_answered;
    /* A report. */
    const char *item;
    enum grade grade;
    int64_t number; /* of the defect that it opens, from 1 */
    /* A decision. */
    enum defect_verdict verdict;
    day_t until;     /* the last day, or the early day of the reading */
    int64_t reading; /* up to which it may be driven, or -1 */
};

/* Who did something to a defect, and when; an id of 0: nobody yet. */
struct defect_step {
    int64_t id; /* of the event */
    struct day_time at;
    const char *by;
    const char *note;
    int alone;
};

struct defect {
    int64_t number;
    int64_t first; /* the event that opened it */
    int64_t last;  /* the last act on it: the only one that may be voided */
    const char *subject_id;
    const struct subject *subject; /* NULL where the fleet file has it not */
    const char *item;
    enum grade grade; /* only ever rises */
    enum defect_state state;
    day_t until;     /* DEFECT_UNTIL: the last day with it */
    int64_t reading; /* and the reading up to which, or -1 */
    day_t held; /* the first day on which it stops whatever its grade: because
                   somebody decided so, or a deferral lapses; or DAY_NONE */
    int64_t again;  /* the number of the same one before, closed; or 0 */
    int64_t cause;  /* what it was found in, see struct defect_event */
    int late_paper; /* reported on paper, typed in later */
    struct defect_step reported; /* the first time by its moment */
    struct defect_step seen;     /* the last time by its moment */
    struct defect_step decided;
    struct defect_step repaired;
    struct defect_step released; /* or found to be nothing */
};

/* The words for states, verdicts, as commands and views show them. */
const char *defect_state_word(enum defect_state state);
const char *defect_verdict_word(enum defect_verdict verdict);

/* The verdict with that word, letters in either case, or -1. */
int defect_verdict_find(const char *word);

/* Nonzero while it is neither closed nor void. */
int defect_is_open(const struct defect *d);

/* Nonzero when it was put off, and that ended before @today (rule 6): at the
 * end of its day. */
int defect_lapsed(const struct defect *d, day_t today);

/* Nonzero when it stops its subject on @today. */
int defect_stops(const struct defect *d, day_t today);

/* Whether @d can take an event of that kind and verdict at all. */
int defect_takes(const struct defect *d, const struct defect_event *e);

/* Let @e, which stands, happen to @d; the first report to one that is all
 * zero. */
void defect_step(struct defect *d, const struct defect_event *e);

#endif
