#include "line.h"

#include <stdarg.h>
#include <stdio.h>
#include <string.h>

static int
is_blank(char c)
{
    return c == ' ' || c == '\t';
}

static size_t
indent_of(const char *text, size_t len)
{
    size_t n = 0;

    while (n < len && is_blank(text[n]))
        n++;
    return n;
}

enum line_kind
line_kind_of(const char *text, size_t len)
{
    size_t indent = indent_of(text, len);

    if (indent == len || text[indent] == '#' || text[indent] == ';')
        return LINE_NOTHING;
    if (indent > 0)
        return LINE_MORE;
    return text[0] == '[' ? LINE_SECTION : LINE_KEY;
}

static int fault_is(char *fault, const char *format, ...)
    __attribute__((format(printf, 2, 3)));

static int
fault_is(char *fault, const char *format, ...)
{
    va_list args;

    va_start(args, format);
    vsnprintf(fault, LINE_FAULT, format, args);
    va_end(args);
    return -1;
}

/* How many bytes the UTF-8 character at @s takes, at most @len; 0 when it is
 * none (RFC 3629: no surrogate, no longer form than needed). */
static size_t
utf8_length(const unsigned char *s, size_t len)
{
    static const unsigned least[] = {0, 0, 0x80, 0x800, 0x10000};
    size_t n = s[0] < 0x80             ? 1
               : (s[0] & 0xe0) == 0xc0 ? 2
               : (s[0] & 0xf0) == 0xe0 ? 3
               : (s[0] & 0xf8) == 0xf0 ? 4
                                       : 0;

    if (n <= 1)
        return n;
    if (n > len)
        return 0;
    unsigned point = s[0] & (0x7fu >> n);
    for (size_t i = 1; i < n; i++) {
        if ((s[i] & 0xc0) != 0x80)
            return 0;
        point = point << 6 | (s[i] & 0x3f);
    }
    if (point < least[n] || point > 0x10ffff || (point & 0x1ff800) == 0xd800)
        return 0;
    return n;
}

static int
is_control(const unsigned char *s, size_t n)
{
    if (n == 2)
        return s[0] == 0xc2 && s[1] < 0xa0;
    return n == 1 && (s[0] == 0x7f || (s[0] < 0x20 && s[0] != '\t'));
}

static int
check_bytes(const char *text, size_t len, char *fault)
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
        if (is_control(s + i, n))
            return fault_is(fault,
                "byte %zu begins a control character; take it out", i + 1);
    }
    return 0;
}

static int
check_section(const char *text, size_t len, char *fault)
{
    const char *close = memchr(text, ']', len);

    if (close == NULL)
        return fault_is(fault, "'[' without ']'; expected [kind name]");
    size_t name = (size_t)(close - text) - 1;
    if (name + 2 + indent_of(close + 1, len - name - 2) != len)
        return fault_is(
            fault, "text after ']'; a section stands on a line of its own");
    if (name > LINE_SECTION_MOST)
        return fault_is(fault,
            "the name between '[' and ']' has %zu bytes; expected at most %d",
            name, LINE_SECTION_MOST);
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

static int
check_more(const char *text, size_t len, char *fault)
{
    if (text[indent_of(text, len)] == '[')
        return fault_is(fault, "an indented line goes on with the value above; "
                               "move '[' to the start of the line");
    return 0;
}

/* inih takes it for the start of a comment and drops what follows. */
static int
check_semicolon(const char *text, size_t len, char *fault)
{
    for (size_t i = 1; i < len; i++)
        if (text[i] == ';' && is_blank(text[i - 1]))
            return fault_is(fault,
                "';' after a blank; a comment stands on a line of its own");
    return 0;
}

int
line_check(
    enum line_kind kind, const char *text, size_t len, char fault[LINE_FAULT])
{
    if (check_bytes(text, len, fault))
        return -1;
    if (kind == LINE_NOTHING)
        return 0;
    if (check_semicolon(text, len, fault))
        return -1;
    if (kind == LINE_SECTION)
        return check_section(text, len, fault);
    if (kind == LINE_KEY)
        return check_key(text, len, fault);
    return check_more(text, len, fault);
}
