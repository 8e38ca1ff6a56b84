#include "arguments.h"
#include "defect_input.h"

#include <sysexits.h>

static const struct option_row rows[] = {
    {"on", 0, "DAY", "the first day it is carried there, 2026-12-02 or today"},
    {"by", 0, "NAME", "who says so"},
    {"note", 0, "TEXT", "why"},
    ARGUMENT_SURE,
    {NULL, 0, NULL, NULL},
};

static int
check_kinds(struct invocation *i, const struct subject *what,
    const struct subject *carrier)
{
    if (what->kind != SUBJECT_EQUIPMENT)
        return fault_set(&i->fault, EX_USAGE,
            "%s is a %s; only equipment is carried, so only that can be moved",
            what->id, fleet_kind_word(what->kind));
    if (carrier->kind != SUBJECT_VEHICLE)
        return fault_set(&i->fault, EX_USAGE,
            "%s is %s; equipment is carried by a vehicle", carrier->id,
            fleet_kind_word(carrier->kind));
    if (what->carrier == carrier)
        return fault_set(&i->fault, EX_DATAERR,
            "%s is carried by %s already, so there is nothing to record",
            what->id, carrier->id);
    return 0;
}

static int
read_record(struct invocation *i, const struct run_context *p, struct record *r)
{
    const struct subject *what =
        argument_subject(i, p, options_operand(&i->options, 0));
    struct record_input e = argument_input(i, p);
    const struct subject *carrier =
        what ? argument_subject(i, p, options_operand(&i->options, 1)) : NULL;

    if (carrier == NULL || check_kinds(i, what, carrier))
        return -1;
    *r = (struct record){
        .kind = RECORD_MOVED,
        .subject = what,
        .subject_id = what->id,
        .other = carrier,
        .other_id = carrier->id,
        .day = argument_day(i, p, "on", 1),
        .until = DAY_NONE,
        .reading = -1,
    };
    return r->day == DAY_NONE || argument_record(i, p, r) ||
                   record_input_check_day(&e, r)
               ? -1
               : 0;
}

static int
run(struct invocation *i)
{
    struct run_context *p = command_run(i, LEDGER_WRITE, RUN_NEEDED, 0);
    struct record_input e = argument_input(i, p);
    struct record r;
    int rc = -1;

    if (p != NULL && read_record(i, p, &r) == 0)
        rc = defect_input_move(&e, &r, i->out);
    run_close(p);
    return rc;
}

const struct command cmd_move = {
    .name = "move",
    .operands = "EQUIPMENT VEHICLE",
    .least = 2,
    .most = 2,
    .summary = "Record that equipment is now carried by another vehicle.",
    .options = rows,
    .run = run,
};
