#include "fold.h"

#include "buf.h"

#include <string.h>

#define LINE_OCTETS 75

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

/* What goes on in a new line stands there after a blank, which counts. */
void
fold_line(const char *name, const char *value, struct buf *out)
{
    size_t used = strlen(name);
    size_t len = strlen(value);
    size_t n = fitting(value, len, LINE_OCTETS - used);

    buf_add(out, name, used);
    buf_add(out, value, n);
    while (n < len) {
        size_t more = fitting(value + n, len - n, LINE_OCTETS - 1);
        buf_add(out, "\r\n ", 3);
        buf_add(out, value + n, more);
        n += more;
    }
    buf_add(out, "\r\n", 2);
}
