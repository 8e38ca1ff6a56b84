#ifndef RESTORE_H
#define RESTORE_H

#include "fault.h"

#include <stdint.h>

/* What restoring did. */
struct restored {
    int64_t records; /* in the ledger now */
    int64_t dropped; /* that only the one before had; -1 when it could not be
                        read */
    int kept;        /* that one is PATH.before-restore-KEPT now; 0 when there
                        was none */
};

/*
 * Put a copy of the backup @from in the place of the ledger at @path, both
 * checked as backup_make() does.  When the ledger holds records that @from has
 * not, or is damaged so that nobody can tell, this is refused with EX_DATAERR
 * unless @drop_newer is nonzero.  Returns 0, or -1 and then the ledger is as it
 * was; EX_TEMPFAIL while a pass is running.  Whoever has the ledger open
 * meanwhile can no longer write to it: that ends in EX_TEMPFAIL.
 */
int restore_from(const char *path, const char *from, int drop_newer,
    struct restored *out, struct fault *f);

#endif
