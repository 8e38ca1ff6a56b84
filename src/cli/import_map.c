#include "import_map.h"

#include "buf.h"
#include "suggest.h"

#include <ctype.h>
#include <string.h>
#include <sysexits.h>

#define BLANKS " \t\r\n"

static const struct {
    const char *word;
    const char *option;
} columns[IMPORT_COLUMNS] = {
    [COLUMN_SUBJECT] = {"subject", "subject-column"},
    [COLUMN_JOB] = {"job", "job-column"},
    [COLUMN_DAY] = {"day", "day-column"},
    [COLUMN_READING] = {"reading", "reading-column"},
    [COLUMN_RESULT] = {"result", "result-column"},
    [COLUMN_BY] = {"by", "by-column"},
    [COLUMN_REFERENCE] = {"reference", "reference-column"},
    [COLUMN_NOTE] = {"note", "note-column"},
};

int
import_clean(const char *cell, struct buf *out)
{
    size_t start = buf_len(out);
    int controls = 0;

    for (cell += strspn(cell, BLANKS); *cell != '\0';
         cell += strspn(cell, BLANKS)) {
        size_t n = strcspn(cell, BLANKS);
        if (buf_len(out) > start)
            buf_text(out, " ");
        for (const char *end = cell + n; cell < end; cell++) {
            int control = (unsigned char)*cell < ' ' || *cell == 127;
            controls |= control;
            buf_add(out, control ? "?" : cell, 1);
        }
    }
    return controls ? -1 : 0;
}

/* Nonzero when the two are the same, blanks and the case of letters aside. */
static int
same_name(const char *a, const char *b)
{
    for (;; a++, b++) {
        a += strspn(a, BLANKS);
        b += strspn(b, BLANKS);
        if (tolower((unsigned char)*a) != tolower((unsigned char)*b))
            return 0;
        if (*a == '\0')
            return 1;
    }
}

static int
say_missing(struct invocation *i, const struct csv *header, const char *name,
    const char *option)
{
    struct suggest guess = suggest_start(name);

    for (size_t k = 0; k < csv_count(header); k++)
        suggest_offer(&guess, csv_field(header, k));
    const char *best = suggest_best(&guess);
    return fault_set(&i->fault, EX_DATAERR,
        "the first line has no column '%.60s'; say with --%s NAME which it "
        "is%s%.60s%s",
        name, option, best ? ", perhaps '" : "", best ? best : "",
        best ? "'" : "");
}

/* Find the column @c, which need not be there unless it was asked for. */
static int
find_column(struct import_map *m, struct invocation *i,
    const struct csv *header, enum import_column c)
{
    const char *asked = options_value(&i->options, columns[c].option);
    const char *name = asked ? asked : columns[c].word;

    m->cell[c] = -1;
    for (size_t k = 0; k < csv_count(header); k++) {
        if (!same_name(csv_field(header, k), name))
            continue;
        if (m->cell[c] >= 0)
            return fault_set(&i->fault, EX_DATAERR,
                "the first line has the column '%.60s' twice", name);
        m->cell[c] = (int)k;
    }
    if (m->cell[c] < 0 && asked != NULL)
        return say_missing(i, header, name, columns[c].option);
    return 0;
}

/* The value that an option gives for the column @c in every row; NULL when it
 * is not given. */
static const char *
for_every_row(
    const struct import_map *m, struct invocation *i, enum import_column c)
{
    const char *word = columns[c].word;
    const char *value = options_value(&i->options, word);

    if (value != NULL && m->cell[c] >= 0)
        fault_fill(&i->fault, EX_USAGE,
            "--%s is for a sheet without that column, and this one has it; "
            "leave --%s out, or rename the column",
            word, word);
    return value;
}

int
import_map_read(
    struct import_map *m, struct invocation *i, const struct csv *header)
{
    m->width = csv_count(header);
    for (int c = 0; c < IMPORT_COLUMNS; c++)
        if (find_column(m, i, header, (enum import_column)c))
            return -1;
    m->subject = for_every_row(m, i, COLUMN_SUBJECT);
    m->job = for_every_row(m, i, COLUMN_JOB);
    if (i->fault.code)
        return -1;
    if (m->cell[COLUMN_SUBJECT] < 0 && m->subject == NULL)
        return say_missing(i, header, "subject", "subject-column");
    if (m->cell[COLUMN_DAY] < 0)
        return say_missing(i, header, "day", "day-column");
    if (m->cell[COLUMN_JOB] < 0 && m->job == NULL &&
        m->cell[COLUMN_READING] < 0)
        return fault_set(&i->fault, EX_DATAERR,
            "the first line has neither a column 'job' nor 'reading'; "
            "--job-column NAME and --reading-column NAME say which they are, "
            "--job JOB which job it is in every row");
    return 0;
}

void
import_map_unused(
    const struct import_map *m, const struct csv *header, struct buf *out)
{
    size_t start = buf_len(out);

    for (size_t k = 0; k < csv_count(header); k++) {
        int used = 0;
        for (int c = 0; c < IMPORT_COLUMNS; c++)
            used |= m->cell[c] == (int)k;
        if (used)
            continue;
        if (buf_len(out) > start)
            buf_text(out, ", ");
        (void)import_clean(csv_field(header, k), out);
    }
}
