#include "refold.h"

#include "buf.h"

#include <string.h>

#define LINE_OCTETS 75

/* Take out every CR LF blank, moving what lies between as it is. */
static void
unfold(char *text)
{
    char *to = text;
    const char *from = text;

    for (const char *cr = text; (cr = strchr(cr, '\r')) != NULL;) {
        if (cr[1] != '\n' || cr[2] != ' ') {
            cr++;
            continue;
        }
        memmove(to, from, (size_t)(cr - from));
        to += cr - from;
        from = cr += 3;
    }
    memmove(to, from, strlen(from) + 1);
}

/* How many of the @len octets fit into @room without cutting a character,
 * which has four at most. */
static size_t
fitting(const char *text, size_t len, size_t room)
{
    if (len <= room)
        return len;
    size_t n = room;
    while (n > room - 3 && ((unsigned char)text[n] & 0xc0) == 0x80)
        n--;
    return n;
}

/* Append the @len octets at @text, of which @used stand in the line already. */
static void
fold(const char *text, size_t len, size_t used, struct buf *out)
{
    size_t n = fitting(text, len, LINE_OCTETS - used);

    buf_add(out, text, n);
    while (n < len) {
        size_t more = fitting(text + n, len - n, LINE_OCTETS - 1);
        buf_add(out, "\r\n ", 3);
        buf_add(out, text + n, more);
        n += more;
    }
    buf_add(out, "\r\n", 2);
}

void
refold(char *ical, struct buf *out)
{
    unfold(ical);
    for (const char *end; (end = strstr(ical, "\r\n")) != NULL;) {
        fold(ical, (size_t)(end - ical), 0, out);
        ical += end - ical + 2;
    }
}

void
refold_line(const char *name, const char *value, struct buf *out)
{
    size_t used = strlen(name);

    buf_add(out, name, used);
    fold(value, strlen(value), used, out);
}
