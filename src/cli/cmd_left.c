#include "arguments.h"
#include "buf.h"
#include "records.h"

#include <strings.h>
#include <sysexits.h>

static const struct option_row rows[] = {
    {"on", 0, "DAY", "the day it went, 2026-12-02 or today"},
    {"why", 0, "WHY", "sold, scrapped or returned"},
    {"by", 0, "NAME", "who says so"},
    {"note", 0, "TEXT", "anything worth keeping"},
    ARGUMENT_SURE,
    {NULL, 0, NULL, NULL},
};

/* The word of the ledger for --why, or NULL with the fault set. */
static const char *
read_why(struct invocation *i)
{
    static const char *const words[] = {"sold", "scrapped", "returned"};
    const char *why = options_value(&i->options, "why");

    for (size_t k = 0; why != NULL && k < sizeof words / sizeof *words; k++)
        if (strcasecmp(words[k], why) == 0)
            return words[k];
    fault_fill(&i->fault, EX_USAGE, "--why is sold, scrapped or returned");
    return NULL;
}

/* Refuse a second time: whichever is wrong is to be voided first. */
static int
check_is_here(
    struct invocation *i, const struct run_context *p, const struct subject *s)
{
    struct record *left;
    size_t n;

    if (records_standing(run_ledger(p), run_fleet(p), RECORD_BIT(RECORD_LEFT),
            s->id, run_arena(p), &left, &n, &i->fault))
        return -1;
    return n == 0 ? 0
                  : fault_set(&i->fault, EX_DATAERR,
                        "%s has left already, by record %lld; if that is "
                        "wrong, void it",
                        s->id, (long long)left[0].id);
}

static int
add(struct invocation *i, const struct run_context *p)
{
    const struct subject *s =
        argument_subject(i, p, options_operand(&i->options, 0));
    const char *text = s ? read_why(i) : NULL;
    const struct record_value why = {.word = "why", .text = text};
    struct record_input e = argument_input(i, p);
    char day[DAY_WORDS];
    int64_t id;

    if (text == NULL)
        return -1;
    struct record r = {.kind = RECORD_LEFT,
        .subject = s,
        .subject_id = s->id,
        .day = argument_day(i, p, "on", 1),
        .until = DAY_NONE,
        .reading = -1,
        .values = &why,
        .n_values = 1};
    if (r.day == DAY_NONE || argument_record(i, p, &r) ||
        record_input_check_day(&e, &r) || check_is_here(i, p, s) ||
        records_add(run_ledger(p), &r, &id, &i->fault))
        return -1;
    buf_print(i->out, "record %lld: %s was %s on %s\n", (long long)id, s->id,
        why.text, day_words(r.day, day));
    return 0;
}

static int
run(struct invocation *i)
{
    struct run_context *p = command_run(i, LEDGER_WRITE, RUN_NEEDED, 0);
    int rc = p != NULL ? add(i, p) : -1;

    run_close(p);
    return rc;
}

const struct command cmd_left = {
    .name = "left",
    .operands = "SUBJECT",
    .least = 1,
    .most = 1,
    .summary = "Record that a subject was sold, scrapped or returned.",
    .options = rows,
    .run = run,
};
