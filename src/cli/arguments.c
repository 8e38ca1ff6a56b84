#include "arguments.h"

#include "suggest.h"

#include <strings.h>
#include <sysexits.h>

struct record_input
argument_input(struct invocation *i, const struct run_context *p)
{
    return (struct record_input){
        .run = p,
        .mark = "--",
        .say_sure = "add --sure",
        .sure = options_value(&i->options, "sure") != NULL,
        .fault = &i->fault,
    };
}

const char *
argument_text(struct invocation *i, const char *option)
{
    struct record_input e = argument_input(i, NULL);
    const char *text = options_value(&i->options, option);

    (void)record_input_text(&e, option, text); /* the fault says so */
    return text;
}

int
argument_record(
    struct invocation *i, const struct run_context *p, struct record *r)
{
    r->entered = run_moment(p).now;
    r->by = argument_text(i, "by");
    r->note = argument_text(i, "note");
    return i->fault.code ? -1 : 0;
}

void
argument_unknown(struct invocation *i, const char *what, const char *id,
    const struct suggest *guess)
{
    const char *best = suggest_best(guess);

    fault_fill(&i->fault, EX_USAGE, "the fleet file has no %s '%s'%s%s%s", what,
        id, best ? "; did you mean '" : "", best ? best : "", best ? "'?" : "");
}

const struct subject *
argument_subject(
    struct invocation *i, const struct run_context *p, const char *id)
{
    const struct fleet *f = run_fleet(p);
    const struct subject *found = fleet_subject(f, id);
    struct suggest guess = suggest_start(id);

    if (found != NULL)
        return found;
    for (size_t k = 0; k < f->n_subjects; k++)
        suggest_offer(&guess, f->subjects[k].id);
    argument_unknown(i, "subject", id, &guess);
    return NULL;
}

const struct job *
argument_job(struct invocation *i, const struct run_context *p, const char *id)
{
    const struct fleet *f = run_fleet(p);
    const struct job *found = fleet_job(f, id);
    struct suggest guess = suggest_start(id);

    if (found != NULL)
        return found;
    for (size_t k = 0; k < f->n_jobs; k++)
        suggest_offer(&guess, f->jobs[k].id);
    argument_unknown(i, "job", id, &guess);
    return NULL;
}

const struct depot *
argument_depot(
    struct invocation *i, const struct run_context *p, const char *id)
{
    const struct fleet *f = run_fleet(p);
    struct suggest guess = suggest_start(id);

    for (size_t k = 0; k < f->n_depots; k++) {
        if (strcasecmp(f->depots[k].id, id) == 0)
            return &f->depots[k];
        suggest_offer(&guess, f->depots[k].id);
    }
    argument_unknown(i, "depot", id, &guess);
    return NULL;
}

const struct task *
argument_task(struct invocation *i, const struct run_context *p,
    const char *subject, const char *job)
{
    const struct subject *s = argument_subject(i, p, subject);
    const struct job *j = s ? argument_job(i, p, job) : NULL;

    if (j == NULL)
        return NULL;
    const struct task *t = fleet_task(run_fleet(p), s, j);
    if (t == NULL)
        fault_fill(&i->fault, EX_USAGE,
            "%s does not have the job '%s'; add it to its jobs in the fleet "
            "file",
            s->id, j->id);
    return t;
}

day_t
argument_day(struct invocation *i, const struct run_context *p,
    const char *option, int needed)
{
    struct record_input e = argument_input(i, p);

    return record_input_day(
        &e, option, options_value(&i->options, option), needed);
}

int64_t
argument_number(struct invocation *i, const char *what, const char *text)
{
    return record_input_number(what, text, &i->fault);
}
