#include "wording.h"

#include "buf.h"
#include "isoweek.h"

#include <stdio.h>
#include <string.h>

const char *
wording_state(enum due_state state)
{
    static const char *const words[] = {"No record", "Overdue",
        "Needs a reading", "Before return", "This week", "Coming"};

    return words[state];
}

void
wording_warnings(
    const struct due *d, day_t today, size_t indent, struct buf *out)
{
    char text[160];

    for (unsigned bit = 1; bit <= WARN_LAST; bit <<= 1) {
        if (!(d->warnings & bit))
            continue;
        buf_fill(out, ' ', indent);
        buf_print(out, "! %s\n",
            due_warning_text(
                d, (enum due_warning)bit, today, text, sizeof text));
    }
}

void
wording_reading(const struct due *d, struct buf *out)
{
    buf_print(out, "ostler reading %s N%s --on DAY", d->task->subject->id,
        d->to_read == METER_HOURS ? " --hours" : "");
}

void
wording_subject(const struct subject *s, struct buf *out)
{
    buf_text(out, s->id);
    if (s->title != NULL)
        buf_print(out, " (%s)", s->title);
}

void
wording_today(day_t today, struct buf *out)
{
    char day[DAY_WORDS];
    struct isoweek w = isoweek_of(today);

    buf_print(out, "%s (%d-W%02d)", day_words(today, day), w.year, w.week);
}

const char *
wording_short_date(day_t d, char out[WORDING_DATE])
{
    static const char *const weekdays[] = {
        "Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"};
    static const char *const months[] = {"Jan", "Feb", "Mar", "Apr", "May",
        "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"};

    if (d == DAY_NONE) {
        snprintf(out, WORDING_DATE, "-");
        return out;
    }
    struct ymd date = day_ymd(d);
    snprintf(out, WORDING_DATE, "%s %d %s", weekdays[day_weekday(d)], date.day,
        months[date.month - 1]);
    return out;
}

const char *
wording_date(day_t d, char out[WORDING_DATE])
{
    size_t len = strlen(wording_short_date(d, out));

    if (d != DAY_NONE)
        snprintf(out + len, WORDING_DATE - len, " %d", day_ymd(d).year);
    return out;
}
