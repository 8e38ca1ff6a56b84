#include "fault.h"

#include <stdarg.h>
#include <stdio.h>

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
