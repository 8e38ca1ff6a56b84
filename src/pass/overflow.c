#include "overflow.h"

#include "buf.h"
#include "select.h"

#include <stdlib.h>

/* As many parts are named as one reads. */
#define NAMED_MOST 6

/* How many dues each part of the fleet has. */
struct feed_parts {
    const char *word; /* "depot" */
    size_t *counts;
    size_t n;
    const char *(*id)(const struct fleet *f, size_t i);
};

static const char *
depot_id(const struct fleet *f, size_t i)
{
    return f->depots[i].id;
}

static const char *
job_id(const struct fleet *f, size_t i)
{
    return f->jobs[i].id;
}

static void
count_depots(const struct fleet *f, const struct contents *c, size_t *counts)
{
    for (size_t i = 0; i < c->n_dues; i++) {
        const struct depot *d = fleet_depot(c->dues[i]->task->subject);
        if (d != NULL)
            counts[d - f->depots]++;
    }
}

static void
count_jobs(const struct contents *c, size_t *counts)
{
    for (size_t i = 0; i < c->n_dues; i++)
        counts[c->dues[i]->task->job->index]++;
}

/* How many parts have dues, and at most @room of them. */
static size_t
count_fitting(const struct feed_parts *p, size_t room)
{
    size_t n = 0;

    for (size_t i = 0; i < p->n; i++)
        n += p->counts[i] > 0 && p->counts[i] <= room;
    return n;
}

static void
name_parts(const struct fleet *f, const struct feed_parts *p, size_t room,
    struct buf *out)
{
    size_t n = 0;

    for (size_t i = 0; i < p->n; i++) {
        if (p->counts[i] == 0 || p->counts[i] > room)
            continue;
        if (n++ == NAMED_MOST) {
            buf_text(out, " and so on");
            return;
        }
        buf_print(out, "%s %s %s (%zu)", n > 1 ? "," : "", p->word, p->id(f, i),
            p->counts[i]);
    }
}

int
overflow_advice(const struct fleet *fleet, const struct contents *c,
    size_t left_out, struct buf *out)
{
    size_t room = c->n_dues - left_out;
    struct feed_parts depots = {"depot",
        calloc(fleet->n_depots + 1, sizeof(size_t)), fleet->n_depots, depot_id};
    struct feed_parts jobs = {"job", calloc(fleet->n_jobs + 1, sizeof(size_t)),
        fleet->n_jobs, job_id};
    char day[DAY_TEXT];
    int rc = depots.counts && jobs.counts ? 0 : -1;

    if (rc == 0) {
        count_depots(fleet, c, depots.counts);
        count_jobs(c, jobs.counts);
        buf_print(out,
            "feed '%s' is full: of %zu dues it has no room for %zu, from %s "
            "on; split it into feeds of",
            c->feed->id, c->n_dues, left_out,
            day_text(select_day(c->dues[room]), day));
        if (count_fitting(&depots, room) > 1)
            name_parts(fleet, &depots, room, out);
        else if (count_fitting(&jobs, room) > 1)
            name_parts(fleet, &jobs, room, out);
        else
            buf_text(out, " single subjects");
        buf_text(out, ", or shorten its horizon");
    }
    free(jobs.counts);
    free(depots.counts);
    return rc || buf_failed(out) ? -1 : 0;
}
