#ifndef SERVICE_H
#define SERVICE_H

#include "fleet_file.h"
#include "timing.h"

struct http_request;
struct resource;
struct routes;

/*
 * What the daemon does, round after round: it reads what has changed,
 * publishes, reminds people, and keeps what there is to show.  Between two
 * rounds it holds the fleet and nothing else.  A fleet file that is wrong
 * leaves the fleet as it was.
 */
struct service;

struct service_options {
    struct fleet_source from;
    void (*show)(
        void *with); /* called when service_routes() has something new */
    void *with;
};

/* Read the fleet file for the first time.  NULL with @f set when it cannot be
 * used, all that is wrong with it in the log.  Free with service_free(). */
struct service *service_start(const struct service_options *o, struct fault *f);

/* Free @r; NULL is ignored. */
void service_free(struct service *r);

/* The run, which rests. */
struct run_context *service_run(const struct service *r);

/* Do @work, as bits of enum timed_work, but for sending.  What fails is logged
 * when it is news, and tried again.  Returns the work that has come up
 * meanwhile. */
unsigned service_go(struct service *r, unsigned work);

/* Why there is nothing to serve, or NULL when there is something. */
const struct fault *service_fault(const struct service *r);

/* What is to be served from now on; NULL when memory is out. */
struct routes *service_routes(const struct service *r);

/* Record what a form says that was posted to a page; the round that shows it is
 * still to be made.  Returns what to answer; NULL when memory is out. */
struct resource *service_take(
    struct service *r, const struct http_request *form);

/* What is to be done at @now, and when there is more.  With a fixed day,
 * nothing ever. */
unsigned service_due(const struct service *r, int64_t now);
int64_t service_next(const struct service *r, int64_t now);

/* Mail is being sent: it need not begin again at once. */
void service_sending(struct service *r);

/* What became of that, a code of 0 for all is well; what is wrong is logged. */
void service_sent(struct service *r, const struct fault *f);

/* One line on how things stand. */
void service_describe(const struct service *r, char *out, size_t size);

#endif
