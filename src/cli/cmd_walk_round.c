#include "arguments.h"
#include "defect_input.h"
#include "num.h"

#include <string.h>
#include <sysexits.h>

#define ANSWERED_MOST 100

static const struct option_row rows[] = {
    {"on", 0, "DAY", "the day, 2026-12-02 or today (the default)"},
    {"at", 0, "HH:MM", "when it began; now, when it is today"},
    {"by", 0, "NAME", "who walked round, by id or name"},
    {"reading", 0, "N", "what the odometer showed"},
    {"end-reading", 0, "N", "and at the end of the use"},
    {"nil", 0, NULL, "nothing was found"},
    {"defect", 0, "ITEM=TEXT...", "what was found wrong; for each item"},
    {"grade", 0, "ITEM=GRADE...", "minor, major or stops, if not the item's"},
    {"answered", 0, "N...", "a watched defect that was looked at"},
    {"sheet", 0, "NAME", "the check sheet, when there are several"},
    {"paper", 0, "NUMBER", "typed in later from that sheet of paper"},
    {"note", 0, "TEXT", "anything worth keeping"},
    ARGUMENT_SURE,
    {NULL, 0, NULL, NULL},
};

/* Split @text at its first "=": the code of an item, kept in @a, and the rest.
 */
static const char *
split(struct invocation *i, struct arena *a, const char *option,
    const char *text, const char **item)
{
    size_t len = strcspn(text, "=");

    *item = NULL;
    if (len == 0 || text[len] == '\0' || text[len + 1] == '\0') {
        fault_fill(&i->fault, EX_USAGE, "--%s: '%s' is not ITEM=%s", option,
            text, strcmp(option, "grade") == 0 ? "GRADE" : "TEXT");
        return NULL;
    }
    if ((*item = arena_text(a, text, len)) == NULL)
        fault_fill(&i->fault, EX_OSERR, "out of memory");
    return *item ? text + len + 1 : NULL;
}

/* All --defect with the grade that a --grade of the same item gives. */
static int
read_found(struct invocation *i, struct arena *a,
    struct defect_input_found *found, size_t *n)
{
    const char *text;
    const char *item;

    *n = 0;
    for (size_t at = 0; (text = options_next(&i->options, "defect", &at));
         (*n)++) {
        text = split(i, a, "defect", text, &item);
        if (text == NULL)
            return -1;
        found[*n] = (struct defect_input_found){item, text, NULL};
    }
    for (size_t at = 0; (text = options_next(&i->options, "grade", &at));) {
        size_t k = 0;
        text = split(i, a, "grade", text, &item);
        if (text == NULL)
            return -1;
        while (k < *n && strcmp(found[k].item, item) != 0)
            k++;
        if (k == *n)
            return fault_set(&i->fault, EX_USAGE,
                "--grade %s=%s has no --defect %s=TEXT", item, text, item);
        found[k].grade = text;
    }
    return 0;
}

static int
read_answered(struct invocation *i, int64_t *numbers, size_t *n)
{
    const char *text;

    *n = 0;
    for (size_t at = 0; (text = options_next(&i->options, "answered", &at));)
        if ((numbers[(*n)++] = argument_number(i, "--answered", text)) < 0)
            return -1;
    return 0;
}

static int
enter(struct invocation *i, const struct run_context *p)
{
    const struct options *o = &i->options;
    const struct subject *s = argument_subject(i, p, options_operand(o, 0));
    struct defect_input_found found[REPEATS_MOST];
    int64_t answered[ANSWERED_MOST];
    struct record_input e = argument_input(i, p);
    const struct defect_input who = {.day = options_value(o, "on"),
        .at = options_value(o, "at"),
        .by = options_value(o, "by"),
        .note = options_value(o, "note")};
    struct defect_input_check check = {.sheet = options_value(o, "sheet"),
        .reading = options_value(o, "reading"),
        .end = options_value(o, "end-reading"),
        .paper = options_value(o, "paper"),
        .nil = options_value(o, "nil") != NULL,
        .found = found,
        .answered = answered,
        .opened = -1};

    if (s == NULL || read_found(i, run_arena(p), found, &check.n_found) ||
        read_answered(i, answered, &check.n_answered))
        return -1;
    return defect_input_check(&e, s, &who, &check, i->out);
}

static int
run(struct invocation *i)
{
    struct run_context *p = command_run(i, LEDGER_WRITE, RUN_NEEDED, 0);
    int rc = p != NULL ? enter(i, p) : -1;

    run_close(p);
    return rc;
}

const struct command cmd_walk_round = {
    .name = "walk-round",
    .operands = "SUBJECT",
    .least = 1,
    .most = 1,
    .summary = "Enter a walk-round check, with the defects found in it.",
    .options = rows,
    .run = run,
};
