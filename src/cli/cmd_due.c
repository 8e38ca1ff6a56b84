#include "arguments.h"
#include "buf.h"
#include "command.h"
#include "dues.h"
#include "fitness.h"
#include "isoweek.h"
#include "scan.h"
#include "select.h"
#include "span.h"
#include "view.h"

#include <stdlib.h>
#include <string.h>
#include <sysexits.h>

static const struct option_row rows[] = {
    {"this-week", 0, NULL, "what is to be done by the end of this ISO week"},
    {"within", 0, "LENGTH", "what is to be done so soon: 8w, 10d, 3 months"},
    {"overdue", 0, NULL, "only what is past its deadline, or failed"},
    {"depot", 0, "DEPOT", "only of this depot"},
    {"subject", 0, "SUBJECT", "only of this vehicle, and what it carries"},
    {"job", 0, "JOB", "only this job"},
    {"json", 0, NULL, "as JSON, for other programs"},
    {"csv", 0, NULL, "as CSV, for a spreadsheet"},
    {NULL, 0, NULL, NULL},
};

/* "8w" is short for "8 weeks": a number and the first letter of a unit. */
static int
read_length(const char *text, struct span *out)
{
    static const char letters[] = "dwmy";
    struct scan s = scan_start(text);
    size_t digits = strspn(text, "0123456789");
    const char *unit = digits > 0 && text[digits] != '\0'
                           ? strchr(letters, text[digits])
                           : NULL;

    if (span_scan(&s, out) && scan_end(&s))
        return 0;
    if (unit == NULL || digits > 4 || text[digits + 1] != '\0')
        return -1;
    *out = (struct span){
        (int32_t)strtol(text, NULL, 10), (enum step_unit)(unit - letters)};
    return 0;
}

/* The last day to list, from --within or --this-week. */
static int
choose_until(
    struct invocation *i, const struct run_context *p, struct filter *filter)
{
    const char *within = options_value(&i->options, "within");
    day_t today = run_moment(p).today;
    struct span length;

    if (options_value(&i->options, "this-week") != NULL)
        filter->until = isoweek_end(today);
    if (within == NULL)
        return 0;
    if (filter->until != 0)
        return fault_set(&i->fault, EX_USAGE,
            "--this-week and --within say two different things; give one");
    if (read_length(within, &length))
        return fault_set(&i->fault, EX_USAGE,
            "--within: '%s' is no length of time; write it as 8w, 10d or "
            "3 months",
            within);
    filter->until = step_span(today, length, 1, MONTH_END_CLAMP);
    return 0;
}

static int
choose(struct invocation *i, const struct run_context *p, struct filter *filter)
{
    const char *depot = options_value(&i->options, "depot");
    const char *subject = options_value(&i->options, "subject");
    const char *job = options_value(&i->options, "job");

    if (depot && (filter->depot = argument_depot(i, p, depot)) == NULL)
        return -1;
    if (subject && (filter->subject = argument_subject(i, p, subject)) == NULL)
        return -1;
    if (job && (filter->job = argument_job(i, p, job)) == NULL)
        return -1;
    if (options_value(&i->options, "overdue") != NULL)
        filter->states = 1u << DUE_FAILED | 1u << DUE_OVERDUE;
    return choose_until(i, p, filter);
}

static const struct view *
choose_view(struct invocation *i)
{
    int json = options_value(&i->options, "json") != NULL;
    int csv = options_value(&i->options, "csv") != NULL;

    if (json && csv) {
        fault_fill(&i->fault, EX_USAGE, "--json or --csv, not both");
        return NULL;
    }
    return view_find(json ? "json" : csv ? "csv" : "list");
}

static int
show(struct invocation *i, const struct run_context *p, const struct view *view,
    const struct filter *filter)
{
    const struct snapshot *s = dues_of_run(p, &i->fault);
    struct selection dues;
    struct shown shown = {.dues = &dues, .filter = filter};
    int rc = -1;

    if (s != NULL && view->conditions)
        shown.conditions = fitness_of_run(p, &i->fault);
    if (s == NULL || (view->conditions && shown.conditions == NULL))
        return -1;
    shown.defects = fitness_defects(p);
    if (select_dues(s, filter, &dues) == 0) {
        rc = view->render(&shown, i->out);
        free(dues.dues);
    }
    return rc ? fault_set(&i->fault, EX_OSERR, "out of memory") : 0;
}

static int
run(struct invocation *i)
{
    struct filter filter = {0};
    const struct view *view = choose_view(i);
    struct run_context *p = view ? command_run(i, LEDGER_READ, RUN_NEEDED,
                                       view->reasons ? RUN_REASONS : 0)
                                 : NULL;
    int rc = -1;

    if (p != NULL && choose(i, p, &filter) == 0)
        rc = show(i, p, view, &filter);
    run_close(p);
    return rc;
}

const struct command cmd_due = {
    .name = "due",
    .operands = "",
    .summary = "Say what is due, the most urgent first.",
    .options = rows,
    .run = run,
};
