#include "check.h"

#include "intervals.h"
#include "kind.h"
#include "span.h"

#include <string.h>

/*
 * A rule is written in up to three places: the job, the type and the subject.
 * Something wrong is said of the place being read, where one of the keys
 * concerned stands there, and not at all when a value is refused already.
 */
struct rule_check {
    struct load_context *context;
    const struct section *here;
    const struct section *type; /* above it, or NULL */
    const struct job *job;
    const struct section *of_job;
    const struct rule *rule;
};

/* The entry of the place being read, or NULL. */
static struct entry *
here(const struct rule_check *c, const char *key)
{
    return section_job_entry(c->here, c->job->id, key);
}

/* The first of @keys that stands here, or NULL: also when the value of one of
 * them was refused, here or above, so that nothing is known. */
static struct entry *
first_here(const struct rule_check *c, const char *const *keys)
{
    const struct section *places[] = {c->here, c->type, c->of_job};
    struct entry *found = NULL;

    for (size_t i = 0; keys[i] != NULL; i++) {
        for (size_t p = 0; p < 3; p++) {
            const struct entry *e =
                section_job_entry(places[p], c->job->id, keys[i]);
            if (e != NULL && e->refused)
                return NULL;
        }
        if (found == NULL)
            found = here(c, keys[i]);
    }
    return found;
}

/* Refuse the key when it stands here and what it says depends on is known. */
static void
refuse_idle(const struct rule_check *c, const char *key, const char *beside)
{
    struct entry *e = first_here(
        c, (const char *const[]){key, "runs-from", "every", "within", NULL});

    if (e != NULL && e == here(c, key))
        context_refuse(c->context, e, e->place,
            "says something only beside %s or take this out", beside);
}

/* What only means something where a deadline can be met early, or a date be
 * kept. */
static void
check_keeping(const struct rule_check *c)
{
    static const char keeping[] = "'runs-from = keeping the date'; add that";
    static const char series[] =
        "'runs-from = keeping the date', 'runs-from = deadline', 'yearly' or "
        "'rule'; add one";

    if (c->rule->runs_from == KEEPS_DATE)
        return;
    refuse_idle(c, "late", keeping);
    refuse_idle(c, "shortest", keeping);
    refuse_idle(c, "first-kept", keeping);
    if (c->rule->runs_from == FROM_DEADLINE ||
        intervals_calendar_rule(c->rule) != NULL)
        return;
    refuse_idle(c, "window", series);
    refuse_idle(c, "window-opens", series);
}

/* Without a window only a job done on that very day would keep the date. */
static void
check_window(const struct rule_check *c)
{
    struct entry *e =
        first_here(c, (const char *const[]){"runs-from", "window", NULL});

    if (e != NULL && c->rule->runs_from == KEEPS_DATE && c->rule->window.n == 0)
        context_refuse(c->context, e, e->place,
            "keeping the date needs a window; add window = SPAN, how long "
            "before the deadline the date is kept");
}

/* A completion of the other job would restart any other interval. */
static void
check_also_counts(const struct rule_check *c)
{
    struct entry *e = first_here(
        c, (const char *const[]){"also-counts", "every", "within", NULL});

    if (e == NULL || section_entry(c->of_job, "also-counts") == NULL)
        return;
    for (int i = 0; i < c->rule->n_every; i++)
        if (!kind_looks_back(&c->rule->every[i])) {
            context_refuse(c->context, e, e->place,
                "'also-counts' goes with N within SPAN only, and '%s' is "
                "another kind of interval",
                c->rule->every[i].text);
            return;
        }
}

static void
refuse_weeks(const struct rule_check *c, struct entry *e, const char *what)
{
    context_refuse(c->context, e, e->place,
        "'week end' goes with weeks only, and '%s' is not so many weeks", what);
}

/* A week end lies a number of whole weeks on, so each interval, and each that
 * age brings, has to be in weeks. */
