#include "pass.h"

#include "arena.h"
#include "config.h"
#include "planning.h"
#include "records.h"
#include "transport.h"

#include <stdlib.h>
#include <string.h>
#include <sysexits.h>

/* More ways to send mail than there will ever be. */
#define TRANSPORTS_MOST 16

struct pass {
    struct config *config;
    const struct fleet *fleet;
    struct moment moment;
    struct ledger *ledger;
    struct arena *arena;
    struct record *records; /* in the order of entry */
    size_t n_records;
    struct facts facts;
};

static int
read_fleet(struct pass *p, const struct pass_options *o,
    struct problems *problems, struct fault *f)
{
    const char *transports[TRANSPORTS_MOST + 1] = {NULL};
    struct config_options options = {.transports = transports};

    for (size_t i = 0; i < TRANSPORTS_MOST && transport_at(i) != NULL; i++)
        transports[i] = transport_at(i)->name;
    p->config = config_read(o->fleet_file, &options, problems);
    if (p->config == NULL)
        return fault_set(f, EX_CONFIG,
            "%s: the fleet file has errors and nothing was done; mend them, "
            "or name another with -c FILE",
            o->fleet_file);
    p->fleet = config_fleet(p->config);
    return 0;
}

static int
read_clock(struct pass *p, const struct pass_options *o, struct fault *f)
{
    if (o->today == DAY_NONE)
        return clock_read(p->fleet->site.time_zone, &p->moment, f);
    p->moment = clock_fixed(o->today);
    return 0;
}

/* A move of what the fleet file has no more, or cannot carry: said in check
 * and not followed. */
static void
say_not_followed(struct problems *ps, const struct record *k)
{
    problems_add(ps, PROBLEM_WARNING, (struct place){0, 0},
        "record %lld says that %s is carried by %s, which cannot be; correct "
        "the fleet file, or void the record",
        (long long)k->id, k->subject_id, k->other_id);
}

/* Follow the moves of equipment up to today, in the order of day and entry. */
static void
follow_moves(struct pass *p, struct problems *ps)
{
    for (size_t s = 0; s < p->fleet->n_subjects; s++)
        for (size_t i = p->facts.first[s]; i < p->facts.first[s + 1]; i++) {
            const struct record *k = &p->facts.records[i];
            if (k->kind != RECORD_MOVED || k->day > p->moment.today)
                continue;
            if (k->other == NULL ||
                config_move(p->config, k->subject, k->other))
                say_not_followed(ps, k);
        }
}

/* Records that stand, in an order of their own, for the calculator. */
static int
keep_facts(struct pass *p)
{
    struct record *standing =
        arena_take(p->arena, p->n_records * sizeof *standing);
    size_t *first =
        arena_take(p->arena, (p->fleet->n_subjects + 1) * sizeof *first);
    size_t n = 0;

    if (standing == NULL || first == NULL)
        return -1;
    for (size_t i = 0; i < p->n_records; i++)
        if (p->records[i].voided_by == 0)
            standing[n++] = p->records[i];
    p->facts = facts_of(p->fleet, standing, n, first);
    return 0;
}

static int
read_ledger(struct pass *p, const struct pass_options *o, struct fault *f)
{
    p->ledger = ledger_open(p->fleet->site.ledger, o->ledger, f);
    if (p->ledger == NULL)
        return -1;
    if (records_read(
            p->ledger, p->fleet, p->arena, &p->records, &p->n_records, f))
        return -1;
    if (keep_facts(p))
        return fault_set(f, EX_OSERR, "out of memory");
    return 0;
}

struct pass *
pass_open(const struct pass_options *options, struct problems *problems,
    struct fault *f)
{
    struct pass *p = calloc(1, sizeof *p);

    if (p == NULL)
        goto no_memory;
    p->arena = arena_new();
    if (p->arena == NULL)
        goto no_memory;
    if (read_fleet(p, options, problems, f) || read_clock(p, options, f))
        goto err;
    if (!options->fleet_only && read_ledger(p, options, f))
        goto err;
    if (!options->fleet_only)
        follow_moves(p, problems);
    return p;
no_memory:
    fault_fill(f, EX_OSERR, "out of memory");
err:
    pass_close(p);
    return NULL;
}

void
pass_close(struct pass *p)
{
    if (p == NULL)
        return;
    ledger_close(p->ledger);
    arena_free(p->arena);
    config_free(p->config);
    free(p);
}

const struct fleet *
pass_fleet(const struct pass *p)
{
    return p->fleet;
}

struct moment
pass_moment(const struct pass *p)
{
    return p->moment;
}

struct ledger *
pass_ledger(const struct pass *p)
{
    return p->ledger;
}

struct arena *
pass_arena(const struct pass *p)
{
    return p->arena;
}

const struct record *
pass_records(const struct pass *p, size_t *n)
{
    *n = p->n_records;
    return p->records;
}

const struct facts *
pass_facts(const struct pass *p)
{
    return &p->facts;
}

struct snapshot *
pass_snapshot(const struct pass *p, day_t horizon, struct fault *f)
{
    struct snapshot_options options = {
        .today = p->moment.today, .horizon = horizon, .reasons = 1};
    if (p->fleet->site.planner)
        return planning_snapshot(p, options, f);
    struct snapshot *s = snapshot_new(&p->facts, &options);

    if (s == NULL)
        fault_fill(f, EX_OSERR, "out of memory");
    return s;
}

void
pass_warn(const struct pass *p, struct problems *ps)
{
    config_warn_dates(p->config, p->moment.today, ps);
}

int
pass_explain(const struct pass *p, struct buf *out, struct fault *f)
{
    if (config_explain(p->config, out))
        return fault_set(f, EX_OSERR, "out of memory");
    return 0;
}
