#include "log.h"

#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static void
clean(char *text)
{
    for (; *text != '\0'; text++)
        if ((unsigned char)*text < ' ' || *text == 0x7f)
            *text = '?';
}

void
log_line(enum log_level level, const char *format, ...)
{
    char text[1200];
    char priority[8] = "";
    va_list args;

    va_start(args, format);
    vsnprintf(text, sizeof text, format, args);
    va_end(args);
    clean(text);
    if (getenv("JOURNAL_STREAM") != NULL)
        snprintf(priority, sizeof priority, "<%d>", (int)level);
    /* One call, so that no other thread's line comes in between. */
    fprintf(stderr, "%sostlerd: %s\n", priority, text);
}

void
log_lines(enum log_level level, const char *text)
{
    while (*text != '\0') {
        size_t len = strcspn(text, "\n");
        log_line(level, "%.*s", (int)len, text);
        text += len;
        text += *text == '\n';
    }
}
