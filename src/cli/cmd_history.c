#include "buf.h"
#include "command.h"

/* Records in the order of entry; voided ones stay to be seen. */

static void
add_words(const struct record *r, struct buf *out)
{
    char until[DAY_WORDS];

    if (r->reading >= 0)
        buf_print(out, "  at %lld %s", (long long)r->reading,
            r->meter == METER_HOURS ? "hours"
            : r->subject            ? fleet_unit_word(r->subject->unit)
                                    : "");
    if (r->kind == RECORD_OFF_ROAD && r->until != DAY_NONE)
        buf_print(out, "  to %s", day_words(r->until, until));
    if (r->by != NULL)
        buf_print(out, "  by %s", r->by);
    if (r->reference != NULL)
        buf_print(out, "  ref %s", r->reference);
    if (r->note != NULL)
        buf_print(out, "  \"%s\"", r->note);
    if (r->voided_by != 0)
        buf_print(out, "  VOID since record %lld%s%s%s",
            (long long)r->voided_by, r->voided_note ? " \"" : "",
            r->voided_note ? r->voided_note : "", r->voided_note ? "\"" : "");
}

static void
add_record(const struct record *r, struct buf *out)
{
    char day[DAY_WORDS];

    buf_print(out, "%5lld  %s  %-8s  %s%s%s", (long long)r->id,
        day_words(r->day, day), r->subject_id, record_kind_word(r->kind),
        r->job_id ? " " : "", r->job_id ? r->job_id : "");
    add_words(r, out);
    buf_text(out, "\n");
}

static int
run(struct invocation *i)
{
    const char *id = options_operand(&i->options, 0);
    struct pass *p = command_pass(i, LEDGER_READ);
    const struct subject *s = NULL;
    size_t n;

    if (p == NULL || (id && (s = command_subject(i, p, id)) == NULL)) {
        pass_close(p);
        return -1;
    }
    const struct record *all = pass_records(p, &n);
    for (size_t k = 0; k < n; k++)
        if (s == NULL || all[k].subject == s)
            add_record(&all[k], i->out);
    pass_close(p);
    return 0;
}

const struct command cmd_history = {
    .name = "history",
    .operands = "[SUBJECT]",
    .most = 1,
    .summary = "List the records, the first entered first.",
    .run = run,
};
