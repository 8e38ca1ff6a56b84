#include "defect_input.h"

#include "clock.h"
#include "defect_events.h"
#include "dues.h"
#include "fitness.h"
#include "may_enter.h"
#include "missing.h"
#include "num.h"
#include "people.h"
#include "reading_day.h"
#include "records.h"
#include "select.h"
#include "stop_mail.h"
#include "suggest.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <strings.h>
#include <sysexits.h>

#define SLACK 5 /* minutes by which clocks may differ */

/* What is being entered, inside one transaction. */
struct entering {
    const struct record_input *e;
    struct defects *ds;
    struct enter_now now;
    struct buf *out;
    struct stop_mail_before *before; /* what stopped before */
    int64_t entered;                 /* the last event, or 0 */
    int64_t reading;                 /* what the odometer showed, or -1 */
};

/* The time of day that @text is, or -1 with the fault set. */
static int
read_clock(const struct record_input *e, const char *text)
{
    int64_t hour;
    int64_t minute;

    if (strlen(text) == 5 && text[2] == ':' &&
        num_parse(text, 2, 0, 23, &hour) == 0 &&
        num_parse(text + 3, 2, 0, 59, &minute) == 0)
        return (int)(hour * 60 + minute);
    fault_fill(e->fault, EX_USAGE,
        "%sat: '%s' is not a time of day; write it as 07:40", e->mark, text);
    return -1;
}

/* The minute of today by the clocks of @zone, or -1 when the day was given and
 * not read from the clock. */
static int
minute_now(const struct record_input *e, const char *zone)
{
    struct moment now = run_moment(e->run);

    return now.now == clock_fixed(now.today).now ||
                   clock_day(zone, now.now) != now.today
               ? -1
               : clock_minute(zone, now.now);
}

/* Who and when: fills the moment and the person of @out, whose subject says in
 * which zone. */
static int
read_who(const struct record_input *e, const struct defect_input *who,
    struct defect_event *out)
{
    const char *zone = defect_events_zone(e->run, out->subject);
    const struct record r = {.subject = out->subject};
    day_t today = run_moment(e->run).today;
    day_t day = who->day ? record_input_day(e, "on", who->day, 1) : today;
    int now = minute_now(e, zone);
    int at = who->at ? read_clock(e, who->at) : day == today ? now : -1;
    char words[DAY_WORDS];

    if (day == DAY_NONE || (who->at != NULL && at < 0) ||
        record_input_text(e, "by", who->by) ||
        record_input_text(e, "note", who->note) ||
        record_input_text(e, "reference", who->reference))
        return -1;
    if (day > today || (day == today && now >= 0 && at > now + SLACK))
        return fault_set(e->fault, EX_DATAERR,
            "%s%s%s is still to come; enter what was done once it has been",
            day_words(day, words), who->at ? " " : "", who->at ? who->at : "");
    if (out->subject != NULL && record_input_check_existed(e, &r, day))
        return -1;
    if (who->by == NULL)
        return fault_set(e->fault, EX_USAGE,
            "%sby NAME is missing: the id or the name of who did it", e->mark);
    out->by = who->is_vehicle ? NULL : people_id(run_fleet(e->run), who->by);
    if (out->by == NULL && !who->is_vehicle)
        return fault_set(e->fault, EX_USAGE,
            "%sby: the fleet file knows nobody called '%s', or two; give the "
            "id of a person or a driver",
            e->mark, who->by);
    if (who->alone && who->note == NULL)
        return fault_set(e->fault, EX_USAGE,
            "%salone needs %snote TEXT: say why nobody else looked at it",
            e->mark, e->mark);
    out->at = (struct day_time){day, at < 0 ? 0 : at};
    out->whole_day = at < 0;
    out->note = who->note;
    out->alone = who->alone;
    return 0;
}

/* The deadline of the next job that is an inspection of the vehicle: a
 * deferral reaches no further.  DAY_NONE when none is known. */
static int
next_inspection(
    const struct record_input *e, const struct subject *s, day_t *inspection)
{
    const struct snapshot *dues = dues_of_run(e->run, e->fault);
    size_t n;

    *inspection = DAY_NONE;
    if (dues == NULL)
        return -1;
    const struct due *all = snapshot_dues(dues, &n);
    const struct subject *vehicle = s && s->carrier ? s->carrier : s;
    for (size_t i = 0; i < n; i++)
        if (all[i].task->job->inspection && all[i].task->subject == vehicle)
            *inspection = day_earlier(*inspection, all[i].deadline);
    return 0;
}

