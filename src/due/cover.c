#include "cover.h"

#include <stdlib.h>

struct cover {
    size_t n;
    unsigned char counts[]; /* n rows of n: row done, column wanted */
};

/* Mark @job and all it covers in the row of the job we began with.  What is
 * marked already is not gone into again, so even a loop ends. */
static void
mark(struct cover *c, unsigned char *row, const struct job *job)
{
    if (row[job->index])
        return;
    row[job->index] = 1;
    for (size_t i = 0; i < job->n_covers; i++)
        mark(c, row, job->covers[i]);
}

struct cover *
cover_new(const struct fleet *f)
{
    struct cover *c = calloc(1, sizeof *c + f->n_jobs * f->n_jobs);

    if (c == NULL)
        return NULL;
    c->n = f->n_jobs;
    for (size_t i = 0; i < f->n_jobs; i++)
        mark(c, &c->counts[i * c->n], &f->jobs[i]);
    return c;
}

void
cover_free(struct cover *c)
{
    free(c);
}

int
cover_counts(
    const struct cover *c, const struct job *done, const struct job *wanted)
{
    return c->counts[done->index * c->n + wanted->index];
}
