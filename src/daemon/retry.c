#include "retry.h"

/* How long to wait before what failed is tried again, in seconds: while another
 * process is in the way, and else. */
#define SOON 1
#define LATER 60

/* How long before mail is sent again, even when all of it was new. */
#define PAUSE 5

/* For how long, in seconds, that is no trouble. */
#define LASTS 600

struct retry
retry_nothing(void)
{
    return (struct retry){.again = TIMING_NEVER, .failing = TIMING_NEVER};
}

int
retry_failed(struct retry *r, int passes, int64_t now)
{
    r->again = now + (passes ? SOON : LATER);
    if (r->failing > now) /* NEVER, or the clock was set back */
        r->failing = now;
    return !passes || now - r->failing > LASTS;
}

void
retry_went_well(struct retry *r, int but_some, int64_t now)
{
    r->again = but_some ? now + LATER : TIMING_NEVER;
    r->failing = TIMING_NEVER;
}

void
retry_mail(struct retry *r, int failed, int64_t now)
{
    r->mail = now + (failed ? LATER : PAUSE);
}

/* Nonzero when @when is to be waited for.  A clock that was set back makes no
 * wait longer. */
static int
is_ahead(int64_t when, int64_t now)
{
    return when > now && when - now <= LATER;
}

unsigned
retry_due(const struct retry *r, unsigned due, int64_t now)
{
    if (is_ahead(r->again, now))
        due &= WORK_SEND;
    else if (r->again != TIMING_NEVER)
        due |= WORK_PASS;
    if (is_ahead(r->mail, now))
        due &= ~(unsigned)WORK_SEND;
    return due;
}

int64_t
retry_next(const struct retry *r, int64_t next, int64_t now)
{
    if (is_ahead(r->again, now) && r->again < next)
        next = r->again;
    if (is_ahead(r->mail, now) && r->mail < next)
        next = r->mail;
    return next;
}
