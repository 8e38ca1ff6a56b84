#include "buf.h"
#include "entry.h"

static const struct option_row rows[] = {
    {"on", 0, "DAY", "the day it was read, 2026-12-02 or today"},
    {"hours", 0, NULL, "running hours; so taken where only hours count"},
    {"new-meter", 0, NULL, "the meter was replaced, and this is the new one's"},
    {"by", 0, "NAME", "who read it"},
    {"note", 0, "TEXT", "anything worth keeping"},
    ENTRY_SURE,
    {NULL, 0, NULL, NULL},
};

static int
read_record(struct invocation *i, const struct pass *p, struct record *r)
{
    const struct subject *s =
        command_subject(i, p, options_operand(&i->options, 0));

    if (s == NULL)
        return -1;
    int hours = options_value(&i->options, "hours") != NULL;
    int fitted = options_value(&i->options, "new-meter") != NULL;
    *r = (struct record){
        .kind = fitted ? RECORD_REPLACED : RECORD_READING,
        .meter = hours ? METER_HOURS : entry_meter(pass_fleet(p), s),
        .subject = s,
        .subject_id = s->id,
        .day = command_day(i, p, "on", 1),
        .until = DAY_NONE,
    };
    if (r->day == DAY_NONE || entry_sign(i, p, r) || entry_check_day(i, p, r))
        return -1;
    r->reading =
        command_number(i, "the reading", options_operand(&i->options, 1));
    return r->reading < 0 ? -1 : entry_check_reading(i, p, r);
}

static int
run(struct invocation *i)
{
    struct pass *p = command_pass(i, LEDGER_WRITE);
    struct record r;
    int64_t id;
    char day[DAY_WORDS];

    if (p == NULL || read_record(i, p, &r) ||
        records_add(pass_ledger(p), &r, &id, &i->fault)) {
        pass_close(p);
        return -1;
    }
    buf_print(i->out, "record %lld: %s%s showed %lld %s on %s\n", (long long)id,
        r.kind == RECORD_REPLACED ? "the new meter of " : "", r.subject->id,
        (long long)r.reading,
        r.meter == METER_HOURS ? "hours" : fleet_unit_word(r.subject->unit),
        day_words(r.day, day));
    pass_close(p);
    return 0;
}

const struct command cmd_reading = {
    .name = "reading",
    .operands = "SUBJECT VALUE",
    .least = 2,
    .most = 2,
    .summary = "Record what the odometer, or the hour meter, showed.",
    .options = rows,
    .run = run,
};