/* Begin a transaction and read in it how things stand. */
static int
begin(struct entering *w, const struct record_input *e, struct buf *out)
{
    *w = (struct entering){.e = e,
        .now = {run_moment(e->run).today, DAY_NONE},
        .out = out,
        .reading = -1};
    if (ledger_begin(run_ledger(e->run), e->fault))
        return -1;
    w->ds = defect_events_fold(e->run, e->fault);
    w->before = w->ds ? stop_mail_look(e->run, w->ds) : NULL;
    if (w->before != NULL)
        return 0;
    if (w->ds != NULL)
        fault_fill(e->fault, EX_OSERR, "out of memory");
    defects_free(w->ds);
    ledger_rollback(run_ledger(e->run));
    return -1;
}

/* Whoever is to hear of it does when it is so: the message is entered with the
 * event, or neither is. */
static int
end(struct entering *w, int rc)
{
    struct ledger *l = run_ledger(w->e->run);

    if (rc == 0 && w->entered != 0)
        rc = stop_mail_after(
            w->e->run, w->before, w->ds, w->entered, w->reading, w->e->fault);
    defects_free(w->ds);
    if (rc != 0)
        ledger_rollback(l);
    else
        rc = ledger_commit(l, w->e->fault);
    return rc;
}

/* Why it may not be entered, with the defect it is about and the last day that
 * would do: the fault of @e.  -1. */
static int
say_refusal(const struct record_input *e, const struct enter_answer *a)
{
    char number[32] = "";
    char most[DAY_WORDS];

    if (a->defect != NULL)
        snprintf(number, sizeof number,
            "defect %lld: ", (long long)a->defect->number);
    return fault_set(e->fault, EX_DATAERR, "%s%s%s%s", number,
        enter_refusal_text(a->refusal),
        a->most != DAY_NONE ? "; the last day is " : "",
        a->most != DAY_NONE ? day_words(a->most, most) : "");
}

/* Ask whether it may be entered, say why not, and enter it. */
static int
enter(struct entering *w, struct defect_event *e,
    const struct defect_event_more *more)
{
    struct enter_answer a = may_enter(w->ds, e, &w->now);

    if (a.refusal != ENTER_ALLOWED)
        return say_refusal(w->e, &a);
    if (defect_event_add(w->e->run, e, more, w->e->fault))
        return -1;
    w->entered = e->id;
    if (more->reading >= 0)
        w->reading = more->reading;
    if (defects_add(w->ds, e))
        return fault_set(w->e->fault, EX_OSERR, "out of memory");
    return 0;
}

/* What whoever entered something wants to know next: may the vehicle be driven.
 * A defect that is closed is not the only thing that can stop it, so all of its
 * condition is said, as every view has it. */
static int
say_condition(const struct entering *w, const struct subject *s)
{
    const struct run_context *p = w->e->run;
    const struct subject *v = s ? defects_carrier(w->ds, s) : NULL;
    const struct snapshot *dues = dues_of_run(p, w->e->fault);
    struct conditions *all =
        dues ? fitness_make(p, dues, w->ds, w->e->fault) : NULL;

    if (all == NULL)
        return -1;
    const struct vehicle_condition *c = v ? conditions_of(all, v) : NULL;
    if (c != NULL)
        buf_print(w->out, "%s: %s\n", v->id, condition_said(c->condition));
    for (size_t i = 0; c != NULL && i < c->n_stops; i++) {
        buf_text(w->out, "  ");
        stop_say(&c->stops[i], w->out);
        buf_text(w->out, "\n");
    }
    conditions_free(all);
    return 0;
}

/* --- reports -------------------------------------------------------------- */

/* What a code means for @s: the item of the sheet, and the subject whose
 * defect it is, which is what the vehicle carries where the item asks for
 * equipment.  The equipment may be named behind a stroke: F1/EX-31. */
static int
find_item(const struct record_input *e, const struct subject *s,
    struct defect_input_found *found, struct defect_event *out)
{
    const struct fleet *f = run_fleet(e->run);
    const struct subject *sheets = s->carrier ? s->carrier : s;
    size_t len = strcspn(found->item, "/");
    const char *code = arena_text(run_arena(e->run), found->item, len);
    const char *which = found->item[len] ? found->item + len + 1 : NULL;

