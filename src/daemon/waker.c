#include "waker.h"

#include "log.h"
#include "timing.h"

#include <errno.h>
#include <sys/timerfd.h>
#include <unistd.h>

int
waker_open(void)
{
    return timerfd_create(CLOCK_REALTIME, TFD_CLOEXEC | TFD_NONBLOCK);
}

void
waker_set(int waker, int64_t when)
{
    const struct itimerspec at = {
        .it_value.tv_sec = when == TIMING_NEVER ? 0 : when};

    (void)timerfd_settime(
        waker, TFD_TIMER_ABSTIME | TFD_TIMER_CANCEL_ON_SET, &at, NULL);
}

void
waker_look(int waker)
{
    uint64_t times;

    if (read(waker, &times, sizeof times) < 0 && errno == ECANCELED)
        log_line(LOG_INFO, "the clock was set");
}
