#include "arguments.h"
#include "command.h"
#include "evidence_sheet.h"

#include <sysexits.h>

static const struct option_row rows[] = {
    {"from", 0, "DAY", "the first day asked for"},
    {"to", 0, "DAY", "the last day asked for (today)"},
    {"csv", 0, NULL, "as CSV, for a spreadsheet"},
    {"html", 0, NULL, "as a page to print"},
    {NULL, 0, NULL, NULL},
};

/* Fifteen months back: how long a record of maintenance is kept, as reported
 * of the operator's licence in Great Britain. */
#define MONTHS_BACK 15

static int
read_days(
    struct invocation *i, const struct run_context *p, struct evidence_sheet *s)
{
    s->today = run_moment(p).today;
    s->from = argument_day(i, p, "from", 0);
    s->to = argument_day(i, p, "to", 0);
    if (i->fault.code)
        return -1;
    if (s->to == DAY_NONE)
        s->to = s->today;
    if (s->from == DAY_NONE)
        s->from = step_months(s->to, -MONTHS_BACK, MONTH_END_CLAMP);
    if (s->from == DAY_NONE || s->to < s->from)
        return fault_set(&i->fault, EX_USAGE, "--to is before --from");
    return 0;
}

static int
show(
    struct invocation *i, const struct run_context *p, struct evidence_sheet *s)
{
    int csv = options_value(&i->options, "csv") != NULL;
    int html = options_value(&i->options, "html") != NULL;

    if (csv && html)
        return fault_set(&i->fault, EX_USAGE, "--csv or --html, not both");
    s->site = run_fleet(p)->site.name;
    struct evidence *e =
        evidence_new(run_facts(p), s->subject, s->from, s->to, s->today);
    s->evidence = e;
    int rc = -1;
    if (e != NULL)
        rc = csv    ? evidence_sheet_csv(s, i->out)
             : html ? evidence_sheet_html(s, i->out)
                    : evidence_sheet_text(s, i->out);
    evidence_free(e);
    return rc ? fault_set(&i->fault, EX_OSERR, "out of memory") : 0;
}

static int
run(struct invocation *i)
{
    struct run_context *p = command_run(i, LEDGER_READ, RUN_HISTORY, 0);
    struct evidence_sheet s = {0};
    int rc = -1;

    if (p != NULL)
        s.subject = argument_subject(i, p, options_operand(&i->options, 0));
    if (s.subject != NULL && read_days(i, p, &s) == 0)
        rc = show(i, p, &s);
    run_close(p);
    return rc;
}

const struct command cmd_evidence = {
    .name = "evidence",
    .operands = "SUBJECT",
    .least = 1,
    .most = 1,
    .summary = "Show what was due and when it was done, for an auditor.",
    .options = rows,
    .run = run,
};
