#include "defect_act.h"

const struct option_row defect_act_options[] = {
    {"on", 0, "DAY", "the day, 2026-12-02 or today (the default)"},
    {"at", 0, "HH:MM", "at what time; now, when it is today"},
    {"by", 0, "NAME", "who does it, by id or name"},
    {"reference", 0, "TEXT", "the number of a job sheet"},
    {"note", 0, "TEXT", "why, or what was done"},
    {"alone", 0, NULL, "nobody else may do it; --note says why it was done"},
    {NULL, 0, NULL, NULL},
};

int
defect_act_run(
    struct invocation *i, int (*enter)(const struct record_input *e,
                              int64_t number, const struct options *o,
                              const struct defect_input *who, struct buf *out))
{
    const struct options *o = &i->options;
    int64_t number = argument_number(i, "N", options_operand(o, 0));
    struct run_context *p =
        number < 0 ? NULL : command_run(i, LEDGER_WRITE, RUN_NEEDED, 0);
    const struct defect_input who = {.day = options_value(o, "on"),
        .at = options_value(o, "at"),
        .by = options_value(o, "by"),
        .reference = options_value(o, "reference"),
        .note = options_value(o, "note"),
        .alone = options_value(o, "alone") != NULL};

    if (p == NULL)
        return -1;
    struct record_input e = argument_input(i, p);
    int rc = enter(&e, number, o, &who, i->out);
    run_close(p);
    return rc;
}
