#include "overtaken.h"

#include "config.h"
#include "stated.h"

#include <stdio.h>
#include <sysexits.h>

struct warning {
    const struct run_context *run;
    struct problems *problems;
};

static void
say_overtaken(const struct stated *s, const char *what, char *out, size_t size)
{
    const char *job = s->task->job->id;
    char day[DAY_TEXT];
    char next[DAY_TEXT];
    char instead[200] = "take this line out";

    /* Without the line a series would begin with the first record. */
    day_text(s->next, next);
    if (s->begins && s->next != DAY_NONE && s->late)
        snprintf(instead, sizeof instead,
            "write %s.last = %s and %s.deadline = %s instead", job,
            day_text(s->done, day), job, next);
    else if (s->begins && s->next != DAY_NONE)
        snprintf(instead, sizeof instead, "write %s.deadline = %s instead", job,
            next);
    snprintf(out, size,
        "%s of %s is overtaken by %s, from which it runs now; %s",
        s->task->subject->id, day_text(s->deadline, day), what, instead);
}

static void
say(void *with, const struct stated *s)
{
    const struct warning *w = with;
    char day[DAY_WORDS];
    char what[96];
    char text[600];

    day_words(s->done, day);
    if (s->record != NULL)
        snprintf(what, sizeof what, "record %lld of %s",
            (long long)s->record->id, day);
    else
        snprintf(what, sizeof what, "what the fleet file has of %s", day);
    if (s->overtaken)
        say_overtaken(s, what, text, sizeof text);
    else
        snprintf(text, sizeof text,
            "%s came too early for %s of %s, which stands; if it was done for "
            "that, correct one of the two days",
            what, s->task->subject->id,
            day_words(s->deadline, (char[DAY_WORDS]){0}));
    config_warn_stated(run_config(w->run), s->task, text, w->problems);
}

int
overtaken_warn(
    const struct run_context *p, struct problems *ps, struct fault *f)
{
    struct warning w = {p, ps};

    if (stated_look(run_facts(p), say, &w))
        return fault_set(f, EX_OSERR, "out of memory");
    return 0;
}
