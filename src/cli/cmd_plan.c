#include "buf.h"
#include "command.h"
#include "compare.h"
#include "plan_sheet.h"
#include "plan_view.h"
#include "planning.h"
#include "what_if.h"

#include <stdlib.h>
#include <sysexits.h>

static const struct option_row rows[] = {
    {"json", 0, NULL, "as JSON, for other programs"},
    {"csv", 0, NULL, "as CSV, for a spreadsheet"},
    {"sheet", 0, "FILE", "to pin up, A3: into FILE.pdf or FILE.svg"},
    {"what-if", 0, "CHANGE, ...",
        "what would move: 'place PLACE N', 'hours PLACE H', 'away LIMIT N', "
        "'sold SUBJECT', 'shut PLACE DAY..DAY', 'holiday DAY'"},
    {"keep", 0, NULL, "keep its days, for the next plan to hold to"},
    {NULL, 0, NULL, NULL},
};

/* What was asked for. */
struct plan_asked {
    int json;
    int csv;
    int keep;
    const char *sheet;
    const char *what_if;
};

static int
read_options(struct invocation *i, struct plan_asked *a)
{
    *a = (struct plan_asked){
        .json = options_value(&i->options, "json") != NULL,
        .csv = options_value(&i->options, "csv") != NULL,
        .keep = options_value(&i->options, "keep") != NULL,
        .sheet = options_value(&i->options, "sheet"),
        .what_if = options_value(&i->options, "what-if"),
    };
    if (a->json + a->csv + (a->sheet != NULL) > 1)
        return fault_set(
            &i->fault, EX_USAGE, "one of --json, --csv and --sheet, not more");
    if (a->what_if != NULL && (a->csv || a->sheet != NULL || a->keep))
        return fault_set(&i->fault, EX_USAGE,
            "--what-if only looks: it goes with --json alone");
    return 0;
}

static int
show(struct invocation *i, const struct plan_asked *o,
    const struct fleet_plan *a)
{
    if (o->sheet != NULL)
        return plan_sheet_write(a, o->sheet, i->out, &i->fault);
    int rc = o->json  ? plan_view_json(a, i->out)
             : o->csv ? plan_view_csv(a, i->out)
                      : plan_view_text(a, i->out);
    return rc ? fault_set(&i->fault, EX_OSERR, "out of memory") : 0;
}

/* The plan as it is, beside the same with the changes, which holds to its days
 * where it can. */
static int
show_what_if(struct invocation *i, const struct run_context *p,
    const struct plan_asked *o, const struct fleet_plan *before)
{
    struct change changes[CHANGES_MOST];
    char wrong[CHANGE_FAULT];
    struct comparison c;
    size_t n;

    if (change_read(run_fleet(p), o->what_if, changes, &n, wrong))
        return fault_set(&i->fault, EX_USAGE, "--what-if: %s", wrong);
    struct fleet_plan *after =
        planning_what_if(p, changes, n, before, &i->fault);
    if (after == NULL)
        return -1;
    int rc = compare_plans(before, after, &c);
    if (rc == 0)
        rc = o->json ? what_if_json(&c, after, o->what_if, i->out)
                     : what_if_text(&c, after, o->what_if, i->out);
    if (rc != 0)
        fault_fill(&i->fault, EX_OSERR, "out of memory");
    free(c.list);
    fleet_plan_free(after);
    return rc;
}

static int
run_on(struct invocation *i, const struct run_context *p,
    const struct plan_asked *o)
{
    const struct fleet_plan *a = planning_of_run(p, &i->fault);

    if (a == NULL || (o->keep && planning_keep(p, &i->fault)))
        return -1;
    return o->what_if ? show_what_if(i, p, o, a) : show(i, o, a);
}

static int
run(struct invocation *i)
{
    struct plan_asked o;

    if (read_options(i, &o))
        return -1;
    struct run_context *p = command_run(
        i, o.keep ? LEDGER_WRITE : LEDGER_READ, RUN_NEEDED, RUN_PLAN);
    int rc = p ? run_on(i, p, &o) : -1;
    run_close(p);
    return rc;
}

const struct command cmd_plan = {
    .name = "plan",
    .operands = "",
    .summary = "Lay the coming work out on days, and say why each.",
    .options = rows,
    .run = run,
};
