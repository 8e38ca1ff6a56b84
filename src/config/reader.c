#include "reader.h"

#include "line.h"
#include "source.h"

#include <assert.h>
#include <ini.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* What an indented line would go on with. */
enum above {
    ABOVE_NOTHING,
    ABOVE_KEY,
    ABOVE_REFUSED /* a line that has its own problem already */
};

/* Hands a file to inih line by line, so that the line of each call of the
 * handler is known and no line reaches inih that it would not read whole. */
struct reader {
    struct document *document;
    const char *at;
    const char *end;
    struct place place;
    enum line_kind kind; /* of the line inih is at */
    enum above above;
    int skipping; /* keys of a section that was refused */
};

/* Take the next line off the file; sets its length without the newline. */
static const char *
take_line(struct reader *r, size_t *len)
{
    const char *text = r->at;
    const char *newline = memchr(text, '\n', (size_t)(r->end - text));

    r->at = newline ? newline + 1 : r->end;
    r->place.line++;
    *len = (size_t)(r->at - text) - (newline != NULL);
    if (newline && *len > 0 && text[*len - 1] == '\r')
        --*len;
    return text;
}

static int
check(struct reader *r, const char *text, size_t len, char *fault)
{
    if (r->at - text > LINE_MOST) {
        snprintf(fault, LINE_FAULT,
            "line of more than %d bytes; go on over indented lines", LINE_MOST);
        return -1;
    }
    return line_check(r->kind, text, len, fault);
}

static int
is_key_byte(char c)
{
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') ||
           (c >= '0' && c <= '9') || c == '-' || c == '_' || c == '.';
}

/* The key on a refused line is kept, where it can be told. */
static void
keep_key(struct reader *r, const char *text, size_t len)
{
    size_t key = 0;

    while (key < len && is_key_byte(text[key]))
        key++;
    size_t after = key;
    while (after < len && (text[after] == ' ' || text[after] == '\t'))
        after++;
    if (key > 0 && after < len && (text[after] == '=' || text[after] == ':'))
        document_refused(r->document, text, key, r->place);
}

/* A line that has a problem of its own takes with it what depends on it: a
 * key its indented lines, a section its keys. */
static int
refuse(struct reader *r, const char *text, size_t len, const char *why)
{
    problems_add(r->document->problems, PROBLEM_ERROR, r->place, "%s", why);
    if (r->kind == LINE_NOTHING)
        return 0;
    if (r->kind == LINE_SECTION)
        r->skipping = 1;
    else if (r->kind == LINE_KEY && !r->skipping)
        keep_key(r, text, len);
    else if (r->above == ABOVE_KEY)
        document_refused(r->document, NULL, 0, r->place);
    r->above = ABOVE_REFUSED;
    return 0;
}

static int
accept_section(struct reader *r, const char *text)
{
    size_t len = strcspn(text + 1, "]");

    r->above = ABOVE_NOTHING;
    r->skipping = document_section(r->document, text + 1, len, r->place) != 0;
    return !r->skipping;
}

/* Nonzero when the line is one that inih shall have. */
static int
accept(struct reader *r, const char *text, size_t len)
{
    char fault[LINE_FAULT];

    r->kind = line_kind_of(text, len);
    if (check(r, text, len, fault))
        return refuse(r, text, len, fault);
    if (r->kind == LINE_SECTION)
        return accept_section(r, text);
    if (r->kind == LINE_KEY)
        r->above = r->skipping ? ABOVE_REFUSED : ABOVE_KEY;
    if (r->kind == LINE_MORE && r->above == ABOVE_NOTHING)
        return refuse(r, text, len,
            "an indented line with no key above; "
            "begin a key at the start of the line");
    return r->kind != LINE_NOTHING && r->above == ABOVE_KEY;
}

/* What inih calls for a line: an empty one stands for each that is not for
 * it, so that parsing goes on. */
static char *
next_line(char *out, int size, void *stream)
{
    struct reader *r = stream;
    size_t len;

    if (r->at == r->end)
        return NULL;
    const char *text = take_line(r, &len);
    if (!accept(r, text, len))
        len = 0;
    assert(len < (size_t)size);
    memcpy(out, text, len);
    out[len] = '\0';
    return out;
}

static int
handle(void *stream, const char *section, const char *name, const char *value)
{
    struct reader *r = stream;
    (void)section;

    if (r->kind == LINE_KEY)
        document_key(r->document, name, value, r->place);
    else
        document_more(r->document, value, r->place);
    return 1;
}

/* The byte order mark that some editors put first. */
static size_t
mark_length(const char *bytes)
{
    return strncmp(bytes, "\xef\xbb\xbf", 3) == 0 ? 3 : 0;
}

int
reader_read(struct document *d, int file)
{
    const char *path = problems_name(d->problems, file);
    struct place whole = {file, 0};
    struct fault fault;
    size_t len;

    char *bytes = source_read(path, READER_MOST, &len, &fault);
    if (bytes == NULL) {
        problems_add(d->problems, PROBLEM_ERROR, whole, "%s", fault.text);
        return -1;
    }
    struct reader r = {.document = d, .place = whole, .end = bytes + len};
    r.at = bytes + mark_length(bytes);
    document_begin_file(d);
    int bad = ini_parse_stream(next_line, &r, handle, &r);
    if (bad != 0)
        problems_add(d->problems, PROBLEM_ERROR, (struct place){file, bad},
            "cannot be read; expected key = value, [section] or # comment");
    free(bytes);
    return 0;
}