    if (code == NULL)
        return fault_set(e->fault, EX_OSERR, "out of memory");
    out->subject = s;
    out->subject_id = s->id;
    out->item = code;
    out->grade = GRADE_MAJOR;
    const struct check_item *item = sheet_item(sheets, code);
    if (item == NULL && sheets->n_sheets > 0) {
        const char *near = sheet_item_nearest(sheets, code);
        return fault_set(e->fault, EX_USAGE,
            "no check sheet of %s has an item '%s'%s%s%s", sheets->id, code,
            near ? "; did you mean '" : "", near ? near : "", near ? "'?" : "");
    }
    if (item == NULL)
        return 0;
    out->item = item->code;
    out->grade = item->grade;
    if (item->carried == NULL || s->kind != SUBJECT_VEHICLE)
        return 0;
    const struct subject *carried = sheet_carried(f, s, item, NULL);
    const struct subject *other =
        carried ? sheet_carried(f, s, item, carried) : NULL;
    if (carried == NULL)
        return fault_set(e->fault, EX_DATAERR,
            "%s carries nothing that item %s asks for; if it is missing, "
            "report the vehicle's own item, or move the equipment",
            s->id, item->code);
    for (; which != NULL && carried != NULL;
         carried = sheet_carried(f, s, item, carried))
        if (strcasecmp(carried->id, which) == 0)
            break;
    if (carried == NULL || (which == NULL && other != NULL))
        return fault_set(e->fault, EX_USAGE,
            "%s carries %s for item %s; say which: %s/ID", s->id,
            which ? "no such thing" : "several", item->code, item->code);
    out->subject = carried;
    out->subject_id = carried->id;
    return 0;
}

/* A report joins what is open, or opens the next number. */
static int
report(struct entering *w, const struct subject *s,
    const struct defect_event *who, struct defect_input_found found,
    int64_t check, const char *paper)
{
    struct defect_event e = *who;
    struct defect_event_more more = {
        .paper = paper, .reading = -1, .end = -1, .opened = -1};
    const char *mark = w->e->mark;

    e.kind = EVENT_REPORTED;
    e.note = found.text;
    e.cause = check;
    e.paper = paper != NULL;
    e.until = DAY_NONE;
    e.reading = -1;
    if (record_input_text(w->e, "defect", found.text) ||
        find_item(w->e, s, &found, &e))
        return -1;
    if (found.grade != NULL) {
        int grade = sheet_grade_find(found.grade);
        if (grade < 0)
            return fault_set(w->e->fault, EX_USAGE,
                "%sgrade: '%s' is none of minor, major and stops", mark,
                found.grade);
        e.grade = (enum grade)grade;
    }
    const struct defect *joined = defects_joined(w->ds, &e);
    e.about = joined ? joined->first : 0;
    e.number = joined ? 0 : defects_next_number(w->ds);
    if (enter(w, &e, &more))
        return -1;
    const struct defect *d = defects_of_event(w->ds, e.id);
    buf_print(w->out, "defect %lld: %s %s (%s)%s\n", (long long)d->number,
        d->subject_id, d->item, sheet_grade_word(d->grade),
        joined     ? ", seen again"
        : d->again ? ", again"
                   : "");
    return 0;
}

int
defect_input_report(const struct record_input *e, const struct subject *s,
    const struct defect_input *who, const struct defect_input_found *found,
    struct buf *out)
{
    struct entering w;
    struct defect_event event = {
        .subject = s, .until = DAY_NONE, .reading = -1};

    if (s->kind == SUBJECT_DRIVER)
        return fault_set(e->fault, EX_USAGE,
            "%s is a driver; a defect is one of a vehicle or of equipment",
            s->id);
    if (found->text == NULL)
        return fault_set(e->fault, EX_USAGE,
            "%snote TEXT is missing: say what is wrong", e->mark);
    if (record_input_text(e, "note", found->text) || read_who(e, who, &event) ||
        begin(&w, e, out))
        return -1;
    int rc = report(&w, s, &event, *found, 0, NULL);
    if (rc == 0)
        rc = say_condition(&w, s);
    return end(&w, rc);
}

/* --- checks --------------------------------------------------------------- */

/* The sheet of that name among those of @s, or its only one. */
static const struct check_sheet *
find_sheet(
    const struct record_input *e, const struct subject *s, const char *name)
{
    if (s->n_sheets == 0) {
        fault_fill(e->fault, EX_DATAERR,
            "%s has no check sheet; give it one in the fleet file: check = "
            "NAME, or a type that has one",
            s->id);
        return NULL;
    }
    for (size_t i = 0; i < s->n_sheets; i++)
        if (name == NULL ? s->n_sheets == 1
                         : strcasecmp(s->sheets[i]->id, name) == 0)
            return s->sheets[i];
    fault_fill(e->fault, EX_USAGE,
        "%s has %zu check sheets; say which: "
        "%ssheet %s",
        s->id, s->n_sheets, e->mark, s->sheets[0]->id);
    return NULL;
}

