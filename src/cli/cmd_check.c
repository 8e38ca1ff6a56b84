#include "buf.h"
#include "command.h"
#include "config.h"
#include "overtaken.h"
#include "publish.h"

#include <sysexits.h>

static void
say_count(struct buf *out, size_t n, const char *one, const char *many)
{
    buf_print(out, " %zu %s", n, n == 1 ? one : many);
}

static void
say_counts(struct invocation *i, const struct run_context *p)
{
    const struct fleet *f = run_fleet(p);
    size_t n_records = run_made(p)->n_records;

    buf_print(i->out, "%s:", f->site.name);
    say_count(i->out, f->n_subjects, "subject,", "subjects,");
    say_count(i->out, f->n_jobs, "job,", "jobs,");
    say_count(i->out, f->n_tasks, "task,", "tasks,");
    say_count(i->out, f->n_persons, "person,", "people,");
    say_count(i->out, f->n_feeds, "feed,", "feeds,");
    say_count(i->out, n_records, "record;", "records;");
    buf_text(i->out, " no errors\n");
}

/* Reads the whole fleet file; main shows the problems and the fault. */
static int
run(struct invocation *i)
{
    struct run_context *p =
        command_run(i, LEDGER_READ, RUN_HISTORY, RUN_FEEDS | RUN_REASONS);
    int failed;

    if (p == NULL)
        return -1;
    config_warn_dates(run_config(p), run_moment(p).today, i->problems);
    failed = overtaken_warn(p, i->problems, &i->fault);
    if (!failed)
        failed = publish_warn(p, i->problems, &i->fault);
    if (!failed && options_value(&i->options, "explain") != NULL)
        failed = config_explain(run_config(p), i->out)
                     ? fault_set(&i->fault, EX_OSERR, "out of memory")
                     : 0;
    say_counts(i, p);
    run_close(p);
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
