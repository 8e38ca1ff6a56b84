#include "record_input.h"

#include "kind.h"
#include "num.h"
#include "reading_check.h"
#include "records.h"

#include <stdio.h>
#include <string.h>
#include <sysexits.h>

int
record_input_text(
    const struct record_input *e, const char *name, const char *text)
{
    if (text == NULL)
        return 0;
    if (text[0] == '\0')
        return fault_set(e->fault, EX_USAGE,
            "%s%s is empty; say it or leave it out", e->mark, name);
    for (const char *c = text; *c != '\0'; c++)
        if ((unsigned char)*c < ' ' || *c == 127)
            return fault_set(e->fault, EX_USAGE,
                "%s%s has a control character; write it on one line", e->mark,
                name);
    return 0;
}

day_t
record_input_day(const struct record_input *e, const char *name,
    const char *text, int needed)
{
    if (text == NULL && needed)
        fault_fill(e->fault, EX_USAGE,
            "%s%s DAY is missing: the day it was done, as 2026-12-02 or today",
            e->mark, name);
    if (text == NULL)
        return DAY_NONE;
    if (strcmp(text, "today") == 0)
        return run_moment(e->run).today;
    day_t day = day_parse(text, strlen(text));
    if (day == DAY_NONE)
        fault_fill(e->fault, EX_USAGE,
            "%s%s: '%s' is no day; write it as 2026-12-02, or today", e->mark,
            name, text);
    return day;
}

int64_t
record_input_number(const char *what, const char *text, struct fault *f)
{
    int64_t n;

    if (num_parse(text, strlen(text), 0, 99999999, &n)) {
        fault_fill(f, EX_USAGE,
            "%s: '%s' is not a whole number from 0 to 99999999", what, text);
        return -1;
    }
    return n;
}

int
record_input_check_existed(
    const struct record_input *e, const struct record *r, day_t day)
{
    const struct subject *s = r->subject;
    day_t first =
        day_earlier(s->built, day_earlier(s->registered, s->in_service));
    char text[DAY_WORDS];
    char other[DAY_WORDS];

    if (e->sure)
        return 0;
    if (first != DAY_NONE && day < first)
        return fault_set(e->fault, EX_DATAERR,
            "%s is before %s existed (%s, by the fleet file); check the day, "
            "or %s if it is right",
            day_words(day, text), s->id, day_words(first, other), e->say_sure);
    return 0;
}

int
record_input_check_day(const struct record_input *e, const struct record *r)
{
    char day[DAY_WORDS];
    char other[DAY_WORDS];
    day_t today = run_moment(e->run).today;

    if (r->day > today)
        return fault_set(e->fault, EX_DATAERR,
            "%s is still to come (today is %s); record what was done once it "
            "has been",
            day_words(r->day, day), day_words(today, other));
    return record_input_check_existed(e, r, r->day);
}

/* Nonzero when some job of @s goes by that meter, or none by any. */
static int
goes_by(const struct fleet *f, const struct subject *s, enum meter meter)
{
    int other = 0;

    for (size_t k = 0; k < s->n_tasks; k++) {
        const struct rule *rule = f->tasks[s->first_task + k].rule;
        for (int i = 0; i < rule->n_every; i++) {
            if (kind_meter(&rule->every[i]) == meter)
                return 1;
            other |= kind_meter(&rule->every[i]) != METER_NONE;
        }
    }
    return !other;
}

enum meter
record_input_meter(const struct fleet *f, const struct subject *s)
{
    return goes_by(f, s, METER_DISTANCE) ? METER_DISTANCE : METER_HOURS;
}

int
record_input_other_unit(const struct record *r)
{
    day_t since = r->subject->unit_since;

    return r->meter == METER_DISTANCE && since != DAY_NONE && r->day < since;
}

int
record_input_check_reading(const struct record_input *e, const struct record *r)
{
    struct reading_doubt s;

    if (e->sure)
        return 0;
    int doubted =
        reading_check(run_fleet(e->run), run_ledger(e->run), r, &s, e->fault);
    return doubted > 0 ? reading_check_refuse(r, &s, e->say_sure, e->fault)
                       : doubted;
}

static int
read_result(const struct record_input *e, const char *result, struct record *r)
{
    int kind = result ? record_result(result) : RECORD_COMPLETED;

    if (kind < 0)
        return fault_set(e->fault, EX_USAGE,
            "%sresult: '%s' is neither completed nor failed", e->mark, result);
    r->kind = (enum record_kind)kind;
    return 0;
}

static int
read_reading(
    const struct record_input *e, const char *reading, struct record *r)
{
    char what[32];

    r->reading = -1;
    if (reading == NULL)
        return 0;
    snprintf(what, sizeof what, "%sreading", e->mark);
    r->meter = record_input_meter(run_fleet(e->run), r->subject);
    r->other_unit = record_input_other_unit(r);
    r->reading = record_input_number(what, reading, e->fault);
    return r->reading < 0 ? -1 : record_input_check_reading(e, r);
}

int
record_input_work(const struct record_input *e, const struct task *t,
    const struct record_input_work *w, struct record *r)
{
    *r = (struct record){
        .subject = t->subject,
        .subject_id = t->subject->id,
        .job = t->job,
        .job_id = t->job->id,
        .day = record_input_day(e, "on", w->day, 1),
        .until = DAY_NONE,
        .entered = run_moment(e->run).now,
        .by = w->by,
        .reference = w->reference,
        .note = w->note,
    };
    if (r->day == DAY_NONE || record_input_text(e, "by", w->by) ||
        record_input_text(e, "reference", w->reference) ||
        record_input_text(e, "note", w->note) || record_input_check_day(e, r))
        return -1;
    return read_result(e, w->result, r) || read_reading(e, w->reading, r) ? -1
                                                                          : 0;
}

int
record_input_check_twice(const struct record_input *e, const struct record *r)
{
    char day[DAY_WORDS];
    int64_t id = 0;

    if (e->sure || r->kind != RECORD_COMPLETED)
        return 0;
    int done = records_done_on(run_ledger(e->run), r, &id, e->fault);
    if (done <= 0)
        return done;
    return fault_set(e->fault, EX_DATAERR,
        "%s %s is on record as completed on %s already (record %lld); if it "
        "was done once more, %s; if that record is wrong, void it: ostler "
        "record --void %lld --note TEXT",
        r->subject_id, r->job_id, day_words(r->day, day), (long long)id,
        e->say_sure, (long long)id);
}
