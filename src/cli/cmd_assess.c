#include "defect_act.h"

static int
enter(const struct record_input *e, int64_t number, const struct options *o,
    const struct defect_input *who, struct buf *out)
{
    return defect_input_assess(e, number, options_operand(o, 1),
        options_operand(o, 2), who, out);
}

static int
run(struct invocation *i)
{
    return defect_act_run(i, options_operand(&i->options, 0), enter);
}

const struct command cmd_assess = {
    .name = "assess",
    .operands = "N VERDICT [DAY]",
    .least = 2,
    .most = 3,
    .summary = "Decide on a defect: stop, until DAY, watch or nothing.",
    .options = defect_act_options,
    .run = run,
};
