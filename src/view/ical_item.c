#include "ical_item.h"

#include "buf.h"
#include "clean.h"
#include "condition.h"
#include "defect_list.h"
#include "select.h"
#include "wording.h"

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

    if (d == DAY_NONE && none == NULL)
        return;
    buf_text(out, label);
    buf_text(out, d == DAY_NONE ? none : day_words(d, text));
    buf_text(out, "\n");
}

static void
add_class(struct buf *out, const struct job *job)
{
    buf_text(out, "Class: ");
    buf_text(out, fleet_class_word(job->class));
    if (job->authority != NULL) {
        buf_text(out, ", ");
        add_clean(out, job->authority);
    }
    buf_text(out, "\n");
}

day_t
ical_due_day(const struct due *d)
{
    return d->state == DUE_FAILED ? d->failed->day : select_day(d);
}

day_t
ical_day(const struct ical_item *item)
{
    switch (item->kind) {
    case ICAL_DUE:
        return ical_due_day(item->due);
    case ICAL_DONE:
        return item->proof->done;
    case ICAL_DEFECT:
        return item->defect->state == DEFECT_UNTIL
                   ? item->defect->until
                   : item->defect->reported.at.day;
    case ICAL_END:
        return item->day;
    case ICAL_NOTHING:
        break;
    }
    return DAY_NONE;
}

/* What stands between the subject and the job, where a narrow view of a month
 * still shows it.  That a reading is old changes nothing of the day, and is not
 * worth a title of its own. */
static void
add_mark(const struct ical_item *item, struct buf *out)
{
    const struct due *d = item->due;
    const char *instead = NULL;

    if (item->kind == ICAL_DONE)
        instead = "done";
    else if (d->cycle.ahead > 0)
        instead = "forecast";
    else if (ical_day(item) == DAY_NONE)
        instead = d->state >= DUE_NOW ? "no day" : NULL;
    else if ((d->state >= DUE_NOW || d->state == DUE_NEEDS_READING) &&
             !(d->warnings & WARN_BOOKED))
        return;
    buf_text(out, " ");
    if (instead != NULL)
        buf_text(out, instead);
    else
        wording_states(d, out);
}

static const struct task *
task_of(const struct ical_item *item)
{
    return item->kind == ICAL_DONE ? item->proof->task : item->due->task;
}

/* The state first where it stops: many readers show nothing else. */
static void
add_defect(const struct ical_item *item, struct buf *out)
{
    const struct defect *d = item->defect;
    struct buf *raw = buf_new();
    char day[WORDING_DATE];

    if (raw == NULL)
        return;
    buf_print(
        raw, "%s%s ", item->stops ? "Not to be driven: " : "", d->subject_id);
    defect_list_item(d, raw);
    if (!item->stops)
        buf_print(raw, ": until %s", wording_short_date(d->until, day));
    add_clean(out, buf_str(raw));
    buf_free(raw);
}

/* What it is, who found it and decided what, and who may lift it. */
static void
describe_defect(const struct ical_item *item, struct buf *out)
{
    const struct defect *d = item->defect;
    struct buf *raw = buf_new();
    char day[DAY_WORDS];

    if (raw == NULL)
        return;
    buf_print(raw, "Defect %lld, graded %s: %s\n", (long long)d->number,
        sheet_grade_word(d->grade), defect_state_word(d->state));
    if (d->state == DEFECT_UNTIL)
        buf_print(raw, "%s: %s\n",
            item->stops ? "Was put off until" : "Last day",
            day_words(d->until, day));
    defect_list_steps(d, raw);
    buf_print(raw, "Who can lift it: %s\n", stop_lifted_by(STOP_DEFECT));
    for (const char *line = buf_str(raw); *line != '\0';) {
        line += strspn(line, " ");
        size_t len = strcspn(line, "\n");
        clean_add(out, CLEAN_LINE, line, len);
        buf_text(out, "\n");
        line += len + (line[len] == '\n');
    }
    buf_free(raw);
}

void
ical_summary(const struct ical_item *item, struct buf *out)
{
    if (item->kind == ICAL_DEFECT) {
        add_defect(item, out);
        return;
    }
    if (item->kind == ICAL_NOTHING) {
        buf_text(out, "Nothing due in this window");
        return;
    }
    if (item->kind == ICAL_END) {
        buf_text(out, "This calendar ends here: it is full");
        return;
    }
    const struct task *t = task_of(item);
    add_clean(out, t->subject->id);
    add_mark(item, out);
    buf_text(out, " - ");
    add_clean(out, t->job->title);
    /* Some readers tell events apart by day and summary alone. */
    if (t->job->title_shared) {
        buf_text(out, " (");
        add_clean(out, t->job->id);
        buf_text(out, ")");
    }
}

