#include "arguments.h"
#include "buf.h"
#include "records.h"

#include <sysexits.h>

static const struct option_row rows[] = {
    {"on", 0, "DAY", "the day it was read, 2026-12-02 or today"},
    {"hours", 0, NULL, "running hours; so taken where only hours count"},
    {"new-meter", 0, NULL, "the meter was replaced, and this is the new one's"},
    {"old-meter", 0, "N", "with --new-meter: what the old one showed at last"},
    {"by", 0, "NAME", "who read it"},
    {"note", 0, "TEXT", "anything worth keeping"},
    ARGUMENT_SURE,
    {NULL, 0, NULL, NULL},
};

static int
read_record(struct invocation *i, const struct run_context *p, struct record *r)
{
    const struct subject *s =
        argument_subject(i, p, options_operand(&i->options, 0));
    int fitted = options_value(&i->options, "new-meter") != NULL;
    struct record_input e = argument_input(i, p);

    if (s == NULL)
        return -1;
    if (options_value(&i->options, "old-meter") != NULL && !fitted)
        return fault_set(&i->fault, EX_USAGE,
            "--old-meter goes with --new-meter: it is what the old one showed "
            "at last");
    int hours = options_value(&i->options, "hours") != NULL;
    *r = (struct record){
        .kind = fitted ? RECORD_REPLACED : RECORD_READING,
        .meter = hours ? METER_HOURS : record_input_meter(run_fleet(p), s),
        .subject = s,
        .subject_id = s->id,
        .day = argument_day(i, p, "on", 1),
        .until = DAY_NONE,
    };
    if (r->day == DAY_NONE || argument_record(i, p, r) ||
        record_input_check_day(&e, r))
        return -1;
    r->other_unit = record_input_other_unit(r);
    r->reading =
        argument_number(i, "the reading", options_operand(&i->options, 1));
    return r->reading < 0 ? -1 : record_input_check_reading(&e, r);
}

/* The last reading of the meter that @fitted replaces, when it is told.  It is
 * held against the others as any reading: 1 with @out set, 0 or -1. */
static int
read_old(struct invocation *i, const struct run_context *p,
    const struct record *fitted, struct record *out)
{
    const char *old = options_value(&i->options, "old-meter");
    struct record_input e = argument_input(i, p);

    if (old == NULL)
        return 0;
    *out = *fitted;
    out->kind = RECORD_READING;
    out->reading = argument_number(i, "--old-meter", old);
    /* On the day of a new unit it is the new meter that counts it. */
    out->other_unit = fitted->subject->unit_since != DAY_NONE &&
                      fitted->day <= fitted->subject->unit_since;
    return out->reading < 0 || record_input_check_reading(&e, out) ? -1 : 1;
}

/* What was not read of the old meter is estimated: say so. */
static int
note_gap(
    struct invocation *i, const struct run_context *p, const struct record *r)
{
    struct known_reading before;
    struct known_reading after;
    char day[DAY_WORDS];

    if (records_readings_around(run_ledger(p), r->subject_id, r->meter, r->day,
            &before, &after, &i->fault))
        return -1;
    if (before.found && before.day < r->day)
        buf_print(i->notes,
            "the old meter was last read on %s; what it counted since is "
            "estimated.  If you know it, void this record and add --old-meter "
            "N\n",
            day_words(before.day, day));
    return 0;
}

static int
add(struct invocation *i, const struct run_context *p, const struct record *r)
{
    int64_t id;
    char day[DAY_WORDS];

    if (records_add(run_ledger(p), r, &id, &i->fault))
        return -1;
    buf_print(i->out, "record %lld: %s%s showed %lld %s on %s\n", (long long)id,
        r->kind == RECORD_REPLACED ? "the new meter of " : "", r->subject->id,
        (long long)r->reading, record_unit_word(r), day_words(r->day, day));
    return 0;
}

/* Both meters of one change, or neither. */
static int
add_both(struct invocation *i, const struct run_context *p,
    const struct record *old, const struct record *fitted)
{
    if (ledger_begin(run_ledger(p), &i->fault))
        return -1;
    if (add(i, p, old) == 0 && add(i, p, fitted) == 0)
        return ledger_commit(run_ledger(p), &i->fault);
    ledger_rollback(run_ledger(p));
    return -1;
}

static int
read_and_add(struct invocation *i, const struct run_context *p)
{
    struct record r;
    struct record old;

    if (read_record(i, p, &r))
        return -1;
    int has_old = read_old(i, p, &r, &old);
    if (has_old != 0)
        return has_old < 0 ? -1 : add_both(i, p, &old, &r);
    if (r.kind == RECORD_REPLACED && note_gap(i, p, &r))
        return -1;
    return add(i, p, &r);
}

static int
run(struct invocation *i)
{
    struct run_context *p = command_run(i, LEDGER_WRITE, RUN_LATER, 0);
    int rc = p != NULL ? read_and_add(i, p) : -1;

    run_close(p);
    return rc;
}

const struct command cmd_reading = {
    .name = "reading",
    .operands = "SUBJECT VALUE",
    .least = 2,
    .most = 2,
    .summary = "Record what the odometer, or the hour meter, showed.",
    .options = rows,
    .run = run,
};
