#include "buf.h"
#include "caution.h"
#include "view.h"
#include "wording.h"

#include <string.h>

/*
 * For a terminal: one line a due, under its state.  First the day to do it,
 * then on what, then what, then the last day and who says so.
 */

struct widths {
    int subject;
    int title;
};

static int
wider(int width, const char *text)
{
    int len = (int)strlen(text);

    return len > width ? len : width;
}

static struct widths
measure(const struct selection *dues)
{
    struct widths w = {0, 0};

    for (size_t i = 0; i < dues->n; i++) {
        w.subject = wider(w.subject, dues->dues[i]->task->subject->id);
        w.title = wider(w.title, dues->dues[i]->task->job->title);
    }
    return w;
}

static void
add_line(const struct due *d, struct widths w, struct buf *out)
{
    char plan[DAY_WORDS];
    char last[DAY_WORDS];
    const struct job *job = d->task->job;

    buf_print(out, "  %-14s  %-*s  %-*s  ", day_words(d->plan_day, plan),
        w.subject, d->task->subject->id, w.title, job->title);
    if (d->deadline != DAY_NONE)
        buf_print(out, "by %s, ", day_words(d->deadline, last));
    buf_print(out, "%s%s\n", fleet_class_word(job->class),
        d->booked != DAY_NONE && !(d->warnings & WARN_BOOKED) ? ", booked"
                                                              : "");
}

/* What a line asks for that the days do not say. */
static void
add_advice(const struct due *d, struct buf *out)
{
    const char *advice = wording_of(d->state)->advice;

    if (advice == NULL && !d->no_return && d->besides != DUE_NEEDS_READING)
        return;
    buf_print(out, "%18s- ", "");
    if (d->besides == DUE_NEEDS_READING)
        wording_reading(d, out);
    else
        buf_text(out, advice ? advice : WORDING_NO_RETURN);
    buf_text(out, "\n");
}

static int
add_due(const struct due *d, struct widths w, day_t today, struct buf *out)
{
    add_line(d, w, out);
    add_advice(d, out);
    return wording_warnings(d, today, 18, out);
}

static int
render(const struct selection *dues, struct buf *out)
{
    day_t today = snapshot_today(dues->of);
    struct widths w = measure(dues);
    int state = -1;

    buf_print(out, "%s, ", snapshot_fleet(dues->of)->site.name);
    wording_today(today, out);
    buf_text(out, "\n");
    for (size_t i = 0; i < dues->n; i++) {
        const struct due *d = dues->dues[i];
        if ((int)d->state != state)
            buf_print(out, "\n%s\n", wording_of(d->state)->heading);
        state = (int)d->state;
        if (add_due(d, w, today, out))
            return -1;
    }
    if (dues->n == 0)
        buf_text(out, "\nNothing is due.\n");
    buf_print(out, "\n%s\n", CAUTION_TEXT);
    return buf_failed(out) ? -1 : 0;
}

const struct view view_list = {"list", 0, render};
