#ifndef NOTIFY_H
#define NOTIFY_H

/*
 * What a service manager is told: sd_notify(3), by its protocol alone.  Under
 * anything else nobody is told and nothing happens.
 */

/* Send @state, lines such as "READY=1\nSTATUS=...". */
void notify(const char *state);

/* Send "STATUS=" and a formatted line. */
void notify_status(const char *format, ...)
    __attribute__((format(printf, 1, 2)));

/* How often the watchdog is to hear of us, in milliseconds: half the time it
 * waits; -1 when there is none. */
int notify_interval(void);

#endif
