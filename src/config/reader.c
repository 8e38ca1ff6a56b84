#include "reader.h"

#include "source.h"
#include "utf8.h"

#include <assert.h>
#include <ini.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/*
 * inih parts a key from its value and joins what goes on over indented lines.
 * It also cuts a long line, takes ':' for '=', drops what follows " ;" and
 * says nothing of a section without keys.  So a line is looked at first: a
 * section goes to the document at once, and inih is given no line that it
 * would not take as it was meant.
 */

/* The longest line, its newline included, and the longest text between the
 * brackets of a section: inih cuts both in silence beyond. */
#define LINE_MOST 199
#define SECTION_MOST 49

enum line_kind {
    LINE_NOTHING, /* blank, or a comment */
    LINE_SECTION, /* [kind name] */
    LINE_KEY,     /* key = value */
    LINE_MORE     /* indented: goes on with the value above */
};

/* What an indented line would go on with. */
enum above {
    ABOVE_NOTHING,
    ABOVE_KEY,
    ABOVE_REFUSED /* a line that has its own problem already */
};

struct reader {
    struct document *document;
    const char *at;
    const char *end;
    struct place place;
    enum line_kind kind; /* of the line inih is at */
    enum above above;
    int skipping; /* keys of a section that was refused */
};

static int
is_blank(char c)
{
    return c == ' ' || c == '\t';
}

static size_t
blanks_at(const char *text, size_t len)
{
    size_t n = 0;

    while (n < len && is_blank(text[n]))
        n++;
    return n;
}

static int fault_is(char *fault, const char *format, ...)
    __attribute__((format(printf, 2, 3)));

static int
fault_is(char *fault, const char *format, ...)
{
    va_list args;

    va_start(args, format);
    vsnprintf(fault, READER_FAULT, format, args);
    va_end(args);
    return -1;
}

int
reader_check_text(const char *text, size_t len, char fault[READER_FAULT])
{
    const unsigned char *s = (const unsigned char *)text;

    for (size_t i = 0, n; i < len; i += n) {
        n = utf8_length(s + i, len - i);
        if (n == 0)
            return fault_is(fault,
                "byte %zu (0x%02x) is not UTF-8; save the file as UTF-8", i + 1,
                s[i]);
        if (s[i] == '\0')
            return fault_is(
                fault, "byte %zu is NUL; this is not a text file", i + 1);
        if (s[i] == '\r')
            return fault_is(fault,
                "byte %zu is a carriage return; end each line with LF or CRLF",
                i + 1);
        /* C0 and, as two bytes, C1 controls, and DEL. */
        if ((s[i] < 0x20 && s[i] != '\t') || s[i] == 0x7f ||
            (s[i] == 0xc2 && s[i + 1] < 0xa0))
            return fault_is(fault,
                "byte %zu begins a control character; take it out", i + 1);
    }
    return 0;
}

/* inih ends the name at the first bracket and drops the rest. */
static int
check_section(const char *text, size_t len, char *fault)
{
    const char *close = memchr(text, ']', len);

    if (close == NULL)
        return fault_is(fault, "'[' without ']'; expected [kind name]");
    size_t name = (size_t)(close - text) - 1;
    if (name + 2 + blanks_at(close + 1, len - name - 2) != len)
        return fault_is(
            fault, "text after ']'; a section stands on a line of its own");
    if (name > SECTION_MOST)
        return fault_is(fault,
            "the name between '[' and ']' has %zu bytes; expected at most %d",
            name, SECTION_MOST);
    return 0;
}

static int
check_key(const char *text, size_t len, char *fault)
{
    const char *equals = memchr(text, '=', len);
    const char *colon = memchr(text, ':', len);

    if (equals == text)
        return fault_is(fault, "no key before '='; expected key = value");
    if (equals == NULL || (colon != NULL && colon < equals))
        return fault_is(fault, "expected key = value, [section] or # comment");
    return 0;
}

/* Whether the line, whose newline lies before @r->at, is what it seems to be:
 * 0, or -1 with what is wrong with it, and what to do, in @fault. */
