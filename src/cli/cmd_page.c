#include "arguments.h"
#include "command.h"
#include "dues.h"
#include "workshop.h"

static const struct option_row rows[] = {
    {"depot", 0, "DEPOT", "only of this depot"},
    {NULL, 0, NULL, NULL},
};

static int
show(struct invocation *i, const struct run_context *p,
    const struct depot *depot)
{
    const struct scope scope = {SCOPE_DEPOT, depot};
    const struct workshop w = {
        .scopes = &scope,
        .n_scopes = depot != NULL,
        .part = depot ? depot->title : NULL,
    };
    const struct snapshot *s = dues_of_run(p, &i->fault);

    return s ? workshop_page(p, s, &w, i->out, &i->fault) : -1;
}

static int
run(struct invocation *i)
{
    const char *id = options_value(&i->options, "depot");
    struct run_context *p = command_run(i, LEDGER_READ, RUN_NEEDED, RUN_PAGES);
    const struct depot *depot = p && id ? argument_depot(i, p, id) : NULL;
    int rc =
        p != NULL && (id == NULL || depot != NULL) ? show(i, p, depot) : -1;

    run_close(p);
    return rc;
}

const struct command cmd_page = {
    .name = "page",
    .operands = "",
    .summary = "Write the workshop page, for a wall, a phone or paper.",
    .options = rows,
    .run = run,
};
