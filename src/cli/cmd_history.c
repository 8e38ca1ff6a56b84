#include "arguments.h"
#include "buf.h"
#include "chain.h"
#include "command.h"

#include <strings.h>
#include <sysexits.h>

/* Records in the order of entry; voided ones stay to be seen. */

static const struct option_row rows[] = {
    {"verify", 0, NULL, "instead: prove that no record was changed"},
    {NULL, 0, NULL, NULL},
};

static void
add_record(const struct record *r, struct buf *out)
{
    char day[DAY_WORDS];

    buf_print(out, "%5lld  %s  %-8s  %s%s%s", (long long)r->id,
        day_words(r->day, day), r->subject_id, record_kind_word(r->kind),
        r->job_id ? " " : "", r->job_id ? r->job_id : "");
    record_say(r, out);
    if (r->voided_by != 0)
        buf_print(out, "  VOID since record %lld%s%s%s",
            (long long)r->voided_by, r->voided_note ? " \"" : "",
            r->voided_note ? r->voided_note : "", r->voided_note ? "\"" : "");
    buf_text(out, "\n");
}

/* A subject that the fleet file has no more is known by its records. */
static int
list(struct invocation *i, const struct run_context *p)
{
    const char *id = options_operand(&i->options, 0);
    const struct record *all = run_made(p)->records;
    size_t n = run_made(p)->n_records;
    size_t shown = 0;

    for (size_t k = 0; k < n; k++)
        if (id == NULL || strcasecmp(all[k].subject_id, id) == 0) {
            add_record(&all[k], i->out);
            shown++;
        }
    if (id == NULL || shown > 0)
        return 0;
    return argument_subject(i, p, id) ? 0 : -1;
}

static int
verify(struct invocation *i, const struct run_context *p)
{
    struct chain chain;

    if (i->options.n_operands != 0)
        return fault_set(&i->fault, EX_USAGE,
            "--verify takes no SUBJECT: the records of all are one chain");
    if (chain_verify(run_ledger(p), &chain, &i->fault))
        return -1;
    buf_print(i->out, "%lld record%s, the chain is whole\n",
        (long long)chain.records, chain.records == 1 ? "" : "s");
    if (chain.records == 0)
        return 0;
    buf_text(i->out, "last hash ");
    for (size_t k = 0; k < CHAIN_HASH; k++)
        buf_print(i->out, "%02x", chain.last[k]);
    buf_text(i->out, "\n");
    return 0;
}

static int
run(struct invocation *i)
{
    struct run_context *p = command_run(i, LEDGER_READ, RUN_HISTORY, 0);
    int rc = -1;

    if (p != NULL && options_value(&i->options, "verify") != NULL)
        rc = verify(i, p);
    else if (p != NULL)
        rc = list(i, p);
    run_close(p);
    return rc;
}

const struct command cmd_history = {
    .name = "history",
    .operands = "[SUBJECT]",
    .most = 1,
    .summary = "List the records, the first entered first, or prove them.",
    .options = rows,
    .run = run,
};
