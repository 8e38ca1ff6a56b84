#ifndef HOLDER_H
#define HOLDER_H

#include "load_context.h"

/* Read the section of a type or a subject into its holder. */
void holder_read(struct load_context *r, struct section *s);

/* Give @h one more job, for which its list has room; one that its type has
 * already is a warning at @e. */
void holder_add_job(struct load_context *r, struct holder *h, struct entry *e,
    const struct job *job);

/* Nonzero when the section, or that of its type, has @key. */
int holder_states(const struct holder *h, const char *key);

#endif
