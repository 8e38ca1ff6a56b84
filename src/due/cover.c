#include "cover.h"

#include <stdlib.h>

struct cover {
    size_t n;
    unsigned char counts[]; /* n rows of n: row wanted, column done */
};

/* Mark @job and all it covers in the column of @done.  What is marked already
 * is not gone into again, so even a loop ends. */
static void
mark(struct cover *c, size_t done, const struct job *job)
{
    unsigned char *cell = &c->counts[job->index * c->n + done];

    if (*cell)
        return;
    *cell = 1;
    for (size_t i = 0; i < job->n_covers; i++)
        mark(c, done, job->covers[i]);
}

struct cover *
cover_new(const struct fleet *f)
{
    struct cover *c = calloc(1, sizeof *c + f->n_jobs * f->n_jobs);

    if (c == NULL)
        return NULL;
    c->n = f->n_jobs;
    for (size_t i = 0; i < f->n_jobs; i++)
        mark(c, i, &f->jobs[i]);
    return c;
}

void
cover_free(struct cover *c)
{
    free(c);
}

const unsigned char *
cover_by(const struct cover *c, const struct job *wanted)
{
    return &c->counts[wanted->index * c->n];
}
