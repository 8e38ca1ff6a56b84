#ifndef DEFECT_ACT_H
#define DEFECT_ACT_H

#include "arguments.h"
#include "defect_input.h"

/* What the commands assess, repair and release have in common: the number of a
 * defect, and who does it, when and why. */

#define DEFECT_ACT_OPTIONS                                                     \
    {"on", 0, "DAY", "the day, 2026-12-02 or today (the default)"},            \
        {"at", 0, "HH:MM", "at what time; now, when it is today"},             \
        {"by", 0, "NAME", "who does it, by id or name"},                       \
        {"reference", 0, "TEXT", "the number of a job sheet"},                 \
        {"note", 0, "TEXT", "why, or what was done"},                          \
    {                                                                          \
        "alone", 0, NULL, "nobody else may do it; --note says why it was done" \
    }

/* They alone. */
extern const struct option_row defect_act_options[];

/* Open the ledger, read what is common, and let @enter do the act on what has
 * the number that @n says. */
int defect_act_run(struct invocation *i, const char *n,
    int (*enter)(const struct record_input *e, int64_t number,
        const struct options *o, const struct defect_input *who,
        struct buf *out));

#endif
