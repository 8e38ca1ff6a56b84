#include "buf.h"
#include "caution.h"
#include "condition.h"
#include "defect_list.h"
#include "view.h"

#include <jansson.h>
#include <stdio.h>
#include <stdlib.h>

/*
 * The contract: one object with "schema", "today", "vehicles", "defects"
 * and "dues".  Keys may be
 * added under the same schema number; none changes its meaning.
 */

static json_t *
day_value(day_t d)
{
    char text[DAY_TEXT];

    return d == DAY_NONE ? json_null() : json_string(day_text(d, text));
}

static json_t *
text_value(const char *text)
{
    return text == NULL ? json_null() : json_string(text);
}

static json_t *
number_value(int64_t n)
{
    return n < 0 ? json_null() : json_integer(n);
}

static json_t *
unit_value(const struct due *d)
{
    return d->meter == METER_NONE
               ? json_null()
               : json_string(fleet_meter_word(d->task->subject, d->meter));
}

static json_t *
forecast_value(const struct forecast *f)
{
    if (f->basis == FORECAST_NONE)
        return json_null();
    return json_pack("{s:o, s:o, s:o}", "early", day_value(f->early), "likely",
        day_value(f->likely), "late", day_value(f->late));
}

/* The failure that is open, with what its record says of it. */
static json_t *
failed_value(const struct record *f)
{
    if (f == NULL)
        return json_null();
    return json_pack("{s:o, s:I, s:o, s:o, s:o}", "day", day_value(f->day),
        "record", (json_int_t)f->id, "by", text_value(f->by), "reference",
        text_value(f->reference), "note", text_value(f->note));
}

/* What it is besides, which the state says of any other. */
static json_t *
besides_value(const struct due *d)
{
    return d->state == DUE_FAILED ? json_string(due_state_word(d->besides))
                                  : json_null();
}

/* That it failed was a warning before it was a state, and stays one here for
 * whoever reads them. */
static void
add_failed(const struct due *d, json_t *list)
{
    char text[80];
    char day[DAY_WORDS];

    snprintf(text, sizeof text, "it failed on %s and has not been done since",
        day_words(d->failed->day, day));
    json_array_append_new(
        list, json_pack("{s:s, s:s}", "warning", "failed", "text", text));
}

static json_t *
warnings_value(const struct due *d, day_t today)
{
    json_t *list = json_array();
    char text[160];

    if (d->state == DUE_FAILED)
        add_failed(d, list);
    for (unsigned bit = 1; bit <= WARN_LAST; bit <<= 1) {
        enum due_warning w = (enum due_warning)bit;
        if (!(d->warnings & bit))
            continue;
        json_array_append_new(list,
            json_pack("{s:s, s:s}", "warning", due_warning_word(w), "text",
                due_warning_text(d, w, today, text, sizeof text)));
    }
    return list;
}

static json_t *
reasons_value(const struct due *d)
{
    json_t *list = json_array();

    for (size_t i = 0; i < d->n_reasons; i++) {
        const struct reason *r = &d->reasons[i];
        json_array_append_new(
            list, json_pack("{s:s, s:o, s:o, s:s}", "step",
                      due_step_word(r->step), "before", day_value(r->before),
                      "after", day_value(r->after), "text", r->text));
    }
    return list;
}

static json_t *
due_value(const struct due *d, day_t today)
{
    const struct subject *s = d->task->subject;
    const struct job *job = d->task->job;
    const struct depot *depot = fleet_depot(s);
    char cycle[CYCLE_TEXT];

    return json_pack("{s:s, s:s, s:o, s:s, s:s, s:s, s:s, s:o, s:o, s:o, s:o,"
                     " s:o,"
                     " s:s, s:o, s:o, s:o, s:o, s:o, s:o, s:o, s:o, s:o}",
        "subject", s->id, "kind", fleet_kind_word(s->kind), "depot",
        text_value(depot ? depot->id : NULL), "job", job->id, "title",
        job->title, "class", fleet_class_word(job->class), "state",
        due_state_word(d->state), "deadline", day_value(d->deadline),
        "plan_day", day_value(d->plan_day), "book_by", day_value(d->book_by),
        "booked", day_value(d->booked), "last_done", day_value(d->last_done),
        "cycle", due_cycle_text(&d->cycle, cycle), "authority",
        text_value(job->authority), "due_reading", number_value(d->due_reading),
        "unit", unit_value(d), "newest_reading", day_value(d->newest_reading),
        "forecast", forecast_value(&d->forecast), "failed",
        failed_value(d->failed), "besides", besides_value(d), "warnings",
        warnings_value(d, today), "reasons", reasons_value(d));
}

/* "stops" are those that stop it, "others" what else is known against it. */
static json_t *
stop_value(const struct stop *s)
{
    struct buf *text = buf_new();

    if (text == NULL)
        return NULL;
    stop_say(s, text);
    json_t *value = json_pack("{s:s, s:o, s:s, s:s, s:o, s:o, s:s, s:o}",
        "reason", stop_word(s->kind), "since", day_value(s->since), "lifted_by",
        stop_lifted_by(s->kind), "subject", s->subject->id, "defect",
        number_value(s->defect ? s->defect->number : -1), "job",
        text_value(s->due ? s->due->task->job->id : NULL), "text",
        buf_str(text), "note", text_value(stop_note(s)));
    buf_free(text);
    return value;
}

static json_t *
stops_value(const struct vehicle_condition *v, int stops)
{
    json_t *list = json_array();

    for (size_t i = 0; i < v->n_stops; i++)
        if ((v->stops[i].makes == CONDITION_NOT_TO_BE_DRIVEN) == stops)
            json_array_append_new(list, stop_value(&v->stops[i]));
    return list;
}

static json_t *
vehicles_value(const struct shown *shown)
{
    size_t n;
    const struct vehicle_condition *v = conditions_all(shown->conditions, &n);
    json_t *list = json_array();

    for (size_t i = 0; i < n; i++) {
        const struct depot *depot = fleet_depot(v[i].vehicle);
        if (select_vehicle(shown->filter, v[i].vehicle))
            json_array_append_new(list,
                json_pack("{s:s, s:o, s:s, s:o, s:o}", "subject",
                    v[i].vehicle->id, "depot",
                    text_value(depot ? depot->id : NULL), "condition",
                    condition_word(v[i].condition), "stops",
                    stops_value(&v[i], 1), "others", stops_value(&v[i], 0)));
    }
    return list;
}

static int
render(const struct shown *shown, struct buf *out)
{
    const struct selection *dues = shown->dues;
    day_t today = snapshot_today(dues->of);
    const struct defect_list open = {
        .of = shown->defects, .today = today, .filter = shown->filter};
    json_t *list = json_array();
    int failed = list == NULL;

    for (size_t i = 0; i < dues->n && !failed; i++)
        failed = json_array_append_new(list, due_value(dues->dues[i], today));
    json_t *top = failed
                      ? NULL
                      : json_pack("{s:i, s:o, s:s, s:o, s:o, s:O}", "schema", 1,
                            "today", day_value(today), "caution", CAUTION_FIT,
                            "vehicles", vehicles_value(shown), "defects",
                            defect_list_array(&open), "dues", list);
    char *text = top ? json_dumps(top, JSON_INDENT(2)) : NULL;
    if (text != NULL)
        buf_print(out, "%s\n", text);
    failed = text == NULL || buf_failed(out);
    free(text);
    json_decref(top);
    json_decref(list);
    return failed ? -1 : 0;
}

const struct view view_json = {"json", 1, 1, render};
