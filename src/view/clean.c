#include "clean.h"

#include "buf.h"

#include <glib.h>
#include <stdint.h>

#define NO_CHARACTER 0xffff

enum fate { KEEP, BLANK, REPLACE, DROP };

static int
is_separator(uint32_t c)
{
    return (c >= '\t' && c <= '\f') || c == 0x85 || c == 0x2028 || c == 0x2029;
}

static int
is_control(uint32_t c)
{
    return c < 0x20 || (c >= 0x7f && c < 0xa0);
}

static int
turns_direction(uint32_t c)
{
    return c == 0x061c || c == 0x200e || c == 0x200f ||
           (c >= 0x202a && c <= 0x202e) || (c >= 0x2066 && c <= 0x2069);
}

/* The last two of each plane, and 32 in the Arabic forms. */
static int
is_noncharacter(uint32_t c)
{
    return (c & 0xfffe) == 0xfffe || (c >= 0xfdd0 && c <= 0xfdef);
}

/* What readers differ in how they take it in a name. */
static int
is_mark(uint32_t c)
{
    return c == ',' || c == ';' || c == '\\';
}

static enum fate
fate_of(uint32_t c, enum clean how)
{
    if (c == '\n' && how == CLEAN_LINES)
        return KEEP;
    if (how == CLEAN_NAME && is_mark(c))
        return BLANK;
    if (is_separator(c))
        return BLANK;
    if (is_control(c) || turns_direction(c))
        return DROP;
    return is_noncharacter(c) ? REPLACE : KEEP;
}

/* The character at @text and how many bytes it takes; a byte that begins none
 * counts as a noncharacter. */
static uint32_t
next(const char *text, const char *end, size_t *n)
{
    *n = 1;
    if ((unsigned char)*text < 0x80)
        return (unsigned char)*text;
    uint32_t c = g_utf8_get_char_validated(text, end - text);
    if (c >= (uint32_t)-2)
        return NO_CHARACTER;
    *n = (size_t)g_unichar_to_utf8(c, NULL);
    return c;
}

/* How a character's fate is carried out. */
static void
put(struct buf *out, enum fate fate, const char *text, size_t n)
{
    if (fate == KEEP)
        buf_add(out, text, n);
    else if (fate == BLANK)
        buf_text(out, " ");
    else if (fate == REPLACE)
        buf_text(out, "\xef\xbf\xbd");
}

/* How many bytes at @text are printable ASCII that certainly stays: all but
 * what a name may not hold and, in one line, a blank that begins them or
 * follows another. */
static size_t
plain(const char *text, const char *end, enum clean how)
{
    const char *at = text;

    for (; at < end && *at >= ' ' && *at <= '~'; at++)
        if ((how == CLEAN_NAME && is_mark((unsigned char)*at)) ||
            (how != CLEAN_LINES && *at == ' ' && (at == text || at[-1] == ' ')))
            break;
    return (size_t)(at - text);
}

void
clean_add(struct buf *out, enum clean how, const char *text, size_t len)
{
    const char *end = text + len;
    int spaced = 0;
    size_t n;

    for (; text < end; text += n) {
        n = plain(text, end, how);
        if (n > 0) {
            buf_add(out, text, n);
            spaced = text[n - 1] == ' ';
            continue;
        }
        uint32_t c = next(text, end, &n);
        enum fate fate = fate_of(c, how);
        int space = fate == BLANK || g_unichar_isspace(c);
        if (fate == DROP || (how != CLEAN_LINES && space && spaced))
            continue;
        put(out, fate, text, n);
        spaced = space;
    }
}
