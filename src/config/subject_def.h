#ifndef SUBJECT_DEF_H
#define SUBJECT_DEF_H

#include "load_context.h"

/* Read the section of a type or a subject into its holder. */
void subject_def_read(struct load_context *r, struct section *s);

/* Give @h one more job, for which its list has room; one that its type has
 * already is a warning at @e. */
void subject_def_add_job(struct load_context *r, struct subject_def *h,
    struct entry *e, const struct job *job);

/* Nonzero when the section, or that of its type, has @key. */
int subject_def_states(const struct subject_def *h, const char *key);

#endif
