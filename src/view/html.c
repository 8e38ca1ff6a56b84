#include "html.h"

#include "buf.h"

#include <assert.h>
#include <stdarg.h>
#include <string.h>

static void
escape(const char *text, size_t len, struct buf *out)
{
    const char *end = text + len;

    for (;;) {
        size_t n = strcspn(text, "&<>\"");
        if (n >= (size_t)(end - text)) {
            buf_add(out, text, (size_t)(end - text));
            return;
        }
        buf_add(out, text, n);
        text += n;
        buf_text(out, *text == '&'   ? "&amp;"
                      : *text == '<' ? "&lt;"
                      : *text == '>' ? "&gt;"
                                     : "&quot;");
        text++;
    }
}

/* Append what the conversion at @at stands for; returns what follows it. */
static const char *
convert(const char *at, va_list *args, struct buf *out)
{
    if (*at == 's') {
        const char *text = va_arg(*args, const char *);
        escape(text, strlen(text), out);
        return at + 1;
    }
    if (strncmp(at, ".*s", 3) == 0) {
        int len = va_arg(*args, int);
        escape(va_arg(*args, const char *), (size_t)len, out);
        return at + 3;
    }
    if (*at == 'd') {
        buf_print(out, "%d", va_arg(*args, int));
        return at + 1;
    }
    if (strncmp(at, "zu", 2) == 0) {
        buf_print(out, "%zu", va_arg(*args, size_t));
        return at + 2;
    }
    assert(strncmp(at, "lld", 3) == 0);
    buf_print(out, "%lld", va_arg(*args, long long));
    return at + 3;
}

void
html_fill(struct buf *out, const char *template, ...)
{
    va_list args;

    va_start(args, template);
    for (;;) {
        size_t n = strcspn(template, "%");
        buf_add(out, template, n);
        template += n;
        if (*template == '\0')
            break;
        template = convert(template + 1, &args, out);
    }
    va_end(args);
}

void
html_asis(struct buf *out, const char *literal)
{
    buf_text(out, literal);
}
