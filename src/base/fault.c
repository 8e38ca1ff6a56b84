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
    size_t len = strlen(f->text);

    snprintf(f->text + len, sizeof f->text - len, "; and %s", other->text);
}