static int
check_line(const struct reader *r, const char *text, size_t len, char *fault)
{
    if (r->at - text > LINE_MOST)
        return fault_is(fault,
            "line of more than %d bytes; go on over indented lines", LINE_MOST);
    if (reader_check_text(text, len, fault))
        return -1;
    if (r->kind == LINE_NOTHING)
        return 0;
    for (size_t i = 1; i < len; i++)
        if (text[i] == ';' && is_blank(text[i - 1]))
            return fault_is(fault,
                "';' after a blank; a comment stands on a line of its own");
    if (r->kind == LINE_SECTION)
        return check_section(text, len, fault);
    if (r->kind == LINE_KEY)
        return check_key(text, len, fault);
    if (text[blanks_at(text, len)] == '[')
        return fault_is(fault, "an indented line goes on with the value above; "
                               "move '[' to the start of the line");
    if (r->above == ABOVE_NOTHING)
        return fault_is(fault, "an indented line with no key above; "
                               "begin a key at the start of the line");
    return 0;
}

/* The key on a refused line is kept, where it can be told, so that nothing
 * says that it is missing. */
static void
keep_key(struct reader *r, const char *text, size_t len)
{
    static const char bytes[] = "abcdefghijklmnopqrstuvwxyz"
                                "ABCDEFGHIJKLMNOPQRSTUVWXYZ"
                                "0123456789-_.";
    size_t key = 0;

    while (key < len && text[key] != '\0' && strchr(bytes, text[key]))
        key++;
    size_t after = key + blanks_at(text + key, len - key);
    if (key > 0 && after < len && (text[after] == '=' || text[after] == ':'))
        document_refused(r->document, text, key, r->place);
}

/* A line that has a problem of its own takes with it what depends on it: a
 * key its indented lines, a section its keys. */
static void
refuse_line(struct reader *r, const char *text, size_t len, const char *why)
{
    problems_add(r->document->problems, PROBLEM_ERROR, r->place, "%s", why);
    if (r->kind == LINE_NOTHING)
        return;
    if (r->kind == LINE_SECTION)
        r->skipping = 1;
    else if (r->kind == LINE_KEY && !r->skipping)
        keep_key(r, text, len);
    else if (r->above == ABOVE_KEY)
        document_refused(r->document, NULL, 0, r->place);
    r->above = ABOVE_REFUSED;
}

/* Nonzero when the line is one that inih shall have. */
static int
take_line(struct reader *r, const char *text, size_t len)
{
    size_t indent = blanks_at(text, len);
    char fault[READER_FAULT];

    r->kind = indent == len || text[indent] == '#' || text[indent] == ';'
                  ? LINE_NOTHING
              : indent > 0     ? LINE_MORE
              : text[0] == '[' ? LINE_SECTION
                               : LINE_KEY;
    if (check_line(r, text, len, fault)) {
        refuse_line(r, text, len, fault);
        return 0;
    }
    if (r->kind == LINE_SECTION) {
        size_t name = strcspn(text + 1, "]");
        r->above = ABOVE_NOTHING;
        r->skipping =
            document_section(r->document, text + 1, name, r->place) != 0;
    }
    if (r->kind == LINE_KEY)
        r->above = r->skipping ? ABOVE_REFUSED : ABOVE_KEY;
    return (r->kind == LINE_KEY || r->kind == LINE_MORE) &&
           r->above == ABOVE_KEY;
}

/* What inih calls for a line: an empty one stands for each that is not for
 * it, so that it goes on. */
static char *
next_line(char *out, int size, void *stream)
{
    struct reader *r = stream;
    const char *text = r->at;

    if (text == r->end)
        return NULL;
    const char *newline = memchr(text, '\n', (size_t)(r->end - text));
    size_t len = (size_t)((newline ? newline : r->end) - text);
    r->at = newline ? newline + 1 : r->end;
    r->place.line++;
    if (newline && len > 0 && text[len - 1] == '\r')
        len--;
    if (!take_line(r, text, len))
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
    struct reader r = {
        .document = d, .at = bytes, .end = bytes + len, .place = whole};
    if (strncmp(bytes, "\xef\xbb\xbf", 3) == 0)
        r.at += 3; /* the byte order mark that some editors put first */
    document_begin_file(d);
    int bad = ini_parse_stream(next_line, &r, handle, &r);
    if (bad != 0)
        problems_add(d->problems, PROBLEM_ERROR, (struct place){file, bad},
            "cannot be read; expected key = value, [section] or # comment");
    free(bytes);
    return 0;
}
