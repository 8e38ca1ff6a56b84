#include "arguments.h"
#include "defect_events.h"
#include "defect_list.h"

#include <sysexits.h>

static const struct option_row rows[] = {
    {"all", 0, NULL, "those that are closed too"},
    {"subject", 0, "SUBJECT", "only of it, and of what it carries"},
    {"json", 0, NULL, "as JSON"},
    {"csv", 0, NULL, "as a table for a spreadsheet"},
    {NULL, 0, NULL, NULL},
};

static int
list(struct invocation *i, const struct run_context *p)
{
    const struct options *o = &i->options;
    const char *subject = options_value(o, "subject");
    int json = options_value(o, "json") != NULL;
    int csv = options_value(o, "csv") != NULL;
    struct defect_list l = {.today = run_moment(p).today,
        .subject = subject ? argument_subject(i, p, subject) : NULL,
        .all = options_value(o, "all") != NULL};

    if (subject != NULL && l.subject == NULL)
        return -1;
    if (json && csv)
        return fault_set(&i->fault, EX_USAGE, "--json or --csv, not both");
    struct defects *ds = defect_events_fold(p, &i->fault);
    if (ds == NULL)
        return -1;
    l.of = ds;
    int rc = defect_list(&l,
        json  ? DEFECT_LIST_JSON
        : csv ? DEFECT_LIST_CSV
              : DEFECT_LIST_TEXT,
        i->out);
    if (rc != 0)
        fault_fill(&i->fault, EX_OSERR, "out of memory");
    defects_free(ds);
    return rc;
}

static int
run(struct invocation *i)
{
    struct run_context *p = command_run(i, LEDGER_READ, RUN_NEEDED, 0);
    int rc = p != NULL ? list(i, p) : -1;

    run_close(p);
    return rc;
}

const struct command cmd_defects = {
    .name = "defects",
    .operands = "",
    .summary = "List the defects that are open, the gravest first.",
    .options = rows,
    .run = run,
};
