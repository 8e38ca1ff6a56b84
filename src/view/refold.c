#include "refold.h"

#include "buf.h"

#include <string.h>

#define LINE_OCTETS 75

static void
unfold(char *text)
{
    char *to = text;

    while (*text != '\0') {
        if (strncmp(text, "\r\n ", 3) == 0)
            text += 3;
        else
            *to++ = *text++;
    }
    *to = '\0';
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

static void
fold(const char *line, size_t len, struct buf *out)
{
    size_t n = fitting(line, len, LINE_OCTETS);

    buf_add(out, line, n);
    while (n < len) {
        size_t more = fitting(line + n, len - n, LINE_OCTETS - 1);
        buf_text(out, "\r\n ");
        buf_add(out, line + n, more);
        n += more;
    }
    buf_text(out, "\r\n");
}

void
refold(char *ical, struct buf *out)
{
    unfold(ical);
    for (const char *end; (end = strstr(ical, "\r\n")) != NULL;) {
        fold(ical, (size_t)(end - ical), out);
        ical += end - ical + 2;
    }
}
