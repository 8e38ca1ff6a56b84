#include "command.h"
#include "parts.h"

static int
run(struct invocation *i)
{
    int dry = options_value(&i->options, "dry-run") != NULL;
    struct run_context *p =
        dry ? command_run(i, LEDGER_READ, RUN_NEEDED, RUN_REASONS)
            : command_run(i, LEDGER_WRITE, RUN_NEEDED,
                  RUN_FEEDS | RUN_SETTLED | RUN_REASONS);
    int rc = -1;

    if (p != NULL)
        rc = dry ? parts_show(p, i->out, &i->fault)
                 : parts_nightly(p, i->notes, &i->fault);
    run_close(p);
    return rc;
}

static const struct option_row options[] = {
    {"dry-run", 0, NULL, "only say what would be sent to whom, and why"},
    {NULL, 0, NULL, NULL},
};

const struct command cmd_nightly = {
    .name = "nightly",
    .operands = "",
    .summary = "Write the feeds and send the reminders; silent when all is "
               "well.",
    .options = options,
    .run = run,
};
