#include "csv.h"

#include "buf.h"
#include "utf8.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>
#include <sysexits.h>

#define END (-1)

struct csv {
    FILE *from;
    char separator;
    int line;  /* of the byte at hand */
    int first; /* line of the record at hand */
    enum csv_got got;
    struct fault *fault;           /* of the record being read */
    struct buf *text;              /* its fields, each with a NUL behind it */
    size_t start[CSV_FIELDS_MOST]; /* of each field in text */
    size_t n;
    size_t at; /* in bytes */
    size_t end;
    unsigned char bytes[1 << 16];
};

/* The first thing wrong is what is told. */
static void
bad(struct csv *c, const char *what)
{
    if (c->got != CSV_RECORD)
        return;
    c->got = CSV_BAD;
    fault_fill(c->fault, EX_DATAERR, "cell %zu %s", c->n, what);
}

static int
broken(struct csv *c, int code, const char *what)
{
    if (c->got != CSV_BROKEN)
        fault_fill(c->fault, code, "%s", what);
    c->got = CSV_BROKEN;
    return END;
}

/* The byte at hand, not taken, or END. */
static int
peek(struct csv *c)
{
    if (c->at < c->end)
        return c->bytes[c->at];
    c->at = 0;
    c->end = fread(c->bytes, 1, sizeof c->bytes, c->from);
    if (c->end > 0)
        return c->bytes[0];
    if (!ferror(c->from))
        return END;
    c->got = CSV_BROKEN;
    return fault_set(c->fault, EX_IOERR, "cannot be read: %s", strerror(errno));
}

/* Add to the field what stands before the next of the four @stops: that byte,
 * not taken, or END. */
static int
take_until(struct csv *c, const char *stops)
{
    while (peek(c) != END) {
        const unsigned char *from = c->bytes + c->at;
        size_t n = 0;
        size_t had = c->end - c->at;
        while (n < had && memchr(stops, from[n], 4) == NULL)
            n++;
        buf_add(c->text, from, n);
        c->at += n;
        if (buf_len(c->text) - c->start[c->n - 1] > CSV_FIELD_MOST)
            return broken(c, EX_DATAERR,
                "a cell is longer than 65535 bytes; is a quote opened in this "
                "row and never closed?");
        if (n < had)
            return from[n];
    }
    return END;
}

/* Take a field in quotes up to the quote that closes it. */
static void
take_quoted(struct csv *c)
{
    c->at++;
    for (;;) {
        int stop = take_until(c, "\"\"\n\n");
        if (stop == END) {
            broken(c, EX_DATAERR,
                "a quote is opened in this row and never closed");
            return;
        }
        c->at++;
        if (stop == '\n') {
            buf_text(c->text, "\n");
            c->line++;
        } else if (peek(c) == '"') {
            buf_text(c->text, "\"");
            c->at++;
        } else {
            return;
        }
    }
}

/* Take what is not in quotes, where none may stand: the byte that ends the
 * field, not taken, or END. */
static int
take_plain(struct csv *c)
{
    const char stops[4] = {c->separator, '"', '\r', '\n'};
    int stop;

    while ((stop = take_until(c, stops)) == '"') {
        bad(c, "has a quote out of place; put the whole cell in quotes and "
               "double each quote in it");
        c->at++;
    }
    return stop;
}

static void
check_text(struct csv *c)
{
    size_t start = c->start[c->n - 1];
    size_t len = buf_len(c->text) - start;
    const unsigned char *s = (const unsigned char *)buf_str(c->text) + start;

    for (size_t i = 0, n; i < len; i += n) {
        n = utf8_length(s + i, len - i);
        if (n == 0) {
            bad(c, "is not UTF-8; save the sheet as CSV in UTF-8");
            return;
        }
        if (s[i] == '\0') {
            bad(c, "has a NUL byte; save the sheet as CSV in UTF-8");
            return;
        }
    }
}

/* Take a field and the separator or line break behind it: nonzero when the
 * record has another. */
static int
take_field(struct csv *c)
{
    int quoted = peek(c) == '"';

    c->start[c->n++] = buf_len(c->text);
    if (quoted)
        take_quoted(c);
    size_t len = buf_len(c->text);
    int stop = take_plain(c);
    if (quoted && buf_len(c->text) > len)
        bad(c, "goes on behind its closing quote; double each quote in it");
    check_text(c);
    buf_add(c->text, "", 1);
    if (stop == END)
        return 0;
    c->at++;
    if (stop == '\r' && peek(c) != '\n')
        broken(c, EX_DATAERR,
            "a carriage return stands alone; end each line with LF or CRLF");
    else if (stop == '\r')
        c->at++;
    if (stop != c->separator)
        c->line++;
    return stop == c->separator;
}

/* Choose the separator by the first line, or what is at hand of it. */
static void
find_separator(struct csv *c)
{
    static const char separators[3] = {',', ';', '\t'};
    size_t count[3] = {0};
    int quoted = 0;

    for (size_t i = c->at; i < c->end; i++) {
        const char *found = memchr(separators, c->bytes[i], 3);
        if (c->bytes[i] == '"')
            quoted = !quoted;
        else if (!quoted && (c->bytes[i] == '\n' || c->bytes[i] == '\r'))
            break;
        else if (!quoted && found != NULL)
            count[found - separators]++;
    }
    size_t best = 0;
    for (size_t k = 1; k < 3; k++)
        if (count[k] > count[best])
            best = k;
    c->separator = separators[best];
}

static void
begin(struct csv *c)
{
    if (peek(c) != END && c->end >= 3 &&
        memcmp(c->bytes, "\xef\xbb\xbf", 3) == 0)
        c->at = 3;
    if (c->separator == 0)
        find_separator(c);
    c->line = 1;
}

struct csv *
csv_new(FILE *from, char separator)
{
    struct csv *c = calloc(1, sizeof *c);

    if (c == NULL)
        return NULL;
    c->from = from;
    c->separator = separator;
    c->text = buf_new();
    if (c->text != NULL)
        return c;
    free(c);
    return NULL;
}

void
csv_free(struct csv *c)
{
    if (c == NULL)
        return;
    buf_free(c->text);
    free(c);
}

enum csv_got
csv_next(struct csv *c, struct fault *f)
{
    c->fault = f;
    c->got = CSV_RECORD;
    c->n = 0;
    buf_clear(c->text);
    if (c->line == 0)
        begin(c);
    c->first = c->line;
    if (peek(c) == END)
        return c->got == CSV_BROKEN ? CSV_BROKEN : CSV_END;
    while (take_field(c)) {
        if (c->n == CSV_FIELDS_MOST) {
            broken(c, EX_DATAERR, "a row has more than 1024 cells");
            break;
        }
    }
    if (buf_failed(c->text))
        broken(c, EX_OSERR, "out of memory");
    return c->got;
}

int
csv_line(const struct csv *c)
{
    return c->first;
}

size_t
csv_count(const struct csv *c)
{
    return c->n;
}

const char *
csv_field(const struct csv *c, size_t n)
{
    return buf_str(c->text) + c->start[n];
}
