#include "arguments.h"
#include "command.h"
#include "dues.h"
#include "publish.h"
#include "suggest.h"

static const struct feed *
find_feed(struct invocation *i, const struct run_context *p, const char *id)
{
    const struct fleet *f = run_fleet(p);
    const struct feed *found = publish_find(p, id);
    struct suggest guess = suggest_start(id);

    if (found != NULL)
        return found;
    for (size_t k = 0; k < f->n_feeds; k++)
        suggest_offer(&guess, f->feeds[k].id);
    argument_unknown(i, "feed", id, &guess);
    return NULL;
}

static int
show(struct invocation *i, const struct run_context *p, const struct feed *feed)
{
    const struct snapshot *s = dues_of_run(p, &i->fault);

    return s ? publish_feed(p, s, feed, i->out, &i->fault) : -1;
}

static int
run(struct invocation *i)
{
    struct run_context *p = command_run(
        i, LEDGER_WRITE, RUN_NEEDED, RUN_FEEDS | RUN_SETTLED | RUN_REASONS);
    const struct feed *feed =
        p ? find_feed(i, p, options_operand(&i->options, 0)) : NULL;
    int rc = -1;

    if (feed != NULL)
        rc = options_value(&i->options, "accept")
                 ? publish_accept(p, feed, i->notes, &i->fault)
                 : show(i, p, feed);
    run_close(p);
    return rc;
}

static const struct option_row options[] = {
    {"accept", 0, NULL, "publish it although it loses more than half"},
    {NULL, 0, NULL, NULL},
};

const struct command cmd_feed = {
    .name = "feed",
    .operands = "NAME",
    .least = 1,
    .most = 1,
    .summary = "Write one calendar feed to the standard output.",
    .options = options,
    .run = run,
};
