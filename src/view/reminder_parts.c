#include "reminder_parts.h"

#include "buf.h"
#include "clean.h"
#include "wording.h"

#include <ctype.h>
#include <stdio.h>
#include <string.h>

static const enum due_state states[REMINDER_GROUPS] = {
    [REMINDER_FAILED] = DUE_FAILED,
    [REMINDER_NO_RECORD] = DUE_NO_RECORD,
    [REMINDER_OVERDUE] = DUE_OVERDUE,
    [REMINDER_NEEDS_READING] = DUE_NEEDS_READING,
    [REMINDER_BEFORE_RETURN] = DUE_BEFORE_RETURN,
    [REMINDER_THIS_WEEK] = DUE_NOW,
    [REMINDER_BOOK_NOW] = DUE_AHEAD,
    [REMINDER_COMING] = DUE_AHEAD,
};

enum reminder_group
reminder_group(const struct due *d)
{
    for (int g = 0; g < REMINDER_BOOK_NOW; g++)
        if (states[g] == d->state)
            return (enum reminder_group)g;
    return d->warnings & WARN_BOOK_NOW ? REMINDER_BOOK_NOW : REMINDER_COMING;
}

const char *
reminder_heading(enum reminder_group g)
{
    return g == REMINDER_BOOK_NOW ? "Book now" : wording_of(states[g])->heading;
}

size_t
reminder_count(const struct reminder_mail *l, enum reminder_group g)
{
    size_t n = 0;

    for (size_t i = 0; i < l->n; i++)
        n += reminder_group(l->items[i].due) == g;
    return n;
}

void
reminder_summary(const struct reminder_mail *l, struct buf *out)
{
    const char *gap = "";

    for (int g = 0; g < REMINDER_GROUPS; g++) {
        size_t n = reminder_count(l, (enum reminder_group)g);
        if (n > 0) {
            buf_print(out, "%s%zu %s", gap, n,
                g == REMINDER_BOOK_NOW ? "to book now"
                                       : wording_of(states[g])->count);
            gap = ", ";
        }
    }
}

/* Say the deadline with the class, and the plan day where it is another. */
static void
say_days(const struct due *d, reminder_line *line, void *to, struct buf *text)
{
    const char *class = fleet_class_word(d->task->job->class);
    char day[WORDING_DATE];

    buf_clear(text);
    if (d->deadline == DAY_NONE)
        buf_print(text, "not known (%s)", class);
    else
        buf_print(text, "%s (%s)", wording_date(d->deadline, day), class);
    line(to,
        d->plan_day != DAY_NONE && d->plan_day == d->deadline
            ? "Deadline and plan day"
            : "Deadline",
        buf_str(text));
    if (d->plan_day != DAY_NONE && d->plan_day != d->deadline)
        line(to, "Plan day", wording_date(d->plan_day, day));
    if (d->booked != DAY_NONE && !(d->warnings & WARN_BOOKED))
        line(to, "Booked for", wording_date(d->booked, day));
    if (d->book_by != DAY_NONE && d->besides >= DUE_NOW &&
        !(d->warnings & WARN_PLAN_PASSED))
        line(to, "Book by", wording_date(d->book_by, day));
}

static void
say_move(const struct reminder_item *item, reminder_line *line, void *to,
    struct buf *text)
{
    day_t now = item->due->deadline;
    char day[WORDING_DATE];

    if (item->moved_from == DAY_NONE)
        return;
    buf_clear(text);
    buf_print(text, "from %s", wording_date(item->moved_from, day));
    buf_print(
        text, " to %s", now == DAY_NONE ? "no day" : wording_date(now, day));
    line(to, "Deadline moved", buf_str(text));
}

struct note_line {
    reminder_line *line;
    void *to;
};

static void
say_note(void *to, const char *text)
{
    const struct note_line *n = to;

    n->line(n->to, "Note", text);
}

/* That it is to be booked is said by its day. */
static int
say_warnings(const struct due *d, day_t today, reminder_line *line, void *to)
{
    return wording_notes(
        d, today, WARN_BOOK_NOW, say_note, &(struct note_line){line, to});
}

/* The step that sets the date; without one, that which says what is missing,
 * or the first. */
