#include "defect_act.h"

#include <sysexits.h>

static const struct option_row rows[] = {
    {"record", 0, "N", "instead: lift the stop of the job that failed by it"},
    DEFECT_ACT_OPTIONS,
    {NULL, 0, NULL, NULL},
};

static int
enter(const struct record_input *e, int64_t number, const struct options *o,
    const struct defect_input *who, struct buf *out)
{
    return options_value(o, "record") != NULL
               ? defect_input_release_failed(e, number, who, out)
               : defect_input_release(e, number, who, out);
}

/* A defect goes by its number, and a failed job, which has none, by that of its
 * record. */
static int
run(struct invocation *i)
{
    const char *record = options_value(&i->options, "record");
    const char *defect = options_operand(&i->options, 0);

    if ((record != NULL) == (defect != NULL))
        return fault_set(&i->fault, EX_USAGE,
            "say what is released: the number of a defect, or --record N of "
            "a job that failed");
    return defect_act_run(i, record ? record : defect, enter);
}

const struct command cmd_release = {
    .name = "release",
    .operands = "[N]",
    .least = 0,
    .most = 1,
    .summary = "Release what was repaired: it may be used again.",
    .options = rows,
    .run = run,
};
