#ifndef WAKER_H
#define WAKER_H

#include <stdint.h>

/*
 * A timer by the clock on the wall, which goes off as well when somebody sets
 * that clock: a file descriptor that can be read then.
 */

/* One that never goes off, or -1 with errno set.  Close with close(). */
int waker_open(void);

/* Let it go off at @when, seconds since 1970, or TIMING_NEVER. */
void waker_set(int waker, int64_t when);

/* Take note that it went off, if it did; that the clock was set is logged. */
void waker_look(int waker);

#endif
