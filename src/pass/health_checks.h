#ifndef HEALTH_CHECKS_H
#define HEALTH_CHECKS_H

#include "run_context.h"
#include "snapshot.h"
#include "trouble.h"

struct arena;

/* How long mail may wait before somebody has to know, in seconds: six hours. */
#define HEALTH_MAIL_WAITING 21600

/*
 * What is wrong with the program itself, found in one run, for whoever keeps
 * it.
 */
struct health_checks;

/* Nothing wrong yet, or NULL when memory is out.  Free with
 * health_checks_free(). */
struct health_checks *health_checks_new(void);

/* Free @w; NULL is ignored. */
void health_checks_free(struct health_checks *w);

/* Add one trouble about @about, which is copied, as its sentence is. */
void health_checks_add(struct health_checks *w, const char *about,
    const char *format, ...) __attribute__((format(printf, 3, 4)));

/*
 * Look for what nobody else would notice: holidays that are known for less
 * than eight weeks more, mail that was given up, or has waited for six hours,
 * and no reading for four weeks where there were some and something is due by
 * them.  Returns 0, or -1 with @f set.
 */
int health_checks_look(struct health_checks *w, const struct run_context *p,
    const struct snapshot *s, struct fault *f);

/* All that was found, in the order in which it was, and how many; NULL when
 * memory ran out. */
const struct trouble *health_checks_found(
    const struct health_checks *w, size_t *n);

#endif
