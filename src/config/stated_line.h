#ifndef STATED_LINE_H
#define STATED_LINE_H

#include "reading.h"

/* Warn of the line that states the deadline, or the first deadline, of @t: its
 * key, and @text. */
void stated_line_warn(const struct reading *r, const struct task *t,
    const char *text, struct problems *ps);

#endif
