#include "arguments.h"
#include "buf.h"
#include "command.h"
#include "dues.h"
#include "select.h"
#include "view.h"

#include <stdlib.h>
#include <sysexits.h>

static int
show(struct invocation *i, struct run_context *p, const struct task *t)
{
    struct filter filter = {.subject = t->subject, .job = t->job};
    struct snapshot *s = dues_of_task(p, t, 1, i->problems, &i->fault);
    struct selection dues;

    if (s == NULL)
        return -1;
    if (select_dues(s, &filter, &dues)) {
        snapshot_free(s);
        return fault_set(&i->fault, EX_OSERR, "out of memory");
    }
    if (dues.n == 0)
        buf_print(i->out, "%s: %s is not due: nothing has called for it.\n",
            t->subject->id, t->job->title);
    else
        view_why.render(&(struct shown){.dues = &dues}, i->out);
    free(dues.dues);
    snapshot_free(s);
    return 0;
}

static int
run(struct invocation *i)
{
    struct run_context *p = command_run(i, LEDGER_READ, RUN_LATER, RUN_REASONS);
    const struct task *t = NULL;

    if (p != NULL)
        t = argument_task(i, p, options_operand(&i->options, 0),
            options_operand(&i->options, 1));
    int rc = t != NULL ? show(i, p, t) : -1;
    run_close(p);
    return rc;
}

const struct command cmd_why = {
    .name = "why",
    .operands = "SUBJECT JOB",
    .least = 2,
    .most = 2,
    .summary = "Explain one due, step by step.",
    .run = run,
};