/* The codes of the items of @sheet that were asked of @s. */
static const char **
asked_items(const struct record_input *e, const struct subject *s,
    const struct check_sheet *sheet, size_t *n)
{
    const char **codes =
        arena_take(run_arena(e->run), (sheet->n_items + 1) * sizeof *codes);

    *n = 0;
    for (size_t i = 0; codes != NULL && i < sheet->n_items; i++)
        if (sheet_asks(run_fleet(e->run), s, &sheet->items[i]))
            codes[(*n)++] = sheet->items[i].code;
    return codes;
}

/* The reading of the odometer, or the end reading, as that of a record of the
 * check: what cannot be is refused. */
static int
read_odometer(const struct record_input *e, const struct subject *s,
    const char *what, const char *text, day_t day, int64_t *out)
{
    struct record r = {.kind = RECORD_CHECKED,
        .subject = s,
        .subject_id = s->id,
        .day = day,
        .until = DAY_NONE,
        .meter = METER_DISTANCE};

    *out = -1;
    if (text == NULL)
        return 0;
    r.other_unit = record_input_other_unit(&r);
    r.reading = record_input_number(what, text, e->fault);
    if (r.reading < 0 || record_input_check_reading(e, &r))
        return -1;
    *out = r.reading;
    return 0;
}

/* Refuse what is entered already: a check by the same person at the same
 * minute was sent twice, and a column of a sheet of paper is one check. */
static int
check_is_new(const struct entering *w, const struct defect_event *event,
    const char *paper)
{
    const struct run_context *p = w->e->run;
    struct record *all;
    size_t n;

    if (records_standing(run_ledger(p), run_fleet(p),
            RECORD_BIT(RECORD_CHECKED), event->subject_id, run_arena(p), &all,
            &n, w->e->fault))
        return -1;
    for (size_t i = 0; i < n; i++) {
        const struct record_value *at = record_value(&all[i], "at");
        const char *taken = record_text(&all[i], "paper");
        if (paper != NULL && taken != NULL && strcasecmp(paper, taken) == 0)
            return fault_set(w->e->fault, EX_DATAERR,
                "paper '%s' is entered already, as record %lld; a column of a "
                "sheet is one check, so name the column too: 'NUMBER mon'",
                paper, (long long)all[i].id);
        if (all[i].day == event->at.day && at != NULL &&
            at->number == event->at.minute && event->by != NULL &&
            all[i].by != NULL && strcmp(all[i].by, event->by) == 0)
            return fault_set(w->e->fault, EX_DATAERR,
                "this check is entered already, as record %lld; to correct "
                "it, void that first",
                (long long)all[i].id);
    }
    return 0;
}

/* Refuse an answer to what is no open defect of the vehicle or of what it
 * carries: it would be a slip, and the one that was meant stay unanswered. */
static int
check_answered(const struct entering *w, const struct defect_event *event)
{
    for (size_t i = 0; i < event->n_answered; i++) {
        const struct defect *d = NULL;
        while ((d = defects_open_on(w->ds, event->subject, d)) != NULL &&
               d->number != event->answered[i])
            ;
        if (d == NULL)
            return fault_set(w->e->fault, EX_DATAERR,
                "%sanswered %lld: %s has no open defect with that number; "
                "ostler defects --subject %s lists them",
                w->e->mark, (long long)event->answered[i], event->subject_id,
                event->subject_id);
    }
    return 0;
}

int
defect_input_check(const struct record_input *e, const struct subject *s,
    const struct defect_input *who, const struct defect_input_check *check,
    struct buf *out)
{
    const struct check_sheet *sheet = find_sheet(e, s, check->sheet);
    struct entering w;
    struct defect_event event = {.kind = EVENT_CHECKED,
        .subject = s,
        .subject_id = s->id,
        .until = DAY_NONE,
        .reading = -1,
        .paper = check->paper != NULL,
        .answered = check->answered,
        .n_answered = check->n_answered};
    struct defect_event_more more = {.sheet = sheet ? sheet->id : NULL,
        .paper = check->paper,
        .nil = check->nil,
        .reported = check->reported,
        .n_reported = check->n_reported,
        .opened = check->opened};
    char day[DAY_WORDS];

