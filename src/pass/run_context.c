#include "run_context.h"

#include "arena.h"
#include "condition.h"
#include "config.h"
#include "fleet_plan.h"
#include "records.h"
#include "snapshot.h"
#include "transport.h"

#include <assert.h>
#include <stdlib.h>
#include <string.h>
#include <sysexits.h>

/* More ways to send mail than there will ever be. */
#define TRANSPORTS_MOST 16

struct run_context {
    struct run_options options;
    struct config *config;
    const struct fleet *fleet;
    struct moment moment;
    struct ledger *ledger;
    struct arena *arena;
    int history;
    struct facts facts;
    struct run_made *made; /* in the arena */
};

static int
read_fleet(struct run_context *p, const struct run_options *o,
    struct problems *problems, struct fault *f)
{
    struct config_transport transports[TRANSPORTS_MOST];
    struct config_options options = {.transports = transports};
    const struct transport *t;

    while (options.n_transports < TRANSPORTS_MOST &&
           (t = transport_at(options.n_transports)) != NULL)
        transports[options.n_transports++] =
            (struct config_transport){t->name, t->form, t->takes_server};
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
read_clock(struct run_context *p, const struct run_options *o, struct fault *f)
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
    if (ps == NULL)
        return;
    problems_add(ps, PROBLEM_WARNING, (struct place){0, 0},
        "record %lld says that %s is carried by %s, which cannot be; correct "
        "the fleet file, or void the record",
        (long long)k->id, k->subject_id, k->other_id);
}

/* Equipment goes back to where the fleet file has it, which was possible. */
static void
undo_moves(struct run_context *p)
{
    for (size_t s = 0; s < p->fleet->n_subjects; s++) {
        const struct subject *x = &p->fleet->subjects[s];
        if (x->carrier != x->first_carrier)
            (void)config_move(p->config, x, x->first_carrier);
    }
}

