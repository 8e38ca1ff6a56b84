#ifndef ROUNDS_H
#define ROUNDS_H

#include "fleet_file.h"
#include "timing.h"

struct http_request;
struct resource;
struct shelf;

/*
 * The rounds that the daemon makes: it reads what has changed, publishes, tells
 * people, and keeps what there is to show.  Between two rounds the fleet is
 * all that it holds.  A fleet file that is wrong leaves the fleet as it was.
 */
struct rounds;

struct rounds_options {
    struct fleet_source from;
    void (*show)(void *with); /* called when rounds_shelf() has something new */
    void *with;
};

/* Read the fleet file for the first time.  NULL with @f set when it cannot be
 * used, all that is wrong with it in the log.  Free with rounds_free(). */
struct rounds *rounds_start(const struct rounds_options *o, struct fault *f);

/* Free @r; NULL is ignored. */
void rounds_free(struct rounds *r);

/* The pass, which rests. */
struct pass *rounds_pass(const struct rounds *r);

/* Do @work, as bits of enum timed_work, but for sending.  What fails is logged
 * when it is news, and tried again.  Returns the work that has come up
 * meanwhile. */
unsigned rounds_go(struct rounds *r, unsigned work);

/* Why there is nothing to serve, or NULL when there is something. */
const struct fault *rounds_fault(const struct rounds *r);

/* What is to be served from now on; NULL when memory is out. */
struct shelf *rounds_shelf(const struct rounds *r);

/* Record what a form says that was posted to a page; the round that shows it is
 * still to be made.  Returns what to answer; NULL when memory is out. */
struct resource *rounds_take(struct rounds *r, const struct http_request *form);

/* What is to be done at @now, and when there is more.  With a fixed day,
 * nothing ever. */
unsigned rounds_due(const struct rounds *r, int64_t now);
int64_t rounds_next(const struct rounds *r, int64_t now);

/* Mail is being sent: it need not begin again at once. */
void rounds_sending(struct rounds *r);

/* What became of that, a code of 0 for all is well; what is wrong is logged. */
void rounds_sent(struct rounds *r, const struct fault *f);

/* One line on how things stand. */
void rounds_describe(const struct rounds *r, char *out, size_t size);

#endif