    if (sheet == NULL || read_who(e, who, &event) ||
        read_odometer(
            e, s, "the reading", check->reading, event.at.day, &more.reading) ||
        read_odometer(
            e, s, "the end reading", check->end, event.at.day, &more.end))
        return -1;
    if (more.end >= 0 && more.end < more.reading)
        return fault_set(e->fault, EX_DATAERR,
            "the end reading %lld is less than the reading at the start, %lld",
            (long long)more.end, (long long)more.reading);
    if (check->nil == (check->n_found + check->n_reported > 0))
        return fault_set(e->fault, EX_USAGE,
            "say what was found: %snil when nothing was, else %sdefect "
            "ITEM=TEXT for each thing",
            e->mark, e->mark);
    if (event.whole_day)
        return fault_set(e->fault, EX_USAGE,
            "%sat HH:MM is missing: when the walk round began", e->mark);
    more.items = asked_items(e, s, sheet, &more.n_items);
    if (more.items == NULL)
        return fault_set(e->fault, EX_OSERR, "out of memory");
    if (begin(&w, e, out))
        return -1;
    int rc =
        check_is_new(&w, &event, check->paper) || check_answered(&w, &event)
            ? -1
            : enter(&w, &event, &more);
    if (rc == 0)
        buf_print(out, "check %lld: %s on %s at %02d:%02d, %s\n",
            (long long)event.id, s->id, day_words(event.at.day, day),
            event.at.minute / 60, event.at.minute % 60,
            check->nil ? "nothing found" : "defects found");
    struct defect_event found = event;
    found.answered = NULL;
    found.n_answered = 0;
    for (size_t i = 0; rc == 0 && i < check->n_found; i++)
        rc = report(&w, s, &found, check->found[i], event.id, check->paper);
    if (rc == 0)
        rc = say_condition(&w, s);
    return end(&w, rc);
}

/* --- acts ----------------------------------------------------------------- */

/* All that the odometer of @v showed, with its spells off the road: dues are
 * not asked, so it need not be among what they follow from. */
static int
read_use(const struct entering *w, const struct subject *v, struct facts *out)
{
    const struct run_context *p = w->e->run;
    struct record *all;
    size_t n;
    size_t *first = arena_take(
        run_arena(p), (run_fleet(p)->n_subjects + 1) * sizeof *first);

    if (first == NULL)
        return fault_set(w->e->fault, EX_OSERR, "out of memory");
    if (records_standing(run_ledger(p), run_fleet(p),
            RECORD_BIT(RECORD_READING) | RECORD_BIT(RECORD_REPLACED) |
                RECORD_BIT(RECORD_COMPLETED) | RECORD_BIT(RECORD_FAILED) |
                RECORD_BIT(RECORD_OFF_ROAD) | RECORD_BIT(RECORD_CHECKED),
            v->id, run_arena(p), &all, &n, w->e->fault))
        return -1;
    for (size_t i = 0; i < n; i++)
        if (all[i].kind == RECORD_CHECKED)
            all[i].kind = RECORD_READING;
    *out = facts_of(run_fleet(p), all, n, first);
    return 0;
}

/* Rule 6: what is put off to a reading is put off to the early day on which the
 * odometer shows it, so that it lapses too where nobody reads the meter. */
static int
put_off_to_reading(
    const struct entering *w, struct defect_event *event, const char *unit)
{
    const struct subject *v = defects_carrier(w->ds, event->subject);
    struct facts use;

    if (v == NULL)
        v = event->subject;
    if (strcasecmp(unit, fleet_unit_word(v->unit)) != 0)
        return fault_set(w->e->fault, EX_USAGE,
            "the odometer of %s counts %s, not %s", v->id,
            fleet_unit_word(v->unit), unit);
    if (read_use(w, v, &use))
        return -1;
    if (reading_day_early(
            &use, v, METER_DISTANCE, event->reading, &event->until))
        return fault_set(w->e->fault, EX_OSERR, "out of memory");
    if (event->until == DAY_NONE)
        return fault_set(w->e->fault, EX_DATAERR,
            "nobody can tell when %s will show %lld %s: that is no more than "
            "it shows, or it was not read often enough; give the last day",
            v->id, (long long)event->reading, unit);
    return 0;
}

/* One act on the defect with that number; @unit is that of a reading up to
 * which it is put off, or NULL. */
