#ifndef DEFECT_ACT_H
#define DEFECT_ACT_H

#include "arguments.h"
#include "defect_input.h"

/* What the commands assess, repair and release have in common: the number of a
 * defect, and who does it, when and why. */

extern const struct option_row defect_act_options[];

/* Open the ledger, read what is common, and let @enter do the act on the defect
 * with that number. */
int defect_act_run(struct invocation *i,
    int (*enter)(const struct record_input *e, int64_t number,
        const struct options *o, const struct defect_input *who,
        struct buf *out));

#endif
