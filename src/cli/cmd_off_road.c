#include "arguments.h"
#include "buf.h"
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
    if (r.note == NULL && open != NULL)
        r.note = open->note;
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
