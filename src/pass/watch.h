#ifndef WATCH_H
#define WATCH_H

#include "run_context.h"
#include "trouble.h"

struct arena;

/* How long mail may wait before somebody has to know, in seconds: six hours. */
#define WATCH_MAIL_WAITING 21600

/*
 * What is wrong with the pass itself, found in one run, for whoever keeps it.
 */
struct watch;

/* Nothing wrong yet, or NULL when memory is out.  Free with watch_free(). */
struct watch *watch_new(void);

/* Free @w; NULL is ignored. */
void watch_free(struct watch *w);

/* Add one trouble about @about, which is copied, as its sentence is. */
void watch_add(struct watch *w, const char *about, const char *format, ...)
    __attribute__((format(printf, 3, 4)));

/*
 * Look for what nobody else would notice: holidays that are known for less
 * than eight weeks more, mail that was given up, or has waited for six hours,
 * and no reading for four weeks where there were some and something is due by
 * them.  Returns 0, or -1 with @f set.
 */
int watch_look(struct watch *w, const struct run_context *p,
    const struct snapshot *s, struct fault *f);

/* All that was found, in the order in which it was, and how many; NULL when
 * memory ran out. */
const struct trouble *watch_found(const struct watch *w, size_t *n);

#endif
