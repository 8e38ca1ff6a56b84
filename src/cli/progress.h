#ifndef PROGRESS_H
#define PROGRESS_H

#include <stdint.h>

/*
 * Showing how far something long has come, on one line of the standard error
 * that is written over once a second.  Nothing is shown when that is no
 * terminal.
 */
struct progress {
    int timer;           /* -1 when nothing is to be shown */
    const char *of_what; /* "rows" */
    int shown;
};

/* Begin; @of_what must outlive it. */
struct progress progress_start(const char *of_what);

/* Tell that @done are done.  May be called for each: most calls do nothing. */
void progress_tell(struct progress *p, int64_t done);

/* End, with the line cleared. */
void progress_end(struct progress *p);

#endif
