#include "options.h"

#include "buf.h"
#include "suggest.h"

#include <string.h>

#define HELP_COLUMN 28

void
options_know(struct options *o, const struct option_row *table)
{
    for (; table != NULL && table->name != NULL; table++)
        if (o->n < OPTIONS_MOST)
            o->rows[o->n++] = table;
}

/* The row that @word names, "--name" or "-n"; its index, or -1. */
static int
find(const struct options *o, const char *word, size_t len)
{
    for (size_t i = 0; i < o->n; i++) {
        const struct option_row *row = o->rows[i];
        if (word[1] != '-' && len == 2 && row->letter == word[1])
            return (int)i;
        if (word[1] == '-' && strlen(row->name) == len - 2 &&
            strncmp(row->name, word + 2, len - 2) == 0)
            return (int)i;
    }
    return -1;
}

static int
unknown(const struct options *o, const char *word, struct buf *message)
{
    struct suggest guess = suggest_start(word + strspn(word, "-"));

    for (size_t i = 0; i < o->n; i++)
        suggest_offer(&guess, o->rows[i]->name);
    buf_print(message, "there is no option '%s'", word);
    if (suggest_best(&guess) != NULL)
        buf_print(message, "; did you mean --%s?", suggest_best(&guess));
    return -1;
}

static int
repeats(const struct option_row *row)
{
    size_t len = row->argument ? strlen(row->argument) : 0;

    return len > 3 && strcmp(row->argument + len - 3, "...") == 0;
}

/* Take the option at argv[*at], and its value, which may be the next word. */
static int
take_option(
    struct options *o, int argc, char **argv, int *at, struct buf *message)
{
    const char *word = argv[*at];
    size_t len = strcspn(word, "=");
    const char *value = word[len] == '=' ? word + len + 1 : NULL;
    int i = find(o, word, len);

    if (i < 0)
        return unknown(o, word, message);
    const struct option_row *row = o->rows[i];
    if (row->argument == NULL && value != NULL) {
        buf_print(message, "--%s takes no value", row->name);
        return -1;
    }
    if (row->argument == NULL)
        value = "";
    else if (value == NULL && *at + 1 < argc)
        value = argv[++*at];
    if (value == NULL) {
        buf_print(message, "--%s needs a value: %s", row->name, row->argument);
        return -1;
    }
    if (o->values[i] != NULL && !repeats(row)) {
        buf_print(message, "--%s is given twice", row->name);
        return -1;
    }
    if (repeats(row) && o->n_repeated == REPEATS_MOST) {
        buf_print(message, "--%s is given more than %d times", row->name,
            REPEATS_MOST);
        return -1;
    }
    o->values[i] = value;
    if (repeats(row))
        o->repeated[o->n_repeated++] = (struct option_value){row, value};
    return 0;
}

static int
take_operand(struct options *o, const char *word, struct buf *message)
{
    if (o->n_operands == OPERANDS_MOST) {
        buf_print(message, "'%s' is one word too many", word);
        return -1;
    }
    o->operands[o->n_operands++] = word;
    return 0;
}

int
options_read(struct options *o, int argc, char **argv, struct buf *message)
{
    int only_operands = 0;

    for (int at = 0; at < argc; at++) {
        const char *word = argv[at];
        if (!only_operands && strcmp(word, "--") == 0)
            only_operands = 1;
        else if (only_operands || word[0] != '-' || word[1] == '\0') {
            if (take_operand(o, word, message))
                return -1;
        } else if (take_option(o, argc, argv, &at, message))
            return -1;
    }
    return 0;
}

const char *
options_value(const struct options *o, const char *name)
{
    for (size_t i = 0; i < o->n; i++)
        if (strcmp(o->rows[i]->name, name) == 0)
            return o->values[i];
    return NULL;
}

const char *
options_next(const struct options *o, const char *name, size_t *at)
{
    while (*at < o->n_repeated) {
        const struct option_value *v = &o->repeated[(*at)++];
        if (strcmp(v->row->name, name) == 0)
            return v->value;
    }
    return NULL;
}

const char *
options_operand(const struct options *o, size_t i)
{
    return i < o->n_operands ? o->operands[i] : NULL;
}

void
options_help(const struct option_row *table, struct buf *out)
{
    for (; table != NULL && table->name != NULL; table++) {
        size_t start = buf_len(out);
        buf_text(out, "  ");
        if (table->letter)
            buf_print(out, "-%c, ", table->letter);
        buf_print(out, "--%s%s%s", table->name, table->argument ? " " : "",
            table->argument ? table->argument : "");
        size_t width = buf_len(out) - start;
        buf_fill(out, ' ', width < HELP_COLUMN ? HELP_COLUMN - width : 1);
        buf_print(out, "%s\n", table->help);
    }
}
