#include "entry.h"

#include "kind.h"
#include "records.h"
#include "suspect.h"

#include <sysexits.h>

const char *
entry_text(struct invocation *i, const char *option)
{
    const char *text = options_value(&i->options, option);

    if (text == NULL)
        return NULL;
    if (text[0] == '\0')
        fault_fill(&i->fault, EX_USAGE, "--%s is empty; say it or leave it out",
            option);
    for (const char *c = text; *c != '\0'; c++)
        if ((unsigned char)*c < ' ' || *c == 127)
            fault_fill(&i->fault, EX_USAGE,
                "--%s has a control character; write it on one line", option);
    return text;
}

int
entry_sign(struct invocation *i, const struct pass *p, struct record *r)
{
    r->entered = pass_moment(p).now;
    r->by = entry_text(i, "by");
    r->reference = entry_text(i, "reference");
    r->note = entry_text(i, "note");
    return i->fault.code ? -1 : 0;
}

int
entry_check_existed(struct invocation *i, const struct record *r, day_t day)
{
    const struct subject *s = r->subject;
    day_t first =
        day_earlier(s->built, day_earlier(s->registered, s->in_service));
    char text[DAY_WORDS];
    char other[DAY_WORDS];

    if (options_value(&i->options, "sure") != NULL)
        return 0;
    if (first != DAY_NONE && day < first)
        return fault_set(&i->fault, EX_DATAERR,
            "%s is before %s existed (%s, by the fleet file); check the day, "
            "or add --sure if it is right",
            day_words(day, text), s->id, day_words(first, other));
    return 0;
}

int
entry_check_day(
    struct invocation *i, const struct pass *p, const struct record *r)
{
    char day[DAY_WORDS];
    char other[DAY_WORDS];
    day_t today = pass_moment(p).today;

    if (r->day > today)
        return fault_set(&i->fault, EX_DATAERR,
            "%s is still to come (today is %s); record what was done once it "
            "has been",
            day_words(r->day, day), day_words(today, other));
    return entry_check_existed(i, r, r->day);
}

/* Nonzero when some job of @s goes by that meter, or none by any. */
static int
goes_by(const struct fleet *f, const struct subject *s, enum meter meter)
{
    int other = 0;

    for (size_t k = 0; k < s->n_tasks; k++) {
        const struct rule *rule = f->tasks[s->first_task + k].rule;
        for (int e = 0; e < rule->n_every; e++) {
            if (kind_meter(&rule->every[e]) == meter)
                return 1;
            other |= kind_meter(&rule->every[e]) != METER_NONE;
        }
    }
    return !other;
}

enum meter
entry_meter(const struct fleet *f, const struct subject *s)
{
    return goes_by(f, s, METER_DISTANCE) ? METER_DISTANCE : METER_HOURS;
}

int
entry_other_unit(const struct record *r)
{
    day_t since = r->subject->unit_since;

    return r->meter == METER_DISTANCE && since != DAY_NONE && r->day < since;
}

int
entry_check_reading(
    struct invocation *i, const struct pass *p, const struct record *r)
{
    struct suspicion s;

    if (options_value(&i->options, "sure") != NULL)
        return 0;
    int doubted =
        suspect_reading(pass_fleet(p), pass_ledger(p), r, &s, &i->fault);
    return doubted > 0 ? suspect_refuse(r, &s, &i->fault) : doubted;
}
