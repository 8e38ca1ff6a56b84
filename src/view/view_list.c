#include "buf.h"
#include "caution.h"
#include "condition.h"
#include "view.h"
#include "wording.h"

#include <ctype.h>
#include <string.h>

/*
 * For a terminal: which vehicles are not fit and why, then one line a due,
 * under its state.  First the day to do it, then on what, then what, then the
 * last day and who says so.
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

/* "NOT TO BE DRIVEN" shouts, the other words begin with a capital. */
static void
add_condition_head(enum fitness condition, struct buf *out)
{
    const char *said = condition_said(condition);

    buf_text(out, "\n");
    for (size_t i = 0; said[i] != '\0'; i++) {
        int shout = i == 0 || condition == CONDITION_NOT_TO_BE_DRIVEN;
        buf_print(out, "%c", shout ? toupper((unsigned char)said[i]) : said[i]);
    }
    buf_text(out, "\n");
}

/* The reasons that make the condition; what weighs less stands with the dues
 * and in the list of defects. */
static void
add_stops(const struct vehicle_condition *v, struct buf *out)
{
    for (size_t i = 0; i < v->n_stops; i++) {
        const struct stop *s = &v->stops[i];
        const char *note = stop_note(s);
        if (s->makes != v->condition)
            continue;
        buf_print(out, "  %s  ", v->vehicle->id);
        stop_say(s, out);
        buf_print(out, "%s%s", note ? ": " : "", note ? note : "");
        if (v->condition == CONDITION_NOT_TO_BE_DRIVEN)
            buf_print(out, "; lifted by %s", stop_lifted_by(s->kind));
        buf_text(out, "\n");
    }
}

/* Nonzero when somebody follows defects here: else a list of what nobody looks
 * for would only stand in the way of the dates. */
static int
follows_defects(const struct shown *shown)
{
    const struct fleet *f = snapshot_fleet(shown->dues->of);
    size_t n;

    (void)defects_all(shown->defects, &n);
    for (size_t i = 0; i < f->n_persons; i++)
        n += f->persons[i].may != 0;
    return n + f->n_sheets > 0;
}

/* Those that are not fit, the gravest first, and how many others are; returns
 * how many it called fit. */
static size_t
add_conditions(const struct shown *shown, struct buf *out)
{
    size_t n;
    size_t listed = 0;
    size_t fit = 0;
    const struct vehicle_condition *v = conditions_all(shown->conditions, &n);
    int all = follows_defects(shown);
    int head = -1;

    for (size_t i = 0; i < n; i++) {
        enum fitness condition = v[i].condition;
        if (!select_vehicle(shown->filter, v[i].vehicle) ||
            (!all && condition != CONDITION_NOT_TO_BE_DRIVEN))
            continue;
        fit += condition == CONDITION_FIT;
        if (condition == CONDITION_FIT)
            continue;
        if ((int)condition != head)
            add_condition_head(condition, out);
        head = (int)condition;
        add_stops(&v[i], out);
        listed++;
    }
    if (fit == 1 && listed == 0)
        buf_print(out, "\nThe vehicle is %s.\n", condition_said(CONDITION_FIT));
    else if (fit > 0)
        buf_print(out, "\n%s %zu: %s.\n", listed ? "The other" : "All", fit,
            condition_said(CONDITION_FIT));
    return fit;
}

static int
render(const struct shown *shown, struct buf *out)
{
    const struct selection *dues = shown->dues;
    day_t today = snapshot_today(dues->of);
    struct widths w = measure(dues);
    int state = -1;

    buf_print(out, "%s, ", snapshot_fleet(dues->of)->site.name);
    wording_today(today, out);
    buf_text(out, "\n");
    size_t fit = add_conditions(shown, out);
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
    buf_print(out, "\n%s\n", fit > 0 ? CAUTION_FIT : CAUTION_TEXT);
    return buf_failed(out) ? -1 : 0;
}

const struct view view_list = {"list", 0, 1, render};
