#include "command.h"

#include "buf.h"

#include <string.h>
#include <sysexits.h>

#define FLEET_FILE "/etc/ostler/fleet.conf"

/* "complete" stays last: it is for the shell and not in the help. */
static const struct command *const commands[] = {
    &cmd_check,
    &cmd_due,
    &cmd_why,
    &cmd_plan,
    &cmd_book,
    &cmd_record,
    &cmd_reading,
    &cmd_off_road,
    &cmd_move,
    &cmd_left,
    &cmd_walk_round,
    &cmd_defect,
    &cmd_assess,
    &cmd_repair,
    &cmd_release,
    &cmd_defects,
    &cmd_import,
    &cmd_history,
    &cmd_evidence,
    &cmd_page,
    &cmd_feed,
    &cmd_key,
    &cmd_nightly,
    &cmd_outbox,
    &cmd_backup,
    &cmd_restore,
    &cmd_complete,
};

#define COMMANDS (sizeof commands / sizeof commands[0])

const struct option_row command_common[] = {
    {"config", 'c', "FILE", "the fleet file (" FLEET_FILE ")"},
    {"today", 0, "DAY", "take this day, YYYY-MM-DD, for today"},
    {"help", 'h', NULL, "say how it is used"},
    {NULL, 0, NULL, NULL},
};

const struct command *
command_at(size_t n)
{
    return n < COMMANDS ? commands[n] : NULL;
}

const struct command *
command_find(const char *name)
{
    for (size_t i = 0; i < COMMANDS; i++)
        if (strcmp(commands[i]->name, name) == 0)
            return commands[i];
    return NULL;
}

static void
help_of_program(struct buf *out)
{
    buf_text(out, "usage: ostler COMMAND [OPTION]...\n\n"
                  "What is due on each vehicle, on which day to do it, and "
                  "why.\n\n");
    for (size_t i = 0; i + 1 < COMMANDS; i++)
        buf_print(
            out, "  %-10s  %s\n", commands[i]->name, commands[i]->summary);
    buf_text(out, "\nEvery command takes:\n");
    options_help(command_common, out);
    buf_text(out, "\nostler COMMAND --help says more; the manual is ostler(1), "
                  "the fleet file's is ostler-fleet(5).\n");
}

void
command_help(const struct command *c, struct buf *out)
{
    if (c == NULL) {
        help_of_program(out);
        return;
    }
    buf_print(out, "usage: ostler %s%s%s [OPTION]...\n\n%s\n\n", c->name,
        c->operands[0] ? " " : "", c->operands, c->summary);
    options_help(c->options, out);
    options_help(command_common, out);
}

struct run_context *
command_run(struct invocation *i, enum ledger_mode mode, enum run_reads reads,
    unsigned serves)
{
    const char *file = options_value(&i->options, "config");
    const char *today = options_value(&i->options, "today");
    struct run_options o = {.fleet_file = file ? file : FLEET_FILE,
        .today = DAY_NONE,
        .ledger = mode,
        .reads = reads,
        .serves = serves};

    if (today != NULL) {
        o.today = day_parse(today, strlen(today));
        if (o.today == DAY_NONE) {
            fault_fill(&i->fault, EX_USAGE,
                "--today: '%s' is no day; write it as 2026-12-02, from 1900 to "
                "2199",
                today);
            return NULL;
        }
    }
    return run_open(&o, i->problems, &i->fault);
}
