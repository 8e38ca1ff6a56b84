#include "buf.h"
#include "command.h"

#include <string.h>

/*
 * For the shells' completion, and not in the help: "complete commands",
 * "complete options COMMAND", and with -c the ids that the fleet file knows:
 * "complete subjects", "jobs", "feeds", "depots", "persons".
 */

static int
list_commands(struct invocation *i)
{
    for (size_t n = 0; command_at(n) != NULL; n++)
        if (command_at(n) != &cmd_complete)
            buf_print(i->out, "%s\n", command_at(n)->name);
    return 0;
}

static void
list_rows(const struct option_row *row, struct buf *out)
{
    for (; row != NULL && row->name != NULL; row++)
        buf_print(out, "--%s\n", row->name);
}

static int
list_options(struct invocation *i)
{
    const char *name = options_operand(&i->options, 1);
    const struct command *c = name ? command_find(name) : NULL;

    list_rows(c ? c->options : NULL, i->out);
    list_rows(command_common, i->out);
    return 0;
}

static void
list_ids(const struct fleet *f, const char *what, struct buf *out)
{
    for (size_t k = 0; k < f->n_subjects && !strcmp(what, "subjects"); k++)
        buf_print(out, "%s\n", f->subjects[k].id);
    for (size_t k = 0; k < f->n_jobs && !strcmp(what, "jobs"); k++)
        buf_print(out, "%s\n", f->jobs[k].id);
    for (size_t k = 0; k < f->n_feeds && !strcmp(what, "feeds"); k++)
        buf_print(out, "%s\n", f->feeds[k].id);
    for (size_t k = 0; k < f->n_depots && !strcmp(what, "depots"); k++)
        buf_print(out, "%s\n", f->depots[k].id);
    for (size_t k = 0; k < f->n_persons && !strcmp(what, "persons"); k++)
        buf_print(out, "%s\n", f->persons[k].id);
}

static int
run(struct invocation *i)
{
    const char *what = options_operand(&i->options, 0);

    if (strcmp(what, "commands") == 0)
        return list_commands(i);
    if (strcmp(what, "options") == 0)
        return list_options(i);
    struct run_context *p = command_run(i, LEDGER_READ, RUN_LATER, 0);
    if (p == NULL)
        return -1;
    list_ids(run_fleet(p), what, i->out);
    run_close(p);
    return 0;
}

const struct command cmd_complete = {
    .name = "complete",
    .operands = "WHAT [COMMAND]",
    .least = 1,
    .most = 2,
    .summary = "List words for the completion of a shell.",
    .run = run,
};
