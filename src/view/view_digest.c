#include "buf.h"
#include "caution.h"
#include "view.h"
#include "wording.h"

/*
 * The text of a mail, for a phone and for a screen reader: short lines, no
 * columns, the most urgent first.
 */

static void
add_day(const char *label, day_t d, struct buf *out)
{
    char day[DAY_WORDS];

    if (d != DAY_NONE)
        buf_print(out, "%s %s\n", label, day_words(d, day));
}

/* The step that sets the date says why in one line. */
static const char *
main_reason(const struct due *d)
{
    for (size_t i = d->n_reasons; i-- > 0;)
        if (d->reasons[i].step == REASON_INTERVAL ||
            d->reasons[i].step == REASON_FORECAST ||
            d->reasons[i].step == REASON_AGE)
            return d->reasons[i].text;
    return NULL;
}

/* What to type, so that it need not be looked up. */
static void
add_command(const struct due *d, struct buf *out)
{
    const struct task *t = d->task;

    if (d->to_read != METER_NONE) {
        buf_text(out, "When the meter is read: ");
        wording_reading(d, out);
        buf_text(out, "\n");
    }
    buf_print(out, "%s: ostler record %s %s --on DAY\n\n",
        d->state == DUE_NO_RECORD ? "If it was done" : "When it is done",
        t->subject->id, t->job->id);
}

static void
add_due(const struct due *d, day_t today, struct buf *out)
{
    const struct task *t = d->task;
    const char *why = main_reason(d);

    wording_subject(t->subject, out);
    buf_print(out, ": %s\n", t->job->title);
    add_day("Plan day", d->plan_day, out);
    add_day("Deadline", d->deadline, out);
    add_day("Book by", d->book_by, out);
    if (why != NULL)
        buf_print(out, "Why: %s\n", why);
    wording_warnings(d, today, 0, out);
    add_command(d, out);
}

static int
render(const struct selection *dues, struct buf *out)
{
    day_t today = snapshot_today(dues->of);
    int state = -1;

    buf_print(out, "%s, ", snapshot_fleet(dues->of)->site.name);
    wording_today(today, out);
    buf_text(out, "\n\n");
    for (size_t i = 0; i < dues->n; i++) {
        const struct due *d = dues->dues[i];
        if ((int)d->state != state)
            buf_print(out, "** %s\n\n", wording_state(d->state));
        state = (int)d->state;
        add_due(d, today, out);
    }
    buf_print(out, "%s\n", CAUTION_TEXT);
    return buf_failed(out) ? -1 : 0;
}

const struct view view_digest = {"digest", render};
