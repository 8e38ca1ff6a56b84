#include "config.h"

#include "arena.h"
#include "build.h"
#include "files.h"

#include <stdlib.h>

struct config {
    struct arena *arena;
    struct fleet fleet;
    struct made_calendar *calendars;
};

static void
no_memory(struct problems *ps)
{
    problems_add(ps, PROBLEM_ERROR, (struct place){-1, 0}, "out of memory");
}

static void
read_fleet(struct config *c, const char *path, const struct config_options *o,
    struct problems *ps)
{
    struct document d = {.arena = c->arena, .problems = ps};
    struct reading r = {.arena = c->arena,
        .document = &d,
        .problems = ps,
        .options = o,
        .fleet = &c->fleet};

    if (files_read(&d, path) == 0) {
        document_seal(&d);
        build_fleet(&r, (struct place){problems_file(ps, path), 0});
    }
    c->calendars = r.calendars;
    if (d.out_of_memory)
        problems_add(ps, PROBLEM_ERROR, (struct place){0, 0}, "out of memory");
}

struct config *
config_read(
    const char *path, const struct config_options *o, struct problems *ps)
{
    struct config *c = calloc(1, sizeof *c);

    if (c == NULL || (c->arena = arena_new()) == NULL) {
        no_memory(ps);
        goto err;
    }
    read_fleet(c, path, o, ps);
    if (problems_count(ps, PROBLEM_ERROR) > 0)
        goto err;
    return c;
err:
    config_free(c);
    return NULL;
}

const struct fleet *
config_fleet(const struct config *c)
{
    return &c->fleet;
}

void
config_free(struct config *c)
{
    if (c == NULL)
        return;
    for (struct made_calendar *m = c->calendars; m != NULL; m = m->next)
        workcal_free(m->calendar);
    arena_free(c->arena);
    free(c);
}
