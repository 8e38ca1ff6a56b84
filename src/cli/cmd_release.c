#include "defect_act.h"

static int
enter(const struct record_input *e, int64_t number, const struct options *o,
    const struct defect_input *who, struct buf *out)
{
    (void)o;
    return defect_input_release(e, number, who, out);
}

static int
run(struct invocation *i)
{
    return defect_act_run(i, enter);
}

const struct command cmd_release = {
    .name = "release",
    .operands = "N",
    .least = 1,
    .most = 1,
    .summary = "Release what was repaired: it may be used again.",
    .options = defect_act_options,
    .run = run,
};
