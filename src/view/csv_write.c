#include "csv_write.h"

#include "buf.h"

#include <string.h>

void
csv_write_field(const char *text, struct buf *out)
{
    if (buf_len(out) > 0 && buf_str(out)[buf_len(out) - 1] != '\n')
        buf_text(out, ",");
    if (text == NULL)
        return;
    if (strpbrk(text, ",\"\r\n") == NULL) {
        buf_text(out, text);
        return;
    }
    buf_text(out, "\"");
    for (const char *c = text; *c != '\0'; c++)
        buf_print(out, *c == '"' ? "\"%c" : "%c", *c);
    buf_text(out, "\"");
}

void
csv_write_day(day_t d, struct buf *out)
{
    char text[DAY_TEXT];

    csv_write_field(d == DAY_NONE ? NULL : day_text(d, text), out);
}
