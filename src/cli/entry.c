#include "entry.h"

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

    if (first != DAY_NONE && day < first)
        return fault_set(&i->fault, EX_DATAERR,
            "%s is before %s existed (%s, by the fleet file); check the day",
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

/* Nonzero when the two readings, of one meter, cannot both be right. */
static int
contradict(const struct record *old, const struct record *new)
{
    return (old->day < new->day && old->reading > new->reading) ||
           (old->day > new->day && old->reading < new->reading) ||
           (old->day == new->day && old->reading > new->reading);
}

int
entry_check_reading(
    struct invocation *i, const struct pass *p, const struct record *r)
{
    size_t n;
    const struct record *all = pass_records(p, &n);
    char day[DAY_WORDS];

    for (size_t k = 0; k < n; k++) {
        const struct record *old = &all[k];
        if (old->subject != r->subject || old->meter != r->meter ||
            old->reading < 0 || old->voided_by != 0 || !contradict(old, r))
            continue;
        return fault_set(&i->fault, EX_DATAERR,
            "%s showed %lld on %s (record %lld), so it cannot have shown %lld; "
            "if that record is wrong, void it: ostler record --void %lld "
            "--note TEXT",
            r->subject->id, (long long)old->reading, day_words(old->day, day),
            (long long)old->id, (long long)r->reading, (long long)old->id);
    }
    return 0;
}
