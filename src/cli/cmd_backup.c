#include "backup.h"
#include "buf.h"
#include "command.h"

static int
run(struct invocation *i)
{
    const char *to = options_operand(&i->options, 0);
    struct run_context *p = command_run(i, LEDGER_READ, RUN_FLEET, 0);
    int64_t records;

    if (p == NULL ||
        backup_make(run_fleet(p)->site.ledger, to, &records, &i->fault)) {
        run_close(p);
        return -1;
    }
    buf_print(i->out, "%s: %lld record%s, checked\n", to, (long long)records,
        records == 1 ? "" : "s");
    run_close(p);
    return 0;
}

const struct command cmd_backup = {
    .name = "backup",
    .operands = "FILE",
    .least = 1,
    .most = 1,
    .summary = "Copy the ledger to a file, and check the copy.",
    .run = run,
};
