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

/*
 * For each job of the fleet, by its index, whether completing it completes
 * @wanted too; a job covers itself.  Lives as long as @c.
 */
const unsigned char *cover_by(const struct cover *c, const struct job *wanted);

#endif
