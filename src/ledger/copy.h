#ifndef COPY_H
#define COPY_H

#include "chain.h"

/*
 * Steps of backing up and restoring.  For this layer only; 0, or -1 with the
 * fault set.
 */

/* The ledger at @path, which must be there, for reading; NULL on failure. */
struct ledger *copy_open(const char *path, struct fault *f);

/* Nonzero when the two paths lead to one file. */
int copy_same_file(const char *path, const char *other);

/* Check the pages, the references and the chain of @l. */
int copy_check(struct ledger *l, struct chain *chain, struct fault *f);

/*
 * Copy @l into the file @to, over whatever SQLite file is there, with the
 * permissions of the file @like, and check what is there then.  On failure @to
 * is gone.
 */
int copy_make(struct ledger *l, const char *to, const char *like,
    struct chain *chain, struct fault *f);

/* Put the file @copy, on the disk, in the place of @path; or it is gone. */
int copy_place(const char *copy, const char *path, struct fault *f);

/* @path with @suffix behind it, to be freed; NULL when memory is out. */
char *copy_name(const char *path, const char *suffix, struct fault *f);

#endif
