#include "buf.h"
#include "command.h"
#include "restore.h"

static const struct option_row rows[] = {
    {"drop-newer", 0, NULL, "though the ledger has records that FILE has not"},
    {NULL, 0, NULL, NULL},
};

static void
say(const struct restored *done, const char *ledger, const char *from,
    struct buf *out)
{
    buf_print(out, "%s: restored from %s, %lld record%s\n", ledger, from,
        (long long)done->records, done->records == 1 ? "" : "s");
    if (done->kept == 0)
        return;
    buf_print(
        out, "what it was is kept as %s.before-restore-%d", ledger, done->kept);
    if (done->dropped > 0)
        buf_print(out, ", with %lld record%s more", (long long)done->dropped,
            done->dropped == 1 ? "" : "s");
    buf_text(out, "\n");
}

static int
run(struct invocation *i)
{
    const char *from = options_operand(&i->options, 0);
    int drop = options_value(&i->options, "drop-newer") != NULL;
    struct run_context *p = command_run(i, LEDGER_READ, RUN_FLEET, 0);
    struct restored done;
    int rc = -1;

    if (p != NULL) {
        const char *ledger = run_fleet(p)->site.ledger;
        rc = restore_from(ledger, from, drop, &done, &i->fault);
        if (rc == 0)
            say(&done, ledger, from, i->out);
    }
    run_close(p);
    return rc;
}

const struct command cmd_restore = {
    .name = "restore",
    .operands = "FILE",
    .least = 1,
    .most = 1,
    .summary = "Put a backup in the place of the ledger.",
    .options = rows,
    .run = run,
};
