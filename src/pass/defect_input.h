#ifndef DEFECT_INPUT_H
#define DEFECT_INPUT_H

#include "defects.h"
#include "record_input.h"

/*
 * From what a person says of a walk round a vehicle, of a defect, its repair
 * and its release to events in the ledger, and what is refused of it: the same
 * on the command line and on the page.  Each call is one transaction: all that
 * belongs together is entered, or nothing.  Each appends what became of it to
 * @out, and returns 0, or -1 with the fault of @e set.
 */

/* Who did it and when; each may be NULL, for not given. */
struct defect_input {
    const char *day;  /* YYYY-MM-DD or "today"; NULL for today */
    const char *at;   /* HH:MM by the clocks of the depot; NULL: now, when it
                         is today; else some time that day */
    const char *by;   /* the id or name of a person or a driver */
    const char *note; /* what was found, decided or done */
    const char *reference;
    int alone;      /* nobody else may do it; the note says why it was done */
    int is_vehicle; /* by is what a vehicle's key says: it may only report */
};

/* One item of a sheet that was found wrong. */
struct defect_input_found {
    const char *item;  /* its code */
    const char *text;  /* what is wrong */
    const char *grade; /* minor, major or stops; NULL for that of the item */
};

struct defect_input_check {
    const char *sheet;   /* NULL when the vehicle has but one */
    const char *reading; /* what the odometer showed; may be NULL */
    const char *end;     /* and at the end of the use */
    const char *paper;   /* the number of the sheet of paper it comes from */
    int nil;             /* nothing was found */
    const struct defect_input_found *found;
    size_t n_found;
    const char *const *reported; /* numbers of the records by which part of it
                                    was reported before, place by place */
    size_t n_reported;
    const int64_t *answered; /* the numbers of watched defects looked at */
    size_t n_answered;
    int opened; /* the minute of the day at which a form was opened, or -1 */
};

/* A walk round @s, with the defects found in it. */
int defect_input_check(const struct record_input *e, const struct subject *s,
    const struct defect_input *who, const struct defect_input_check *check,
    struct buf *out);

/* One defect of @s, found by other means. */
int defect_input_report(const struct record_input *e, const struct subject *s,
    const struct defect_input *who, const struct defect_input_found *found,
    struct buf *out);

/* A decision on defect @number: "stop", "until" with a last day or
 * a reading with its unit, "52000 km", "watch" or
 * "nothing". */
int defect_input_assess(const struct record_input *e, int64_t number,
    const char *verdict, const char *until, const struct defect_input *who,
    struct buf *out);

int defect_input_repair(const struct record_input *e, int64_t number,
    const struct defect_input *who, struct buf *out);

int defect_input_release(const struct record_input *e, int64_t number,
    const struct defect_input *who, struct buf *out);

/*
 * Enter the move @r of equipment, by rule 7: what is missing where it was is
 * reported, and what was missing where it comes to is so no more.  Sets about
 * of @r.
 */
int defect_input_move(
    const struct record_input *e, struct record *r, struct buf *out);

/* Lift the stop of the job that failed by record @id; the note says why. */
int defect_input_release_failed(const struct record_input *e, int64_t id,
    const struct defect_input *who, struct buf *out);

/*
 * Void the record @id when it is one about checks or defects: 1 when it was,
 * and is void now; 0 when it is of another kind, and nothing was done; -1 with
 * the fault set when it may not be.
 */
int defect_input_void(const struct record_input *e, int64_t id,
    const struct defect_input *who, struct buf *out);

#endif
