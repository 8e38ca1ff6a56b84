#include "command.h"
#include "nightly.h"

static int
run(struct invocation *i)
{
    int dry = options_value(&i->options, "dry-run") != NULL;
    struct run_context *p =
        dry ? command_pass(i, LEDGER_READ) : command_feeds(i);
    int rc = -1;

    if (p != NULL)
        rc = dry ? nightly_show(p, i->out, &i->fault)
                 : nightly_run(p, i->notes, &i->fault);
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