static int
act(const struct record_input *e, int64_t number, struct defect_event *event,
    const char *unit, const struct defect_input *who, struct buf *out)
{
    struct entering w;
    day_t inspection = DAY_NONE;
    struct defect_event_more more = {
        .reference = who->reference, .reading = -1, .end = -1, .opened = -1};
    int rc = -1;

    if (begin(&w, e, out))
        return -1;
    const struct defect *d = defects_numbered(w.ds, number);
    if (d == NULL)
        fault_fill(e->fault, EX_DATAERR,
            "there is no defect %lld; ostler "
            "defects --all lists them",
            (long long)number);
    else {
        event->about = d->first;
        event->subject = d->subject;
        event->subject_id = d->subject_id;
        rc = read_who(e, who, event);
        if (rc == 0 && unit != NULL)
            rc = put_off_to_reading(&w, event, unit);
        if (rc == 0 && event->until != DAY_NONE)
            rc = next_inspection(e, d->subject, &inspection);
        if (rc == 0 && event->whole_day)
            rc = fault_set(e->fault, EX_USAGE,
                "%sat HH:MM is missing: at what time it was done", e->mark);
        w.now.inspection = inspection;
        if (rc == 0)
            rc = enter(&w, event, &more);
    }
    if (rc == 0) {
        d = defects_numbered(w.ds, number);
        buf_print(out, "defect %lld: %s %s, %s\n", (long long)d->number,
            d->subject_id, d->item, defect_state_word(d->state));
        rc = say_condition(&w, d->subject);
    }
    return end(&w, rc);
}

int
defect_input_assess(const struct record_input *e, int64_t number,
    const char *verdict, const char *until, const struct defect_input *who,
    struct buf *out)
{
    int v = defect_verdict_find(verdict);
    struct defect_event event = {.kind = EVENT_ASSESSED,
        .verdict = v < 0 ? VERDICT_STOP : (enum defect_verdict)v,
        .until = DAY_NONE,
        .reading = -1};

    if (v < 0)
        return fault_set(e->fault, EX_USAGE,
            "'%s' is no decision: it is stop, until DAY, watch or nothing",
            verdict);
    if ((v == VERDICT_UNTIL) != (until != NULL))
        return fault_set(e->fault, EX_USAGE,
            v == VERDICT_UNTIL
                ? "until needs the last day on which it may be driven so"
                : "only until takes a day");
    if (who->note == NULL)
        return fault_set(
            e->fault, EX_USAGE, "%snote TEXT is missing: say why", e->mark);
    size_t digits = until ? strspn(until, "0123456789") : 0;
    const char *unit = NULL;
    if (digits > 0 && until[digits] == ' ') {
        unit = until + digits + 1;
        if (num_parse(until, digits, 0, 9999999, &event.reading))
            return fault_set(
                e->fault, EX_USAGE, "'%s' is no reading of an odometer", until);
    } else if (until != NULL) {
        event.until = day_parse(until, strlen(until));
        if (event.until == DAY_NONE)
            return fault_set(e->fault, EX_USAGE,
                "'%s' is not a date; write the last day as 2026-12-02, or a "
                "reading as 52000 km",
                until);
    }
    return act(e, number, &event, unit, who, out);
}

int
defect_input_repair(const struct record_input *e, int64_t number,
    const struct defect_input *who, struct buf *out)
{
    struct defect_event event = {
        .kind = EVENT_REPAIRED, .until = DAY_NONE, .reading = -1};

    if (who->note == NULL)
        return fault_set(e->fault, EX_USAGE,
            "%snote TEXT is missing: say what was done", e->mark);
    return act(e, number, &event, NULL, who, out);
}

int
defect_input_release(const struct record_input *e, int64_t number,
    const struct defect_input *who, struct buf *out)
{
    struct defect_event event = {
        .kind = EVENT_RELEASED, .until = DAY_NONE, .reading = -1};

    return act(e, number, &event, NULL, who, out);
}

