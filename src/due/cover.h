#ifndef COVER_H
#define COVER_H

#include "fleet.h"

/*
 * Which job's completion counts as which other's: a wider job covers the
 * narrower ones that it names, and theirs.
 */
struct cover;

/* Work it out for all jobs of @f; NULL when memory is out. */
struct cover *cover_new(const struct fleet *f);

/* Free @c; NULL is ignored. */
void cover_free(struct cover *c);

/* Nonzero when completing @done completes @wanted too; a job covers itself. */
int cover_counts(
    const struct cover *c, const struct job *done, const struct job *wanted);

#endif
