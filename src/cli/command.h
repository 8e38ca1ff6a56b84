#ifndef COMMAND_H
#define COMMAND_H

#include "fault.h"
#include "options.h"
#include "run_context.h"

/* What a command gets: the words of the user, and where to say things. */
struct invocation {
    struct options options;
    struct buf *out;           /* for stdout, written when the command ends */
    struct buf *notes;         /* for stderr */
    struct problems *problems; /* of the fleet file; shown by main */
    struct fault fault;        /* set when the command fails */
};

/*
 * A command.  To add one, write src/cli/cmd_NAME.c and give it a row in the
 * table in command.c.  The run function returns 0, or -1 with the fault set.
 */
struct command {
    const char *name;
    const char *operands; /* for the help: "SUBJECT JOB" */
    size_t least;         /* how many operands it takes, at least */
    size_t most;
    const char *summary;
    const struct option_row *options; /* besides the common ones, or NULL */
    int (*run)(struct invocation *i);
};

extern const struct command cmd_check;
extern const struct command cmd_due;
extern const struct command cmd_why;
extern const struct command cmd_record;
extern const struct command cmd_reading;
extern const struct command cmd_off_road;
extern const struct command cmd_move;
extern const struct command cmd_left;
extern const struct command cmd_import;
extern const struct command cmd_walk_round;
extern const struct command cmd_defect;
extern const struct command cmd_assess;
extern const struct command cmd_repair;
extern const struct command cmd_release;
extern const struct command cmd_defects;
extern const struct command cmd_history;
extern const struct command cmd_evidence;
extern const struct command cmd_page;
extern const struct command cmd_feed;
extern const struct command cmd_key;
extern const struct command cmd_nightly;
extern const struct command cmd_outbox;
extern const struct command cmd_backup;
extern const struct command cmd_restore;
extern const struct command cmd_plan;
extern const struct command cmd_book;
extern const struct command cmd_complete;

/* The options that every command takes. */
extern const struct option_row command_common[];

/* The command at @n of the table, or NULL past the last. */
const struct command *command_at(size_t n);

/* The command of that name, or NULL. */
const struct command *command_find(const char *name);

/* Append the help of one command, or of the program when @c is NULL. */
void command_help(const struct command *c, struct buf *out);

/* Begin a run with the common options, see run_context.h.  NULL with the
 * invocation's fault set. */
struct run_context *command_run(struct invocation *i, enum ledger_mode mode,
    enum run_reads reads, unsigned serves);

#endif
