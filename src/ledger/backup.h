#ifndef BACKUP_H
#define BACKUP_H

#include "fault.h"

#include <stdint.h>

/*
 * Copy the ledger at @path, which others may go on using, to the file @to.  A
 * ledger that is there already is replaced, anything else is refused.  The copy
 * is checked before it takes its place: its pages, its references and its chain
 * of records.  Sets @records, how many it has.  Returns 0, or -1 and then @to
 * is as it was; EX_NOINPUT when there is no ledger.
 */
int backup_make(
    const char *path, const char *to, int64_t *records, struct fault *f);

#endif