static void
check_week_end(const struct rule_check *c)
{
    struct entry *e = first_here(
        c, (const char *const[]){"ends", "every", "within", "from-age", NULL});
    char text[SPAN_TEXT];

    if (e == NULL || c->rule->ends != ENDS_WEEK_END)
        return;
    for (int i = 0; i < c->rule->n_every; i++) {
        const struct interval *every = &c->rule->every[i];
        if (kind_is_length(every) && every->span.unit != STEP_WEEKS) {
            refuse_weeks(c, e, every->text);
            return;
        }
    }
    for (int i = 0; i < c->rule->n_ages; i++)
        if (c->rule->ages[i].every.unit != STEP_WEEKS) {
            refuse_weeks(c, e, span_text(c->rule->ages[i].every, text));
            return;
        }
}

static void
check_first_week_end(const struct rule_check *c)
{
    const struct first *first = &c->rule->first;
    struct entry *e = first_here(
        c, (const char *const[]){"first", "first-ends", "ends", NULL});
    char text[SPAN_TEXT];

    if (e == NULL || c->rule->first_ends != ENDS_WEEK_END ||
        first->origin == ORIGIN_NONE || first->origin == ORIGIN_ON ||
        first->after.unit == STEP_WEEKS)
        return;
    refuse_weeks(c, e, span_text(first->after, text));
}

/* Said of the interval where 'runs-from' was taken over from the job. */
static void
check_runs_from(const struct rule_check *c)
{
    struct entry *e = first_here(
        c, (const char *const[]){"runs-from", "every", "within", NULL});
    const struct interval *every = intervals_calendar_rule(c->rule);

    if (e == NULL || every == NULL ||
        (here(c, "runs-from") == NULL && c->rule->runs_from == FROM_COMPLETION))
        return;
    context_refuse(c->context, e, e->place,
        "'%s' names its own days, so it runs from nothing; "
        "take out 'runs-from'",
        every->text);
}

static void
check_roll(const struct rule_check *c)
{
    struct entry *e = first_here(c, (const char *const[]){"roll", NULL});
    const struct entry *class = section_entry(c->of_job, "class");

    if (e == NULL || class == NULL || class->refused ||
        c->job->class != CLASS_LAW || c->rule->roll == ROLL_PRECEDING)
        return;
    context_refuse(c->context, e, e->place,
        "a deadline of the law does not move; expected preceding");
}

static void
check_ages(const struct rule_check *c)
{
    struct entry *e = first_here(
        c, (const char *const[]){"from-age", "every", "within", NULL});
    const struct interval *every = intervals_length(c->rule);
    char text[SPAN_TEXT];

    if (e == NULL || c->rule->n_ages == 0)
        return;
    if (every == NULL) {
        context_refuse(c->context, e, e->place,
            "there is no length of time for 'from-age' to shorten; "
            "add one to 'every'");
        return;
    }
    /* An interval of one's own may be shorter than all that was taken over. */
    if (e != here(c, "from-age"))
        return;
    for (int i = 0; i < c->rule->n_ages; i++) {
        struct span step = c->rule->ages[i].every;
        if (span_size(step) > span_size(every->span))
            context_refuse(c->context, e, e->place,
                "from an age on the interval can only get shorter, and '%s' "
                "is longer than '%s'",
                span_text(step, text), every->text);
    }
}

static void
check_all(const struct rule_check *c)
{
    check_keeping(c);
    check_week_end(c);
    check_first_week_end(c);
    check_runs_from(c);
    check_window(c);
    check_also_counts(c);
    check_roll(c);
    check_ages(c);
}

void
check_job_rule(
    struct load_context *r, const struct section *s, const struct job *job)
{
    struct rule_check c = {r, s, NULL, job, s, &job->rule};

    check_all(&c);
}

void
check_own_rule(
    struct load_context *r, const struct subject_def *h, const struct use *use)
{
    struct rule_check c = {r, h->section, h->type ? h->type->section : NULL,
        use->job, document_find(r->document, SECTION_JOB, use->job->id),
        use->own};

    check_all(&c);
}
