#ifndef ARGUMENTS_H
#define ARGUMENTS_H

#include "command.h"
#include "record_input.h"

struct suggest;

/* What a command is given, operands and options, read and checked.  What is
 * wrong with it is the fault of the invocation. */

/* The named subject, or job, or depot, or the task of the two; NULL with the
 * fault set and the nearest known word in it. */
const struct subject *argument_subject(
    struct invocation *i, const struct run_context *p, const char *id);
const struct job *argument_job(
    struct invocation *i, const struct run_context *p, const char *id);
const struct depot *argument_depot(
    struct invocation *i, const struct run_context *p, const char *id);
const struct task *argument_task(struct invocation *i,
    const struct run_context *p, const char *subject, const char *job);

/* Set the fault to: the fleet file has no such @what as @id, and what was
 * perhaps meant. */
void argument_unknown(struct invocation *i, const char *what, const char *id,
    const struct suggest *guess);

/*
 * The day an option gives, YYYY-MM-DD or "today"; DAY_NONE with the fault set
 * when it is no such day, or is missing and @needed.  Without a fault, a
 * missing option leaves DAY_NONE as well.
 */
day_t argument_day(struct invocation *i, const struct run_context *p,
    const char *option, int needed);

/* The whole number from 0 on that @text is; -1 with the fault set. */
int64_t argument_number(
    struct invocation *i, const char *what, const char *text);

/* How the user of @i asks for it, see record_input.h. */
struct record_input argument_input(
    struct invocation *i, const struct run_context *p);

/* The text of an option; NULL without a fault when it is not given. */
const char *argument_text(struct invocation *i, const char *option);

/* Fill in who, note and the moment of entry: 0 or -1. */
int argument_record(
    struct invocation *i, const struct run_context *p, struct record *r);

/* The row of --sure, for the options of commands that take it. */
#define ARGUMENT_SURE                                                          \
    {                                                                          \
        "sure", 0, NULL, "yes, really: though it looks wrong"                  \
    }

#endif
