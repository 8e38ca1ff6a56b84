#include "buf.h"
#include "command.h"
#include "publish.h"

static void
say_counts(struct invocation *i, const struct pass *p)
{
    const struct fleet *f = pass_fleet(p);
    size_t n_records;

    pass_records(p, &n_records);
    buf_print(i->out,
        "%s: %zu subjects, %zu jobs, %zu tasks, %zu people, %zu feeds, "
        "%zu records; no errors\n",
        f->site.name, f->n_subjects, f->n_jobs, f->n_tasks, f->n_persons,
        f->n_feeds, n_records);
}

/* Reads the whole fleet file; main shows the problems and the fault. */
static int
run(struct invocation *i)
{
    struct pass *p = command_pass(i, LEDGER_READ);
    int failed;

    if (p == NULL)
        return -1;
    pass_warn(p, i->problems);
    failed = publish_warn(p, i->problems, &i->fault);
    if (!failed && options_value(&i->options, "explain") != NULL)
        failed = pass_explain(p, i->out, &i->fault);
    say_counts(i, p);
    pass_close(p);
    return failed;
}

static const struct option_row options[] = {
    {"explain", 0, NULL, "show the fleet as understood, and from where"},
    {NULL, 0, NULL, NULL},
};

const struct command cmd_check = {
    .name = "check",
    .operands = "",
    .summary = "Read the whole fleet file and say everything wrong with it.",
    .options = options,
    .run = run,
};
