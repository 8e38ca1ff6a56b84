#include "arguments.h"
#include "buf.h"
#include "defect_events.h"
#include "records.h"

#include <sysexits.h>

static const struct option_row rows[] = {
    {"from", 0, "DAY", "the first day off the road"},
    {"until", 0, "DAY", "the last day off the road; it may be still to come"},
    {"by", 0, "NAME", "who says so"},
    {"note", 0, "TEXT", "why"},
    ARGUMENT_SURE,
    {NULL, 0, NULL, NULL},
};

/* The spell of @s that has no end yet, or NULL. */
static const struct record *
open_spell(const struct run_context *p, const struct subject *s)
{
    const struct facts *all = run_facts(p);

    for (size_t k = all->first[s->index]; k < all->first[s->index + 1]; k++)
        if (all->records[k].kind == RECORD_OFF_ROAD &&
            all->records[k].until == DAY_NONE)
            return &all->records[k];
    return NULL;
}

/* --until alone ends the spell that is open; --from begins a new one. */
static int
read_days(struct invocation *i, const struct run_context *p,
    const struct record *open, struct record *r)
{
    int begins = options_value(&i->options, "from") != NULL;
    int ends = options_value(&i->options, "until") != NULL;

    if (!begins && !ends)
        return fault_set(&i->fault, EX_USAGE,
            "--from DAY begins a spell off the road, --until DAY ends it; "
            "give one or both");
    if (begins && open != NULL)
        return fault_set(&i->fault, EX_DATAERR,
            "%s is off the road already (record %lld); end that first: ostler "
            "off-road %s --until DAY",
            r->subject->id, (long long)open->id, r->subject->id);
    if (!begins && open == NULL)
        return fault_set(&i->fault, EX_DATAERR,
            "%s is not off the road, so there is nothing to end; begin with "
            "--from DAY",
            r->subject->id);
    r->day = begins ? argument_day(i, p, "from", 1) : open->day;
    r->until = argument_day(i, p, "until", 0);
    if (r->day == DAY_NONE || (ends && r->until == DAY_NONE))
        return -1;
    if (ends && r->until < r->day)
        return fault_set(
            &i->fault, EX_DATAERR, "--until is before the spell begins");
    return 0;
}

/* Back on the road: what was found and done is on record, and an open defect
 * that stops @s on its return takes somebody who says that it returns all the
 * same. */
static int
check_return(
    struct invocation *i, const struct run_context *p, const struct record *r)
{
    const struct defect *d = NULL;

    if (r->note == NULL)
        return fault_set(&i->fault, EX_USAGE,
            "--note TEXT is missing: %s comes back on the road, so say what "
            "was found and done",
            r->subject->id);
    if (options_value(&i->options, "sure") != NULL && r->by != NULL)
        return 0;
    struct defects *ds = defect_events_fold(p, &i->fault);
    if (ds == NULL)
        return -1;
    while ((d = defects_open_on(ds, r->subject, d)) != NULL &&
           !defect_stops(d, day_later(r->until, run_moment(p).today)))
        ;
    if (d != NULL)
        fault_fill(&i->fault, EX_DATAERR,
            "defect %lld, %s %s, is open and stops %s; have it released "
            "first, or add --sure and --by NAME",
            (long long)d->number, d->subject_id, d->item, r->subject->id);
    defects_free(ds);
    return d != NULL ? -1 : 0;
}

static int
add(struct invocation *i, const struct run_context *p)
{
    const struct subject *s =
        argument_subject(i, p, options_operand(&i->options, 0));
    int64_t id;
    char from[DAY_WORDS];
    char until[DAY_WORDS];

    if (s == NULL)
        return -1;
    const struct record *open = open_spell(p, s);
    struct record_input e = argument_input(i, p);
    struct record r = {.kind = RECORD_OFF_ROAD,
        .subject = s,
        .subject_id = s->id,
        .reading = -1};
    if (argument_record(i, p, &r) || read_days(i, p, open, &r) ||
        record_input_check_existed(&e, &r, r.day))
        return -1;
    if (open != NULL && check_return(i, p, &r))
        return -1;
    if (open != NULL && open->note != NULL) {
        struct buf *both = buf_new();
        if (both != NULL)
            buf_print(both, "%s; back: %s", open->note, r.note);
        r.note = both ? arena_text(run_arena(p), buf_str(both), buf_len(both))
                      : NULL;
        buf_free(both);
        if (r.note == NULL)
            return fault_set(&i->fault, EX_OSERR, "out of memory");
    }
    int rc = open ? records_replace(run_ledger(p), open->id, &r, &id, &i->fault)
                  : records_add(run_ledger(p), &r, &id, &i->fault);
    if (rc)
        return -1;
    buf_print(i->out, "record %lld: %s is off the road from %s %s%s\n",
        (long long)id, s->id, day_words(r.day, from),
        r.until == DAY_NONE ? "until its return is recorded" : "to ",
        r.until == DAY_NONE ? "" : day_words(r.until, until));
    return 0;
}

static int
run(struct invocation *i)
{
    struct run_context *p = command_run(i, LEDGER_WRITE, RUN_NEEDED, 0);
    int rc = p != NULL ? add(i, p) : -1;

    run_close(p);
    return rc;
}

const struct command cmd_off_road = {
    .name = "off-road",
    .operands = "SUBJECT",
    .least = 1,
    .most = 1,
    .summary = "Record a spell off the road, or its end.",
    .options = rows,
    .run = run,
};
