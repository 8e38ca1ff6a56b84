#ifndef CONFIG_H
#define CONFIG_H

#include "fleet.h"
#include "problem.h"

/* A fleet read from its file; it owns everything in it. */
struct config;

struct config_options {
    const char *const *transports; /* the ways to send mail, NULL-ended; what
                                      each takes is a path */
};

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

/* Free @c; NULL is ignored. */
void config_free(struct config *c);

#endif
