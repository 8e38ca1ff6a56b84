#include "config.h"

#include "arena.h"
#include "build.h"
#include "explain.h"
#include "files.h"
#include "tasks.h"
#include "warnings.h"

#include <stdlib.h>

/* What was read stays, to explain it and to move equipment. */
struct config {
    struct arena *arena;
    struct fleet fleet;
    struct document document;
    struct load_context context;
};

static void
no_memory(struct problems *ps)
{
    problems_add(ps, PROBLEM_ERROR, (struct place){-1, 0}, "out of memory");
}

/* Everything is read even after an error, so that one run tells of all of
 * them. */
static void
read_fleet(struct config *c, const char *path, const struct config_options *o,
    struct problems *ps)
{
    c->document = (struct document){.arena = c->arena, .problems = ps};
    c->context = (struct load_context){.arena = c->arena,
        .document = &c->document,
        .problems = ps,
        .options = o,
        .fleet = &c->fleet};

    if (files_read(&c->document, path) == 0) {
        document_seal(&c->document);
        build_fleet(&c->context, (struct place){problems_file(ps, path), 0});
    }
    if (c->document.out_of_memory)
        problems_add(ps, PROBLEM_ERROR, (struct place){0, 0}, "out of memory");
    /* These two may go before the fleet does. */
    c->document.problems = c->context.problems = NULL;
    c->context.options = NULL;
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

int
config_explain(const struct config *c, struct buf *out)
{
    explain_fleet(&c->context, out);
    return buf_failed(out) ? -1 : 0;
}

void
config_warn_dates(const struct config *c, day_t today, struct problems *ps)
{
    warn_dates(&c->context, today, ps);
}

void
config_warn_stated(const struct config *c, const struct task *t,
    const char *text, struct problems *ps)
{
    warn_stated(&c->context, t, text, ps);
}

int
config_move(
    struct config *c, const struct subject *what, const struct subject *carrier)
{
    return tasks_move(&c->context, what->index, carrier);
}

void
config_free(struct config *c)
{
    if (c == NULL)
        return;
    for (struct made_calendar *m = c->context.calendars; m; m = m->next)
        work_calendar_free(m->calendar);
    arena_free(c->arena);
    free(c);
}
