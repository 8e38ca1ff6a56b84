#include "command.h"
#include "nightly.h"

static int
run(struct invocation *i)
{
    struct pass *p = command_pass(i, LEDGER_WRITE);
    int rc = p != NULL ? nightly_run(p, i->notes, &i->fault) : -1;

    pass_close(p);
    return rc;
}

const struct command cmd_nightly = {
    .name = "nightly",
    .operands = "",
    .summary = "Write the feeds and send the reminders; silent when all is "
               "well.",
    .run = run,
};
