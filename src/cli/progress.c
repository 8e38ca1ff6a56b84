#include "progress.h"

#include <stdio.h>
#include <sys/timerfd.h>
#include <unistd.h>

/* How often the timer is looked at: it costs a system call. */
#define EVERY 256

struct progress
progress_start(const char *of_what)
{
    static const struct itimerspec each_second = {{1, 0}, {1, 0}};
    struct progress p = {.timer = -1, .of_what = of_what};

    if (!isatty(STDERR_FILENO))
        return p;
    /* Without a timer it is merely not shown. */
    p.timer = timerfd_create(CLOCK_MONOTONIC, TFD_NONBLOCK | TFD_CLOEXEC);
    if (p.timer >= 0)
        (void)timerfd_settime(p.timer, 0, &each_second, NULL);
    return p;
}

void
progress_tell(struct progress *p, int64_t done)
{
    uint64_t seconds;

    if (p->timer < 0 || done % EVERY != 0 ||
        read(p->timer, &seconds, sizeof seconds) != sizeof seconds)
        return;
    fprintf(stderr, "\r%lld %s", (long long)done, p->of_what);
    p->shown = 1;
}

void
progress_end(struct progress *p)
{
    if (p->shown)
        fprintf(stderr, "\r%*s\r", 40, "");
    if (p->timer >= 0)
        close(p->timer);
    p->timer = -1;
}
