#include "standing.h"

#include "arena.h"
#include "lookup.h"
#include "records.h"

#include <stdlib.h>
#include <sysexits.h>

struct standing_names {
    const struct fleet *fleet;
    struct lookup *subjects;
    struct lookup *jobs;
};

struct standing_names *
standing_names(const struct fleet *f)
{
    struct standing_names *n = calloc(1, sizeof *n);

    if (n == NULL)
        return NULL;
    n->fleet = f;
    n->subjects = lookup_new(f->n_subjects);
    n->jobs = lookup_new(f->n_jobs);
    if (n->subjects == NULL || n->jobs == NULL) {
        standing_names_free(n);
        return NULL;
    }
    for (size_t i = 0; i < f->n_subjects; i++)
        lookup_add(n->subjects, f->subjects[i].id, &f->subjects[i]);
    for (size_t i = 0; i < f->n_jobs; i++)
        lookup_add(n->jobs, f->jobs[i].id, &f->jobs[i]);
    return n;
}

void
standing_names_free(struct standing_names *n)
{
    if (n == NULL)
        return;
    lookup_free(n->subjects);
    lookup_free(n->jobs);
    free(n);
}

const struct task *
standing_task(
    const struct standing_names *n, const char *subject, const char *job)
{
    const struct subject *s = lookup_find(n->subjects, subject);
    const struct job *j = lookup_find(n->jobs, job);

    return s && j ? fleet_task(n->fleet, s, j) : NULL;
}

static int
by_task(const void *left, const void *right)
{
    const struct booked *a = left;
    const struct booked *b = right;

    if (a->task != b->task)
        return a->task < b->task ? -1 : 1;
    return (a->id > b->id) - (a->id < b->id);
}

static size_t
take(const struct fleet *f, const struct record *rows, size_t n_rows,
    struct booked *out)
{
    size_t n = 0;

    for (size_t i = 0; i < n_rows; i++) {
        const struct record *r = &rows[i];
        const struct task *t =
            r->subject && r->job ? fleet_task(f, r->subject, r->job) : NULL;
        if (t != NULL)
            out[n++] = (struct booked){t, r->day, r->id, r->entered,
                record_text(r, "cycle"), r->by, r->note};
    }
    if (n > 1)
        qsort(out, n, sizeof *out, by_task);
    return n;
}

struct booked *
standing_bookings(const struct run_context *p, size_t *n, struct fault *f)
{
    struct record *rows;
    size_t n_rows;

    if (records_standing(run_ledger(p), run_fleet(p), RECORD_BIT(RECORD_BOOKED),
            NULL, run_arena(p), &rows, &n_rows, f))
        return NULL;
    struct booked *out = arena_take(run_arena(p), (n_rows + 1) * sizeof *out);
    if (out != NULL)
        *n = take(run_fleet(p), rows, n_rows, out);
    else
        fault_fill(f, EX_OSERR, "out of memory");
    return out;
}
