#ifndef DAEMON_H
#define DAEMON_H

#include "day.h"
#include "fault.h"

/* What the daemon is started with. */
struct daemon_options {
    const char *fleet_file;
    const char *listen; /* instead of what the fleet file says, or NULL */
    day_t today;        /* instead of the clock's, or DAY_NONE */
};

/*
 * Serve the feeds and keep them up to date, until SIGTERM or SIGINT.  Returns 0
 * then, or -1 with @f set when it cannot begin.
 */
int daemon_run(const struct daemon_options *o, struct fault *f);

#endif
