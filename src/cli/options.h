#ifndef OPTIONS_H
#define OPTIONS_H

#include <stddef.h>

struct buf;

/* One option of a command: a row of its table, which ends with a NULL name. */
struct option_row {
    const char *name;     /* without the dashes */
    char letter;          /* its short form, or 0 */
    const char *argument; /* what it takes, for the help, or NULL; one that
                             ends with "..." may be given several times */
    const char *help;
};

#define OPTIONS_MOST 24
#define OPERANDS_MOST 8
#define REPEATS_MOST 100 /* of options that may be repeated, all together */

/* One of the values of an option that may be repeated. */
struct option_value {
    const struct option_row *row;
    const char *value;
};

/* What the user wrote. */
struct options {
    const struct option_row *rows[OPTIONS_MOST];
    const char *values[OPTIONS_MOST]; /* NULL when not given; "" for a flag */
    size_t n;
    struct option_value repeated[REPEATS_MOST];
    size_t n_repeated;
    const char *operands[OPERANDS_MOST];
    size_t n_operands;
};

/* Make the rows of @table known to @o, besides those it knows already. */
void options_know(struct options *o, const struct option_row *table);

/*
 * Read the words of the command line: "--name value", "--name=value",
 * "-c value", operands, and after "--" operands alone.  On a mistake returns -1
 * and says in @message what it is.
 */
int options_read(struct options *o, int argc, char **argv, struct buf *message);

/* The value of an option, "" for a flag that was given, or NULL. */
const char *options_value(const struct options *o, const char *name);

/* The values of an option that may be repeated, in the order given: the one at
 * *@at or after it, and *@at is then behind it.  NULL for no more.  Begin with
 * 0. */
const char *options_next(const struct options *o, const char *name, size_t *at);

/* The operand at @i, or NULL. */
const char *options_operand(const struct options *o, size_t i);

/* Append a line of help for each row of @table. */
void options_help(const struct option_row *table, struct buf *out);

#endif
