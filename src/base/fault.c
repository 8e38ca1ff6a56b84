#include "fault.h"

#include <stdarg.h>
#include <stdio.h>
#include <string.h>

void
fault_fill(struct fault *f, int code, const char *format, ...)
{
    va_list args;

    if (f == NULL)
        return;
    f->code = code;
    va_start(args, format);
    vsnprintf(f->text, sizeof f->text, format, args);
    va_end(args);
}

void
fault_also(struct fault *f, const struct fault *other)
{
    static const char more[] = "; and more";
    const size_t more_len = sizeof more - 1;
    size_t len = strlen(f->text);
    size_t room = sizeof f->text - len;

    if (len >= more_len && strcmp(f->text + len - more_len, more) == 0)
        return;
    /* What is said in part cannot be acted on. */
    if (strlen("; and ") + strlen(other->text) + sizeof more <= room)
        snprintf(f->text + len, room, "; and %s", other->text);
    else if (sizeof more <= room)
        snprintf(f->text + len, room, "%s", more);
}
