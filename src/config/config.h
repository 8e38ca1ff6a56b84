#ifndef CONFIG_H
#define CONFIG_H

#include "buf.h"
#include "config_options.h"
#include "fleet.h"
#include "problem.h"

/* A fleet read from its file; it owns everything in it. */
struct config;

/*
 * Read the fleet file at @path and what it includes.  All that is wrong, or
 * probably not meant, goes to @ps in one run.  Returns NULL when anything is
 * wrong or memory is out, which is a problem as well.  Free with
 * config_free(); @o may then be gone, @ps too.
 */
struct config *config_read(
    const char *path, const struct config_options *o, struct problems *ps);

/* The fleet; it lives as long as @c. */
const struct fleet *config_fleet(const struct config *c);

/*
 * Append the fleet as it was understood: the site, its calendars, depots, jobs,
 * people and feeds, then each subject with each of its jobs, one key a line:
 * its value and where that comes from.  ostler(1) describes the form.  Returns
 * 0, or -1 when memory is out.
 */
int config_explain(const struct config *c, struct buf *out);

/* Warn of holidays that are known for less than the year after @today; @ps
 * need not be the one that the fleet was read with. */
void config_warn_dates(
    const struct config *c, day_t today, struct problems *ps);

/* Warn of the line that states the deadline, or the first deadline, of @t of
 * this fleet, with its key and @text; nothing when no line does. */
void config_warn_stated(const struct config *c, const struct task *t,
    const char *text, struct problems *ps);

/*
 * A record says that @what is carried by @carrier from now on; both are of this
 * fleet.  Its depot, unless it states its own, and the working days of its jobs
 * follow at once, in the fleet that config_fleet() gives.  Returns 0, or -1 and
 * nothing has changed: @what is no equipment or @carrier no vehicle (so nothing
 * carries itself), a job would be left without working days because @carrier
 * has no depot, or memory is out.  With NULL nobody carries it.
 */
int config_move(struct config *c, const struct subject *what,
    const struct subject *carrier);

/* Free @c; NULL is ignored. */
void config_free(struct config *c);

#endif
