#include "arguments.h"
#include "defect_input.h"

static const struct option_row rows[] = {
    {"on", 0, "DAY", "the day, 2026-12-02 or today (the default)"},
    {"at", 0, "HH:MM", "when it was seen; now, when it is today"},
    {"by", 0, "NAME", "who saw it, by id or name"},
    {"note", 0, "TEXT", "what is wrong"},
    {"grade", 0, "GRADE", "minor, major or stops, if not the item's"},
    {NULL, 0, NULL, NULL},
};

static int
enter(struct invocation *i, const struct run_context *p)
{
    const struct options *o = &i->options;
    const struct subject *s = argument_subject(i, p, options_operand(o, 0));
    struct record_input e = argument_input(i, p);
    const struct defect_input who = {.day = options_value(o, "on"),
        .at = options_value(o, "at"),
        .by = options_value(o, "by")};
    const struct defect_input_found found = {.item = options_operand(o, 1),
        .text = options_value(o, "note"),
        .grade = options_value(o, "grade")};

    return s ? defect_input_report(&e, s, &who, &found, i->out) : -1;
}

static int
run(struct invocation *i)
{
    struct run_context *p = command_run(i, LEDGER_WRITE, RUN_NEEDED, 0);
    int rc = p != NULL ? enter(i, p) : -1;

    run_close(p);
    return rc;
}

const struct command cmd_defect = {
    .name = "defect",
    .operands = "SUBJECT ITEM",
    .least = 2,
    .most = 2,
    .summary = "Report one defect, found by other means than a check.",
    .options = rows,
    .run = run,
};