/* An event has to stand somewhere, and a missing record is louder than a late
 * one. */
static void
say_undated(const struct due *d, struct buf *out)
{
    if (d->state == DUE_NO_RECORD)
        buf_text(out, "Nothing says when this was last done: treat it as "
                      "overdue until it is recorded\n");
    buf_text(out, "It has no day, and stands on the one on which it was last "
                  "news\n");
}

/* Its event stands on the day on which it failed, wherever its own is. */
static void
say_failed(const struct due *d, struct buf *out)
{
    const char *besides = wording_of(d->besides)->besides;
    struct buf *text = buf_new();

    if (text == NULL)
        return;
    wording_failure(d, text);
    add_line(out, buf_str(text));
    buf_free(text);
    if (besides != NULL)
        add_line(out, besides);
    add_day(out, "Plan day: ", d->plan_day, NULL);
}

static void
describe_due(const struct due *d, struct buf *out)
{
    const struct job *job = d->task->job;
    char text[160];

    if (d->state == DUE_FAILED)
        say_failed(d, out);
    if (ical_due_day(d) == DAY_NONE)
        say_undated(d, out);
    add_day(out, "Deadline: ", d->deadline, "none");
    add_day(out, "Book by: ", d->book_by, NULL);
    if (d->warnings & WARN_BOOKED_PASSED)
        add_line(out, due_booked_text(d, d->warnings, text, sizeof text));
    add_class(out, job);
    add_day(out, "Last done: ", d->last_done, "not on record");
    if (d->warnings & WARN_OLD_READING)
        add_line(out,
            due_warning_text(d, WARN_OLD_READING, DAY_NONE, text, sizeof text));
    for (size_t i = 0; i < d->n_reasons; i++)
        add_line(out, d->reasons[i].text);
    if (job->caution != NULL)
        add_line(out, job->caution);
}

static void
describe_done(const struct proof *p, struct buf *out)
{
    add_day(out, "Done: ", p->done, NULL);
    add_day(out, "Deadline: ", p->deadline, "none");
    if (!evidence_in_time(p))
        buf_text(out, "Late\n");
    add_class(out, p->task->job);
}

void
ical_description(const struct ical_item *item, struct buf *out)
{
    if (item->kind == ICAL_DUE)
        describe_due(item->due, out);
    else if (item->kind == ICAL_DEFECT)
        describe_defect(item, out);
    else if (item->kind == ICAL_DONE)
        describe_done(item->proof, out);
    else if (item->kind == ICAL_END)
        buf_text(out,
            "From this day on not everything that is due is shown, because a "
            "calendar of this size would be cut by those who show it. Split "
            "this feed in the fleet file, by depot or by job.\n");
}

/* Append @text, clean, as a name: readers differ in how they take an escaped
 * comma, semicolon or backslash there, so these become blanks. */
static void
add_name(struct buf *out, const char *text)
{
    clean_add(out, CLEAN_NAME, text, strlen(text));
}

static const char *
category(const struct ical_item *item)
{
    switch (item->kind) {
    case ICAL_NOTHING:
        return ICAL_CATEGORY_NOTHING;
    case ICAL_END:
        return ICAL_CATEGORY_END;
    case ICAL_DONE:
        return ICAL_CATEGORY_DONE;
    case ICAL_DEFECT:
        return ICAL_CATEGORY_DEFECT;
    case ICAL_DUE:
        break;
    }
    if (ical_day(item) == DAY_NONE)
        return ICAL_UNDATED;
    if (item->due->state == DUE_FAILED || item->due->state == DUE_OVERDUE)
        return wording_of(item->due->state)->heading;
    return item->due->cycle.ahead > 0 ? "Forecast" : "Due";
}

void
ical_categories(const struct ical_item *item, struct buf *out)
{
    buf_text(out, category(item));
    if (item->kind == ICAL_END || item->kind == ICAL_NOTHING)
        return;
    const struct depot *depot =
        fleet_depot(item->kind == ICAL_DEFECT ? item->defect->subject
                                              : task_of(item)->subject);
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

/* The forecast decided unless another limit comes before its day.  A reading
 * that already shows the due reading is a fact, not a forecast. */
int
ical_is_tentative(const struct due *d)
{
    if (d->cycle.ahead > 0)
        return 1;
    if (d->state == DUE_FAILED)
        return 0;
    if (d->forecast.basis != FORECAST_STATED &&
        d->forecast.basis != FORECAST_READINGS)
        return 0;
    day_t day = due_forecast_day(d->task->rule->forecast, &d->forecast);
    return day != DAY_NONE && day <= d->deadline;
}