static const struct reason *
main_reason(const struct due *d)
{
    const struct reason *note = d->n_reasons > 0 ? &d->reasons[0] : NULL;

    for (size_t i = d->n_reasons; i-- > 0;) {
        const struct reason *r = &d->reasons[i];
        if (r->step == REASON_INTERVAL || r->step == REASON_FORECAST ||
            r->step == REASON_AGE)
            return r;
        if (r->step == REASON_NOTE && d->besides == DUE_NEEDS_READING)
            note = r;
    }
    return note;
}

/* Why that deadline, in one line, with the day that an interval runs from. */
static void
say_why(const struct due *d, reminder_line *line, void *to, struct buf *text)
{
    const struct reason *why = main_reason(d);
    char day[WORDING_DATE];

    buf_clear(text);
    if (why == NULL)
        buf_text(text, "nothing says when it was last done");
    else
        buf_text(text, why->text);
    /* After a colon it says itself what it runs from. */
    if (why != NULL && why->step == REASON_INTERVAL &&
        why->before != DAY_NONE && strchr(why->text, ':') == NULL)
        buf_print(text, ", from %s", wording_date(why->before, day));
    line(to, "Why", buf_str(text));
    for (size_t i = 0; i < d->n_reasons; i++)
        if (d->reasons[i].step == REASON_OFF_ROAD)
            line(to, "Note", d->reasons[i].text);
}

int
reminder_lines(const struct reminder_mail *l, const struct reminder_item *item,
    reminder_line *line, void *to)
{
    struct buf *text = buf_new();

    if (text == NULL)
        return -1;
    say_move(item, line, to, text);
    say_days(item->due, line, to, text);
    int failed = say_warnings(item->due, l->today, line, to);
    say_why(item->due, line, to, text);
    failed = failed || buf_failed(text);
    buf_free(text);
    return failed ? -1 : 0;
}

int
reminder_commands(const struct due *d, reminder_line *line, void *to)
{
    const char *subject = d->task->subject->id;
    struct buf *text = buf_new();

    if (text == NULL)
        return -1;
    if (d->to_read != METER_NONE) {
        wording_reading(d, text);
        line(to, "With what the meter shows", buf_str(text));
        buf_clear(text);
    }
    buf_print(text, "ostler record %s %s --on DAY", subject, d->task->job->id);
    line(to, d->state == DUE_NO_RECORD ? "If it was done" : "When it is done",
        buf_str(text));
    int failed = buf_failed(text);
    buf_free(text);
    return failed ? -1 : 0;
}

static void
say_short_days(const struct due *d, struct buf *out)
{
    char day[WORDING_DATE];

    if (d->state == DUE_OVERDUE &&
        !(d->warnings & (WARN_BEFORE_RETURN | WARN_BOOKED))) {
        buf_print(out, " since %s", wording_date(d->deadline, day));
        return;
    }
    if (d->state < DUE_NOW || d->warnings & WARN_BOOKED)
        buf_text(out, ", ");
    else if (d->plan_day != DAY_NONE && d->plan_day != d->deadline)
        buf_print(out, "plan day %s, ", wording_short_date(d->plan_day, day));
    buf_print(out, "deadline %s", wording_date(d->deadline, day));
}

void
reminder_short(const struct due *d, struct buf *out)
{
    const struct job *job = d->task->job;

    buf_print(out, "%s %s, ", d->task->subject->id, job->title);
    wording_states(d, out);
    if (d->deadline != DAY_NONE)
        say_short_days(d, out);
    buf_print(out, " (%s)", fleet_class_word(job->class));
}

const char reminder_first_text[] =
    "This is the first message to you. What follows was under way before it, "
    "and is only named here; you hear of each again at its next reminder.";

void
reminder_outlook(const struct reminder_mail *l, struct buf *out)
{
    char day[WORDING_DATE];

    if (l->n_coming == 0)
        buf_print(out, "Nothing %sof yours is due by %s.",
            l->n > 0 ? "else " : "", wording_date(l->outlook, day));
    else
        buf_print(out,
            "%s that is due by %s, and what waits for a record, a reading or a "
            "return:",
            l->n > 0 ? "Besides what stands above, all" : "All",
            wording_date(l->outlook, day));
}

int
reminder_clean(
    const struct reminder_mail *l, reminder_writer *write, struct buf *out)
{
    struct buf *raw = buf_new();
    int failed = raw == NULL ? -1 : write(l, raw);

    if (!failed) {
        clean_add(out, CLEAN_LINES, buf_str(raw), buf_len(raw));
        failed = buf_failed(out) ? -1 : 0;
    }
    buf_free(raw);
    return failed;
}