/* Follow the moves of equipment up to today, in the order of day and entry. */
static void
follow_moves(struct run_context *p, struct problems *ps)
{
    undo_moves(p);
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

/* A meter that counts another unit may have been fitted on the day itself: what
 * was entered before it was still read of the old one. */
static int
is_replaced_later(const struct record *list, size_t n, const struct record *r)
{
    for (size_t i = 0; i < n; i++) {
        const struct record *k = &list[i];
        if (k->kind == RECORD_REPLACED && k->meter == METER_DISTANCE &&
            k->subject == r->subject && k->day == r->day && k->id > r->id &&
            k->voided_by == 0)
            return 1;
    }
    return 0;
}

/* Note which distances were read in a unit that is the odometer's no more. */
static void
mark_units(struct record *list, size_t n)
{
    for (size_t i = 0; i < n; i++) {
        struct record *r = &list[i];
        day_t since = r->subject ? r->subject->unit_since : DAY_NONE;
        if (since != DAY_NONE && r->meter == METER_DISTANCE)
            r->other_unit = r->day < since ||
                            (r->day == since && is_replaced_later(list, n, r));
    }
}

/* Records that stand, in an order of their own, for the calculator. */
static struct record *
standing(const struct run_context *p, size_t *n)
{
    const struct run_made *m = p->made;
    struct record *list = arena_take(p->arena, m->n_records * sizeof *list);

    *n = 0;
    for (size_t i = 0; list != NULL && i < m->n_records; i++)
        if (m->records[i].voided_by == 0)
            list[(*n)++] = m->records[i];
    return list;
}

static int
read_records(struct run_context *p, const struct task *only,
    struct record **facts, size_t *n, struct fault *f)
{
    if (!p->history) {
        if (records_needed(p->ledger, p->fleet, only, p->arena, facts, n, f))
            return -1;
        mark_units(*facts, *n);
        return 0;
    }
    struct record *all;
    if (records_read(
            p->ledger, p->fleet, p->arena, &all, &p->made->n_records, f))
        return -1;
    mark_units(all, p->made->n_records);
    p->made->records = all;
    *facts = standing(p, n);
    return *facts ? 0 : fault_set(f, EX_OSERR, "out of memory");
}

static int
shows_history(const struct fleet *f)
{
    for (size_t i = 0; i < f->n_feeds; i++)
        if (f->feeds[i].history.n > 0)
            return 1;
    return 0;
}

int
run_read(struct run_context *p, const struct task *only,
    struct problems *problems, struct fault *f)
{
    size_t *first =
        arena_take(p->arena, (p->fleet->n_subjects + 1) * sizeof *first);
    struct record *facts;
    size_t n;

    if (first == NULL)
        return fault_set(f, EX_OSERR, "out of memory");
    if (read_records(p, only, &facts, &n, f))
        return -1;
    p->facts = facts_of(p->fleet, facts, n, first);
    p->made->booked = NULL;
    follow_moves(p, problems);
    return 0;
}

/* Whatever a run has but the fleet begins here, and ends with run_rest(). */
static int
begin(struct run_context *p, enum run_reads reads, struct problems *problems,
    struct fault *f)
{
    unsigned serves = p->options.serves;

    p->arena = arena_new();
    p->made = p->arena ? arena_take(p->arena, sizeof *p->made) : NULL;
    if (p->made == NULL)
        return fault_set(f, EX_OSERR, "out of memory");
    *p->made = (struct run_made){.serves = serves};
    if (read_clock(p, &p->options, f))
        return -1;
    if (reads == RUN_FLEET)
        return 0;
    p->history =
        reads == RUN_HISTORY ||
        (reads == RUN_NEEDED && serves & RUN_FEEDS && shows_history(p->fleet));
    p->ledger = ledger_open(p->fleet->site.ledger, p->options.ledger, f);
    if (p->ledger == NULL)
        return -1;
    return reads == RUN_LATER ? 0 : run_read(p, NULL, problems, f);
}

struct run_context *
run_open(const struct run_options *options, struct problems *problems,
    struct fault *f)
{
    struct run_context *p = calloc(1, sizeof *p);

    if (p == NULL) {
        fault_fill(f, EX_OSERR, "out of memory");
        return NULL;
    }
    p->options = *options;
    if (read_fleet(p, options, problems, f) == 0 &&
        begin(p, options->reads, problems, f) == 0)
        return p;
    run_close(p);
    return NULL;
}

void
run_close(struct run_context *p)
{
    if (p == NULL)
        return;
    run_rest(p);
    config_free(p->config);
    free(p);
}

void
run_rest(struct run_context *p)
{
    if (p->made != NULL) {
        conditions_free(p->made->conditions);
        defects_free(p->made->defects);
        snapshot_free(p->made->dues);
        fleet_plan_free(p->made->plan);
    }
    ledger_close(p->ledger);
    arena_free(p->arena);
    p->made = NULL;
    p->ledger = NULL;
    p->arena = NULL;
    p->facts = (struct facts){0};
}

int
run_again(struct run_context *p, enum run_reads reads,
    struct problems *problems, struct fault *f)
{
    run_rest(p);
    if (begin(p, reads, problems, f) == 0)
        return 0;
    run_rest(p);
    return -1;
}

const struct fleet *
run_fleet(const struct run_context *p)
{
    return p->fleet;
}

struct moment
run_moment(const struct run_context *p)
{
    return p->moment;
}

struct ledger *
run_ledger(const struct run_context *p)
{
    return p->ledger;
}

struct arena *
run_arena(const struct run_context *p)
{
    return p->arena;
}

const struct facts *
run_facts(const struct run_context *p)
{
    assert(p->facts.first != NULL); /* they were read */
    return &p->facts;
}

struct run_made *
run_made(const struct run_context *p)
{
    return p->made;
}

struct config *
run_config(const struct run_context *p)
{
    return p->config;
}
