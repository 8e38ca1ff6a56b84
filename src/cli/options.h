#ifndef OPTIONS_H
#define OPTIONS_H

#include <stddef.h>

struct buf;

/* One option of a command: a row of its table, which ends with a NULL name. */
struct option_row {
    const char *name;     /* without the dashes */
    char letter;          /* its short form, or 0 */
    const char *argument; /* what it takes, for the help, or NULL */
    const char *help;
};

#define OPTIONS_MOST 24
#define OPERANDS_MOST 8

/* What the user wrote. */
struct options {
    const struct option_row *rows[OPTIONS_MOST];
    const char *values[OPTIONS_MOST]; /* NULL when not given; "" for a flag */
    size_t n;
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

/* The operand at @i, or NULL. */
const char *options_operand(const struct options *o, size_t i);

/* Append a line of help for each row of @table. */
void options_help(const struct option_row *table, struct buf *out);

#endif
