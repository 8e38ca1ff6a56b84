#ifndef RECORD_INPUT_H
#define RECORD_INPUT_H

#include "record.h"
#include "run_context.h"

/*
 * From what a person writes to a record, and what is refused of it: the same
 * on the command line and on the page.
 */

/* Who asks, and how a refusal speaks to them. */
struct record_input {
    const struct run_context *run;
    const char *mark;     /* before the name of what they give: "--" */
    const char *say_sure; /* how they insist: "add --sure" */
    int sure;             /* they do: what only looks wrong is taken */
    struct fault *fault;  /* set by whatever refuses */
};

/* What is said of a job that was done; each may be NULL, for not given. */
struct record_input_work {
    const char *day; /* YYYY-MM-DD or "today"; needed */
    const char *result;
    const char *reading;
    const char *by;
    const char *reference;
    const char *note;
};

/* A text that is empty or would break a line is refused: 0, also for NULL,
 * or -1. */
int record_input_text(
    const struct record_input *e, const char *name, const char *text);

/* The day that @text is, YYYY-MM-DD or "today", or DAY_NONE; refused when it is
 * neither, or NULL and @needed. */
day_t record_input_day(const struct record_input *e, const char *name,
    const char *text, int needed);

/* The whole number from 0 on that @text is, or -1; @what is its whole name. */
int64_t record_input_number(
    const char *what, const char *text, struct fault *f);

/*
 * Fill @r, whose texts are those of @w, with the work on @t.  Returns 0 or -1:
 * what cannot be is refused, and unless they are sure of it, what looks wrong.
 */
int record_input_work(const struct record_input *e, const struct task *t,
    const struct record_input_work *w, struct record *r);

/* Refuse work that stands on record as completed on that day already, unless
 * they are sure: evidence counts it once more. */
int record_input_check_twice(
    const struct record_input *e, const struct record *r);

/* Refuse a day before the subject existed, unless they are sure. */
int record_input_check_existed(
    const struct record_input *e, const struct record *r, day_t day);

/* Refuse a day that is still to come, or, unless they are sure, before the
 * subject existed. */
int record_input_check_day(
    const struct record_input *e, const struct record *r);

/* The meter of a reading of @s that nobody named: distance, unless its jobs go
 * by hours alone. */
enum meter record_input_meter(const struct fleet *f, const struct subject *s);

/* Nonzero for a day on which the odometer of @r's subject still counted another
 * unit. */
int record_input_other_unit(const struct record *r);

/* Refuse a reading that cannot be, see reading_check.h, unless they are sure.
 */
int record_input_check_reading(
    const struct record_input *e, const struct record *r);

#endif
