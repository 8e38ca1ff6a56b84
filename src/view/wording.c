#include "wording.h"

#include "buf.h"
#include "isoweek.h"

#include <stdio.h>
#include <string.h>

static const struct wording states[] = {
    [DUE_FAILED] = {.heading = "Failed",
        .title = "failed",
        .count = "failed",
        .matter = "failed"},
    [DUE_NO_RECORD] = {.heading = "No record",
        .title = "no record",
        .count = "without a record",
        .matter = "has no record",
        .besides = "there is no record that it was ever done",
        .advice = "record when it was last done, or give it a first day"},
    [DUE_OVERDUE] = {.heading = "Overdue",
        .title = "overdue",
        .count = "overdue",
        .matter = "overdue",
        .besides = "it is overdue as well: its deadline is past"},
    [DUE_NEEDS_READING] = {.heading = "Needs a reading",
        .title = "needs a reading",
        .count = "without a reading",
        .matter = "needs a reading",
        .besides = "it needs a reading as well",
        .advice = "record what the meter shows: ostler reading"},
    [DUE_BEFORE_RETURN] = {.heading = "Before return",
        .title = "before return",
        .count = "before return",
        .matter = "due before return",
        .besides = "it is to be done before the return to the road"},
    [DUE_NOW] = {.heading = "This week",
        .title = "",
        .count = "this week",
        .matter = ""},
    [DUE_AHEAD] = {.heading = "Coming",
        .title = "",
        .count = "coming",
        .matter = ""},
};

const struct wording *
wording_of(enum due_state state)
{
    return &states[state];
}

void
wording_states(const struct due *d, struct buf *out)
{
    buf_text(out, states[d->state].title);
    if (d->state == DUE_FAILED && states[d->besides].title[0] != '\0')
        buf_print(out, " and %s", states[d->besides].title);
    if (d->warnings & WARN_BEFORE_RETURN)
        buf_print(out, " and %s", states[DUE_BEFORE_RETURN].title);
    const char *gap = states[d->state].title[0] != '\0' ? " and " : "";
    if (d->warnings & WARN_BOOKED_PASSED)
        buf_print(out, "%snot done when booked", gap);
    else if (d->warnings & WARN_BOOKED_LATE)
        buf_print(out, "%sbooked after the deadline", gap);
}

void
wording_failure(const struct due *d, struct buf *out)
{
    const struct record *f = d->failed;
    char day[DAY_WORDS];

    buf_print(out, "failed on %s", day_words(f->day, day));
    if (f->by != NULL || f->reference != NULL)
        buf_print(out, " (%s%s%s%s%s)", f->by ? "by " : "", f->by ? f->by : "",
            f->by && f->reference ? ", " : "", f->reference ? "reference " : "",
            f->reference ? f->reference : "");
    if (f->note != NULL)
        buf_print(out, ": %s", f->note);
}

static int
failure_notes(const struct due *d, wording_line *line, void *to)
{
    struct buf *text = buf_new();

    if (text == NULL)
        return -1;
    wording_failure(d, text);
    line(to, buf_str(text));
    int rc = buf_failed(text) ? -1 : 0;
    buf_free(text);
    if (states[d->besides].besides != NULL)
        line(to, states[d->besides].besides);
    return rc;
}

int
wording_notes(const struct due *d, day_t today, unsigned without,
    wording_line *line, void *to)
{
    char text[160];

    if (d->state == DUE_FAILED && failure_notes(d, line, to))
        return -1;
    for (unsigned bit = 1; bit <= WARN_LAST; bit <<= 1)
        if (d->warnings & bit & ~without)
            line(to, due_warning_text(
                         d, (enum due_warning)bit, today, text, sizeof text));
    return 0;
}

/* Where lines of a terminal go. */
struct indented {
    struct buf *out;
    size_t by;
};

static void
add_indented(void *to, const char *text)
{
    const struct indented *i = to;

    buf_fill(i->out, ' ', i->by);
    buf_print(i->out, "! %s\n", text);
}

int
wording_warnings(
    const struct due *d, day_t today, size_t indent, struct buf *out)
{
    return wording_notes(
        d, today, 0, add_indented, &(struct indented){out, indent});
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
