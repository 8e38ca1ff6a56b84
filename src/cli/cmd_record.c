#include "arguments.h"
#include "buf.h"
#include "defect_input.h"
#include "records.h"
#include "stop_mail.h"

#include <sysexits.h>

static const struct option_row rows[] = {
    {"on", 0, "DAY", "the day it was done, 2026-12-02 or today"},
    {"result", 0, "RESULT", "completed (the default) or failed"},
    {"reading", 0, "N", "what the odometer showed"},
    {"by", 0, "NAME", "who did it"},
    {"reference", 0, "TEXT", "a certificate or job sheet number"},
    {"note", 0, "TEXT", "anything worth keeping"},
    ARGUMENT_SURE,
    {"void", 0, "N", "instead: void record N, which stays to be seen"},
    {"alone", 0, NULL, "with --void: nobody else may; --note says why"},
    {NULL, 0, NULL, NULL},
};

static int
void_record(
    struct invocation *i, const struct run_context *p, const char *number)
{
    int64_t id = argument_number(i, "--void", number);
    const char *note = argument_text(i, "note");
    const char *by = argument_text(i, "by");

    if (id < 0 || i->fault.code)
        return -1;
    if (i->options.n_operands != 0)
        return fault_set(&i->fault, EX_USAGE,
            "--void N takes no SUBJECT and JOB: the number says it all");
    if (note == NULL)
        return fault_set(&i->fault, EX_USAGE,
            "--void needs --note TEXT: say why record %lld is wrong",
            (long long)id);
    struct record_input e = argument_input(i, p);
    const struct defect_input who = {.by = by,
        .note = note,
        .alone = options_value(&i->options, "alone") != NULL};
    int taken = defect_input_void(&e, id, &who, i->out);
    if (taken != 0)
        return taken < 0 ? -1 : 0;
    if (records_void(run_ledger(p), id, by, note, run_moment(p).now, &i->fault))
        return -1;
    buf_print(i->out, "voided record %lld\n", (long long)id);
    return 0;
}

/* Fill @r from the command line and refuse what cannot be; sets its task. */
static int
read_record(struct invocation *i, const struct run_context *p, struct record *r,
    const struct task **task)
{
    struct options *o = &i->options;
    struct record_input e = argument_input(i, p);
    const struct task *t =
        argument_task(i, p, options_operand(o, 0), options_operand(o, 1));
    const struct record_input_work work = {
        .day = options_value(o, "on"),
        .result = options_value(o, "result"),
        .reading = options_value(o, "reading"),
        .by = options_value(o, "by"),
        .reference = options_value(o, "reference"),
        .note = options_value(o, "note"),
    };

    *task = t;
    if (t == NULL || record_input_work(&e, t, &work, r))
        return -1;
    return record_input_check_twice(&e, r);
}

/* The record, and if it stops the vehicle the messages that say so: both or
 * neither. */
static int
enter(struct invocation *i, struct run_context *p, const struct task *t,
    const struct record *r, int64_t *id)
{
    struct ledger *l = run_ledger(p);

    if (ledger_begin(l, &i->fault))
        return -1;
    if (records_add(l, r, id, &i->fault) == 0 &&
        (r->kind != RECORD_FAILED ||
            (run_read(p, t, NULL, &i->fault) == 0 &&
                stop_mail_failed(p, t, r, *id, &i->fault) == 0)))
        return ledger_commit(l, &i->fault);
    ledger_rollback(l);
    return -1;
}

static int
add_record(struct invocation *i, struct run_context *p)
{
    struct record r;
    const struct task *t;
    int64_t id;
    char day[DAY_WORDS];

    if (i->options.n_operands != 2)
        return fault_set(&i->fault, EX_USAGE,
            "record takes the operands SUBJECT JOB, or --void N");
    if (read_record(i, p, &r, &t) || enter(i, p, t, &r, &id))
        return -1;
    buf_print(i->out, "record %lld: %s %s %s on %s\n", (long long)id,
        r.subject->id, r.job->id, record_kind_word(r.kind),
        day_words(r.day, day));
    return 0;
}

static int
run(struct invocation *i)
{
    const char *void_number = options_value(&i->options, "void");
    /* The rules of defects, which a void is held against, need the facts. */
    struct run_context *p =
        command_run(i, LEDGER_WRITE, void_number ? RUN_NEEDED : RUN_LATER, 0);

    if (p == NULL)
        return -1;
    int rc = void_number ? void_record(i, p, void_number) : add_record(i, p);
    run_close(p);
    return rc;
}

const struct command cmd_record = {
    .name = "record",
    .operands = "[SUBJECT JOB]",
    .most = 2,
    .summary = "Record a job as done, or as failed, or void a record.",
    .options = rows,
    .run = run,
};
