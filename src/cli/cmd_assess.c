#include "defect_act.h"

#include <stdio.h>

static int
enter(const struct record_input *e, int64_t number, const struct options *o,
    const struct defect_input *who, struct buf *out)
{
    const char *until = options_operand(o, 2);
    const char *unit = options_operand(o, 3);
    char reading[64];

    if (unit != NULL) {
        snprintf(reading, sizeof reading, "%s %s", until, unit);
        until = reading;
    }
    return defect_input_assess(
        e, number, options_operand(o, 1), until, who, out);
}

static int
run(struct invocation *i)
{
    return defect_act_run(i, options_operand(&i->options, 0), enter);
}

const struct command cmd_assess = {
    .name = "assess",
    .operands = "N VERDICT [DAY | READING UNIT]",
    .least = 2,
    .most = 4,
    .summary =
        "Decide on a defect: stop, until DAY, until N km, watch or nothing.",
    .options = defect_act_options,
    .run = run,
};
