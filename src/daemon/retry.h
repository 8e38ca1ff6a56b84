#ifndef RETRY_H
#define RETRY_H

#include "timing.h"

/*
 * When what failed is tried again.  Like timing.h it holds no timer, and a
 * clock that was set makes no wait longer.
 */
struct retry {
    int64_t again;   /* when what failed is tried again, or NEVER */
    int64_t failing; /* since when every round does, or NEVER */
    int64_t mail;    /* when mail may be sent again */
};

/* Nothing has failed. */
struct retry retry_nothing(void);

/* The round at @now failed, when @passes since another process was in its way.
 * Returns nonzero when it is trouble: that one is not before it lasts. */
int retry_failed(struct retry *r, int passes, int64_t now);

/* The round at @now went well, nonzero @but_some: but for some of what it was
 * to do. */
void retry_went_well(struct retry *r, int but_some, int64_t now);

/* Mail is being sent, at @now, or that has @failed; it need not begin again at
 * once. */
void retry_mail(struct retry *r, int failed, int64_t now);

/* Of the work that is @due at @now by timing.h, what is done now, and what is
 * to be tried again. */
unsigned retry_due(const struct retry *r, unsigned due, int64_t now);

/* When retry_due() may say more: at @next, which timing.h says, or before. */
int64_t retry_next(const struct retry *r, int64_t next, int64_t now);

#endif