int
defect_input_release_failed(const struct record_input *e, int64_t id,
    const struct defect_input *who, struct buf *out)
{
    struct entering w;
    struct defect_event event = {
        .kind = EVENT_RELEASED, .about = id, .until = DAY_NONE, .reading = -1};
    struct defect_event_more more = {
        .reference = who->reference, .reading = -1, .end = -1, .opened = -1};

    if (who->note == NULL)
        return fault_set(e->fault, EX_USAGE,
            "%snote TEXT is missing: say why it may be used again", e->mark);
    if (begin(&w, e, out))
        return -1;
    const struct defect_event *was = defects_event(w.ds, id);
    int rc = 0;
    if (was == NULL || was->kind != EVENT_FAILED || was->subject == NULL)
        rc = fault_set(e->fault, EX_DATAERR,
            "record %lld is no job that failed and stands; ostler history "
            "shows their numbers",
            (long long)id);
    if (rc == 0) {
        event.subject = was->subject;
        event.subject_id = was->subject_id;
        rc = read_who(e, who, &event);
    }
    if (rc == 0 && event.whole_day)
        rc = fault_set(e->fault, EX_USAGE,
            "%sat HH:MM is missing: at what time it was done", e->mark);
    if (rc == 0)
        rc = enter(&w, &event, &more);
    if (rc == 0) {
        buf_print(out, "record %lld: the failed job of %s no longer stops it\n",
            (long long)id, event.subject_id);
        rc = say_condition(&w, event.subject);
    }
    return end(&w, rc);
}

/* --- moves ---------------------------------------------------------------- */

/* What goes missing by a move is a defect of the vehicle that it left. */
static int
report_missing(struct entering *w, const struct defect_event *move,
    const struct move_brings *b)
{
    struct defect_event e = {.kind = EVENT_REPORTED,
        .cause = move->id,
        .at = move->at,
        .whole_day = 1,
        .note = "missing: moved to another vehicle",
        .subject = b->lacking,
        .subject_id = b->lacking->id,
        .item = b->item->code,
        .grade = GRADE_STOPS,
        .until = DAY_NONE,
        .reading = -1};
    const struct defect_event_more more = {
        .reading = -1, .end = -1, .opened = -1};
    const struct defect *joined = defects_joined(w->ds, &e);

    e.about = joined ? joined->first : 0;
    e.number = joined ? 0 : defects_next_number(w->ds);
    return enter(w, &e, &more);
}

/* The move with what comes of it, in the order that the fold wants: the move,
 * the void of what it brings back, and the report of what is missing. */
static int
enter_move(struct entering *w, struct record *r, struct defect_event *move)
{
    struct ledger *l = run_ledger(w->e->run);
    const struct enter_answer a = may_enter(w->ds, move, &w->now);
    char day[DAY_WORDS];

    if (a.refusal != ENTER_ALLOWED)
        return say_refusal(w->e, &a);
    const struct move_brings b = missing_by_move(w->ds, move);
    const int64_t found = b.found ? b.found->first : 0;
    const int64_t number = b.found ? b.found->number : 0;
    r->about = move->cause = b.excused_by;
    if (records_add(l, r, &move->id, w->e->fault))
        return -1;
    if (defects_add(w->ds, move))
        return fault_set(w->e->fault, EX_OSERR, "out of memory");
    buf_print(w->out, "record %lld: %s is carried by %s from %s\n",
        (long long)move->id, r->subject->id, r->other->id,
        day_words(r->day, day));
    if (found != 0) {
        const struct record undo = {.kind = RECORD_VOIDED,
            .day = DAY_NONE,
            .until = DAY_NONE,
            .reading = -1,
            .about = move->id,
            .entered = r->entered,
            .by = r->by,
            .note = "found again by this move"};
        struct defect_event e = {.kind = EVENT_VOIDED,
            .about = found,
            .cause = move->id,
            .at = move->at,
            .until = DAY_NONE,
            .reading = -1};
        if (records_replace(l, found, &undo, &e.id, w->e->fault))
            return -1;
        if (defects_add(w->ds, &e))
            return fault_set(w->e->fault, EX_OSERR, "out of memory");
        buf_print(
            w->out, "defect %lld: no longer missing\n", (long long)number);
    }
    if (b.lacking == NULL)
        return 0;
    if (report_missing(w, move, &b))
        return -1;
    buf_print(
        w->out, "%s lacks it now for item %s\n", b.lacking->id, b.item->code);
    return say_condition(w, b.lacking);
}

int
defect_input_move(
    const struct record_input *e, struct record *r, struct buf *out)
{
    struct entering w;
    const char *id = r->by ? people_id(run_fleet(e->run), r->by) : NULL;
    struct defect_event move = {.kind = EVENT_MOVED,
        .at = {r->day, 0},
        .whole_day = 1,
        .by = id ? id : r->by,
        .subject = r->subject,
        .subject_id = r->subject_id,
        .other = r->other,
        .sure = e->sure,
        .until = DAY_NONE,
        .reading = -1};

    if (begin(&w, e, out))
        return -1;
    return end(&w, enter_move(&w, r, &move));
}

/* --- voids ---------------------------------------------------------------- */

