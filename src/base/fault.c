#include "fault.h"

#include <stdarg.h>
#include <stdio.h>

int
fault_set(struct fault *f, int code, const char *format, ...)
{
    va_list args;

    if (f == NULL)
        return -1;
    f->code = code;
    va_start(args, format);
    vsnprintf(f->text, sizeof f->text, format, args);
    va_end(args);
    return -1;
}
