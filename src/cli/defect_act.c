#include "defect_act.h"

const struct option_row defect_act_options[] = {
    DEFECT_ACT_OPTIONS,
    {NULL, 0, NULL, NULL},
};

int
defect_act_run(struct invocation *i, const char *n,
    int (*enter)(const struct record_input *e, int64_t number,
        const struct options *o, const struct defect_input *who,
        struct buf *out))
{
    const struct options *o = &i->options;
    int64_t number = argument_number(i, "N", n);
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
