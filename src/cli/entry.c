#include "entry.h"

#include "kind.h"
#include "records.h"

#include <stdlib.h>
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

/*
 * Our own policy, not a rule of anybody: more than this no vehicle drives in a
 * day, nor does anything run.
 */
static int64_t
most_in_a_day(const struct record *r)
{
    enum { MOST_KM = 1500, MOST_MILES = 950, MOST_HOURS = 24 };

    if (r->meter == METER_HOURS)
        return MOST_HOURS;
    return r->subject->unit == UNIT_MILES ? MOST_MILES : MOST_KM;
}

/* Nonzero when there are more a day from one reading to the other than can be.
 * Both days count: the first may have been read in its morning and the other
 * in its evening. */
static int
too_fast(const struct record *r, day_t day, int64_t value)
{
    int64_t days = llabs((int64_t)r->day - day) + 1;

    return llabs(r->reading - value) > days * most_in_a_day(r);
}

/* Refuse @r for the reading @k, since it is @why. */
static int
refuse_reading(const struct record *r, const struct known_reading *k,
    const char *why, struct fault *f)
{
    char day[DAY_WORDS];
    char own[DAY_WORDS];

    return fault_set(f, EX_DATAERR,
        "%s showed %lld on %s (record %lld), so %lld on %s is %s; if record "
        "%lld is wrong, void it: ostler record --void %lld --note TEXT; if "
        "both are right, add --sure; if the meter was replaced: ostler reading "
        "%s N --on DAY --new-meter",
        r->subject->id, (long long)k->value, day_words(k->day, day),
        (long long)k->id, (long long)r->reading, day_words(r->day, own), why,
        (long long)k->id, (long long)k->id, r->subject->id);
}

/* Why @r cannot follow the reading @k, or NULL. */
static const char *
against_earlier(const struct record *r, const struct known_reading *k)
{
    if (!k->found || r->kind == RECORD_REPLACED)
        return NULL;
    if (k->day == r->day && k->value != r->reading && !k->fitted)
        return "another value for the same day";
    if (k->value > r->reading)
        return "backwards";
    return too_fast(r, k->day, k->value) ? "more than can be in that time"
                                         : NULL;
}

/* Why @r cannot go before the reading @k, or NULL. */
static const char *
against_later(const struct record *r, const struct known_reading *k)
{
    if (!k->found)
        return NULL;
    if (k->value < r->reading)
        return "backwards";
    return too_fast(r, k->day, k->value) ? "less than can be in that time"
                                         : NULL;
}

const char *
entry_doubt_reading(struct ledger *l, const struct record *r,
    struct known_reading *against, struct fault *f)
{
    struct known_reading after;
    const char *why;

    if (records_readings_around(
            l, r->subject_id, r->meter, r->day, against, &after, f))
        return NULL;
    if ((why = against_earlier(r, against)) != NULL)
        return why;
    *against = after;
    return against_later(r, &after);
}

int
entry_judge_reading(struct ledger *l, const struct record *r, struct fault *f)
{
    struct known_reading against;
    const char *why = entry_doubt_reading(l, r, &against, f);

    if (why != NULL)
        return refuse_reading(r, &against, why, f);
    return f->code ? -1 : 0;
}

int
entry_check_reading(
    struct invocation *i, const struct pass *p, const struct record *r)
{
    if (options_value(&i->options, "sure") != NULL)
        return 0;
    return entry_judge_reading(pass_ledger(p), r, &i->fault);
}
