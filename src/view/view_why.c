#include "buf.h"
#include "caution.h"
#include "view.h"
#include "wording.h"

/*
 * Every step of each due, for reading: what happened, on the right of the day
 * it led to.
 */

static void
add_day(const char *label, day_t d, struct buf *out)
{
    char day[DAY_WORDS];

    if (d != DAY_NONE)
        buf_print(out, "%-12s%s\n", label, day_words(d, day));
}

static void
add_text(const char *label, const char *text, struct buf *out)
{
    if (text != NULL)
        buf_print(out, "%-12s%s\n", label, text);
}

static void
add_reason(const struct reason *r, struct buf *out)
{
    char day[DAY_WORDS] = "";

    if (r->step != REASON_NOTE && r->step != REASON_FIRST)
        day_words(r->after, day);
    buf_print(out, "  %-14s  %s\n", day, r->text);
}

static int
add_due(const struct due *d, day_t today, struct buf *out)
{
    const struct job *job = d->task->job;

    wording_subject(d->task->subject, out);
    buf_print(out, ": %s\n\n", job->title);
    add_text("state", due_state_word(d->state), out);
    add_day("deadline", d->deadline, out);
    add_day("plan day", d->plan_day, out);
    add_day("book by", d->book_by, out);
    add_day("booked for", d->booked, out);
    add_day("last done", d->last_done, out);
    add_text("class", fleet_class_word(job->class), out);
    add_text("authority", job->authority, out);
    add_text("source", job->source, out);
    add_text("caution", job->caution, out);
    buf_text(out, "\n");
    if (d->besides == DUE_NO_RECORD)
        buf_text(out, "  No record, and nothing in the fleet file to run "
                      "from.\n");
    for (size_t i = 0; i < d->n_reasons; i++)
        add_reason(&d->reasons[i], out);
    int rc = wording_warnings(d, today, 18, out);
    buf_text(out, "\n");
    return rc;
}

static int
render(const struct shown *shown, struct buf *out)
{
    const struct selection *dues = shown->dues;

    for (size_t i = 0; i < dues->n; i++)
        if (add_due(dues->dues[i], snapshot_today(dues->of), out))
            return -1;
    buf_print(out, "%s\n", CAUTION_TEXT);
    return buf_failed(out) ? -1 : 0;
}

const struct view view_why = {"why", 1, 0, render};
