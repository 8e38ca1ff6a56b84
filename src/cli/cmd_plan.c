#include "buf.h"
#include "command.h"
#include "plan_sheet.h"
#include "plan_view.h"
#include "planning.h"

#include <sysexits.h>

static const struct option_row rows[] = {
    {"json", 0, NULL, "as JSON, for other programs"},
    {"csv", 0, NULL, "as CSV, for a spreadsheet"},
    {"sheet", 0, "FILE", "to pin up, A3: into FILE.pdf or FILE.svg"},
    {"keep", 0, NULL, "keep its days, for the next plan to hold to"},
    {NULL, 0, NULL, NULL},
};

typedef int show_plan(const struct agenda *a, struct buf *out);

static show_plan *
choose_view(struct invocation *i)
{
    int json = options_value(&i->options, "json") != NULL;
    int csv = options_value(&i->options, "csv") != NULL;

    if (json && csv) {
        fault_fill(&i->fault, EX_USAGE, "--json or --csv, not both");
        return NULL;
    }
    return json ? plan_view_json : csv ? plan_view_csv : plan_view_text;
}

static int
run_on(struct invocation *i, const struct pass *p, show_plan *show, int keep)
{
    const char *sheet = options_value(&i->options, "sheet");
    struct agenda *a = planning_agenda(p, NULL, 0, NULL, &i->fault);
    int rc = -1;

    if (a == NULL)
        return -1;
    if (keep && planning_keep(p, a, &i->fault))
        goto out;
    if (sheet != NULL)
        rc = plan_sheet_write(a, sheet, i->out, &i->fault);
    else if ((rc = show(a, i->out)) != 0)
        fault_fill(&i->fault, EX_OSERR, "out of memory");
out:
    agenda_free(a);
    return rc;
}

static int
run(struct invocation *i)
{
    int keep = options_value(&i->options, "keep") != NULL;
    show_plan *show = choose_view(i);
    struct pass *p =
        show ? command_pass(i, keep ? LEDGER_WRITE : LEDGER_READ) : NULL;

    if (p == NULL)
        return -1;
    int rc = run_on(i, p, show, keep);
    pass_close(p);
    return rc;
}

const struct command cmd_plan = {
    .name = "plan",
    .operands = "",
    .summary = "Lay the coming work out on days, and say why each.",
    .options = rows,
    .run = run,
};