/* Whether a void of that event is asked of the fold: of all that belongs to a
 * defect, and of what else stops a vehicle where anybody is named who may lift
 * a stop. */
static int
is_guarded(const struct entering *w, const struct defect_event *was)
{
    if (was == NULL)
        return 0;
    return (was->kind != EVENT_FAILED && was->kind != EVENT_MOVED) ||
           (was->subject != NULL && people_count(run_fleet(w->e->run),
                                        MAY_RELEASE, was->subject) > 0);
}

/* The first report that stands of those that came of the check or the move @id,
 * or NULL. */
static const struct defect_event *
came_of(const struct defects *ds, int64_t id)
{
    size_t n;
    const struct defect_event *all = defects_events(ds, &n);

    for (size_t i = 0; i < n; i++)
        if (all[i].kind == EVENT_REPORTED && all[i].voided_by == 0 &&
            all[i].cause == id)
            return &all[i];
    return NULL;
}

/* What was voided may have been what stopped a vehicle, or what lifted that. */
static int
fold_anew(struct entering *w, int64_t id)
{
    defects_free(w->ds);
    w->ds = defect_events_fold(w->e->run, w->e->fault);
    w->entered = id;
    return w->ds ? 0 : -1;
}

/* A leaving is no act on a defect, but its void lets the vehicle be driven
 * again: sets @subject to whose it is, where anybody is named who may lift a
 * stop; else to NULL. */
static int
find_leaving(
    const struct entering *w, int64_t id, const struct subject **subject)
{
    const struct run_context *p = w->e->run;
    struct record *all;
    size_t n;

    *subject = NULL;
    if (records_standing(run_ledger(p), run_fleet(p), RECORD_BIT(RECORD_LEFT),
            NULL, run_arena(p), &all, &n, w->e->fault))
        return -1;
    for (size_t i = 0; i < n; i++)
        if (all[i].id == id && all[i].subject != NULL &&
            people_count(run_fleet(p), MAY_RELEASE, all[i].subject) > 0)
            *subject = all[i].subject;
    return 0;
}

/* Void what was asked for and allowed, and with a move what is missing by it.
 */
static int
void_it(struct entering *w, const struct defect_event *event,
    const struct defect_event *missing, const char *note)
{
    const struct record_input *e = w->e;
    struct ledger *l = run_ledger(e->run);
    int64_t now = run_moment(e->run).now;

    if ((missing != NULL &&
            records_void(l, missing->id, event->by, note, now, e->fault)) ||
        records_void(l, event->about, event->by, note, now, e->fault))
        return -1;
    buf_print(w->out, "voided record %lld\n", (long long)event->about);
    return fold_anew(w, event->about);
}

int
defect_input_void(const struct record_input *e, int64_t id,
    const struct defect_input *who, struct buf *out)
{
    struct entering w;
    struct defect_event event = {
        .kind = EVENT_VOIDED, .about = id, .until = DAY_NONE, .reading = -1};
    const struct subject *left;
    int rc = -1;

    if (begin(&w, e, out))
        return -1;
    const struct defect_event *was = defects_event(w.ds, id);
    const struct defect_event *finding = came_of(w.ds, id);
    int is_move = was != NULL && was->kind == EVENT_MOVED;
    if (finding != NULL && !is_move) {
        fault_fill(e->fault, EX_DATAERR,
            "record %lld: %s; the newest is record %lld", (long long)id,
            enter_refusal_text(ENTER_HAS_DEFECTS), (long long)finding->id);
        return end(&w, -1);
    }
    if (find_leaving(&w, id, &left))
        return end(&w, -1);
    if (left == NULL && !is_guarded(&w, was))
        return end(&w, 0);
    event.subject = left ? left : was->subject;
    if (read_who(e, who, &event) == 0) {
        const struct person *p = people_find(run_fleet(e->run), event.by);
        struct enter_answer a = {.refusal = ENTER_ALLOWED};
        if (left == NULL)
            a = may_enter(w.ds, &event, &w.now);
        else if (p == NULL || !people_may(p, MAY_RELEASE, left))
            a.refusal = ENTER_MAY_NOT_LIFT;
        rc = a.refusal == ENTER_ALLOWED
                 ? void_it(&w, &event, is_move ? finding : NULL, who->note)
                 : fault_set(e->fault, EX_DATAERR, "record %lld: %s",
                       (long long)id, enter_refusal_text(a.refusal));
    }
    return end(&w, rc) == 0 ? 1 : -1;
}
