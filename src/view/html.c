#include "html.h"

#include "buf.h"

void
html_add(const char *text, struct buf *out)
{
    for (const char *c = text; *c != '\0'; c++) {
        if (*c == '&')
            buf_text(out, "&amp;");
        else if (*c == '<')
            buf_text(out, "&lt;");
        else if (*c == '>')
            buf_text(out, "&gt;");
        else if (*c == '"')
            buf_text(out, "&quot;");
        else
            buf_add(out, c, 1);
    }
}
