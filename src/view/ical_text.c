#include "ical_text.h"

#include "buf.h"
#include "caution.h"
#include "clean.h"

#include <string.h>

static void
add_clean(struct buf *out, const char *text)
{
    clean_add(out, CLEAN_LINE, text, strlen(text));
}

static void
add_line(struct buf *out, const char *text)
{
    add_clean(out, text);
    buf_text(out, "\n");
}

/* A labelled day, or @none in its place; nothing when that is NULL. */
static void
add_day(struct buf *out, const char *label, day_t d, const char *none)
{
    char text[DAY_WORDS];

    if (d != DAY_NONE)
        buf_print(out, "%s: %s\n", label, day_words(d, text));
    else if (none != NULL)
        buf_print(out, "%s: %s\n", label, none);
}

static void
add_class(struct buf *out, const struct job *job)
{
    buf_print(out, "Class: %s", fleet_class_word(job->class));
    if (job->authority != NULL) {
        buf_text(out, ", ");
        add_clean(out, job->authority);
    }
    buf_text(out, "\n");
}

void
ical_summary(const struct due *d, struct buf *out)
{
    if (d->state == DUE_OVERDUE)
        buf_text(out, "Overdue: ");
    else if (d->cycle.ahead > 0)
        buf_text(out, "Forecast: ");
    add_clean(out, d->task->subject->id);
    buf_text(out, " - ");
    add_clean(out, d->task->job->title);
}

void
ical_description(const struct due *d, struct buf *out)
{
    const struct job *job = d->task->job;

    add_day(out, "Deadline", d->deadline, "none");
    add_day(out, "Book by", d->book_by, NULL);
    add_class(out, job);
    add_day(out, "Last done", d->last_done, "not on record");
    for (size_t i = 0; i < d->n_reasons; i++)
        add_line(out, d->reasons[i].text);
    if (job->caution != NULL)
        add_line(out, job->caution);
    buf_text(out, CAUTION_TEXT);
}

/*
 * Append @text, clean, as a name.  libical escapes commas and semicolons
 * neither in CATEGORIES nor in X- properties, and there is no way to hand it
 * an escaped one; so these and the backslash become blanks.
 */
static void
add_name(struct buf *out, const char *text)
{
    clean_add(out, CLEAN_NAME, text, strlen(text));
}

static const char *
category(const struct due *d)
{
    if (d->state == DUE_OVERDUE)
        return "Overdue";
    return d->cycle.ahead > 0 ? "Forecast" : "Due";
}

void
ical_categories(const struct due *d, struct buf *out)
{
    const struct depot *depot = fleet_depot(d->task->subject);

    buf_text(out, category(d));
    if (depot != NULL) {
        buf_text(out, ",");
        add_name(out, depot->id);
    }
}

void
ical_calendar_name(const char *title, struct buf *out)
{
    add_name(out, title);
}

static day_t
forecast_day(const struct due *d)
{
    switch (d->task->rule->forecast) {
    case FORECAST_EARLY:
        return d->forecast.early;
    case FORECAST_LIKELY:
        return d->forecast.likely;
    case FORECAST_LATE:
        return d->forecast.late;
    }
    return DAY_NONE;
}

/* The forecast decided unless another limit comes before its day.  A reading
 * that already shows the due reading is a fact, not a forecast. */
int
ical_is_tentative(const struct due *d)
{
    if (d->cycle.ahead > 0)
        return 1;
    if (d->forecast.basis != FORECAST_STATED &&
        d->forecast.basis != FORECAST_READINGS)
        return 0;
    day_t day = forecast_day(d);
    return day != DAY_NONE && day <= d->deadline;
}
