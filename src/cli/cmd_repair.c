#include "defect_act.h"

static int
enter(const struct record_input *e, int64_t number, const struct options *o,
    const struct defect_input *who, struct buf *out)
{
    (void)o;
    return defect_input_repair(e, number, who, out);
}

static int
run(struct invocation *i)
{
    return defect_act_run(i, options_operand(&i->options, 0), enter);
}

const struct command cmd_repair = {
    .name = "repair",
    .operands = "N",
    .least = 1,
    .most = 1,
    .summary = "Enter that a defect was repaired.",
    .options = defect_act_options,
    .run = run,
};
