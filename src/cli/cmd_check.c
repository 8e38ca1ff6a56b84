#include "buf.h"
#include "command.h"

/* Reads the whole fleet file; main shows the problems and the fault. */
static int
run(struct invocation *i)
{
    struct pass *p = command_pass(i, LEDGER_READ);

    if (p == NULL)
        return -1;
    const struct fleet *f = pass_fleet(p);
    size_t n_records;
    pass_records(p, &n_records);
    buf_print(i->out,
        "%s: %zu subjects, %zu jobs, %zu tasks, %zu people, %zu feeds, "
        "%zu records; no errors\n",
        f->site.name, f->n_subjects, f->n_jobs, f->n_tasks, f->n_persons,
        f->n_feeds, n_records);
    pass_close(p);
    return 0;
}

const struct command cmd_check = {
    .name = "check",
    .operands = "",
    .summary = "Read the whole fleet file and say everything wrong with it.",
    .run = run,
};
