#ifndef LEDGER_H
#define LEDGER_H

#include "fault.h"

/*
 * The ledger: one SQLite file of records, of what people were told and of
 * what was published.  Whatever has been written when a call returns is on
 * the disk; whatever fails leaves the file as it was.  One exception: with
 * EX_IOERR a write may stand all the same, when the disk failed at the end.
 *
 * A ledger is used by one thread at a time and not across fork().  Failures
 * carry an exit code of sysexits(3) in their fault: EX_TEMPFAIL when another
 * process keeps it locked, EX_IOERR for a full or failing disk, EX_CANTCREAT
 * and EX_NOPERM when it cannot be made or may not be written, EX_DATAERR when
 * it is damaged, not a ledger, or refuses what is to be written, EX_CONFIG
 * when a newer version made it, EX_OSERR when memory is out.
 */
struct ledger;

enum ledger_mode {
    LEDGER_READ,  /* a missing file reads as an empty ledger; writes fail */
    LEDGER_WRITE, /* a missing file is made, whole or not at all */
    LEDGER_SERVE, /* the same, by who must not wait long for others */
    LEDGER_TRIAL  /* to write and roll back: a missing file is not made, what is
                     written goes elsewhere and is lost */
};

/*
 * Open the ledger at @path and bring its tables up to date.  A file that is
 * there is never made anew, whatever its state.  Reading, too, may have to
 * undo what a crash left half written.  Returns NULL on failure.
 */
struct ledger *ledger_open(
    const char *path, enum ledger_mode mode, struct fault *f);

/* Close @l and undo a group that was not committed; NULL is ignored. */
void ledger_close(struct ledger *l);

/* Nonzero when another process has written to it since it was opened, -1 when
 * that cannot be told. */
int ledger_overtaken(struct ledger *l, struct fault *f);

/* How long to wait for another process, in milliseconds: at first 5000, and 500
 * with LEDGER_SERVE, which holds while the ledger is opened as well. */
void ledger_busy_timeout(struct ledger *l, int milliseconds);

/*
 * Group the writes up to ledger_commit(), so that all of them happen or none.
 * Nobody else can write meanwhile: keep it short.  A group may hold another,
 * which can be undone by itself.  Returns 0 or -1.
 */
int ledger_begin(struct ledger *l, struct fault *f);

/* End the group begun last.  Returns 0, or -1 and then it is undone. */
int ledger_commit(struct ledger *l, struct fault *f);

/* Undo the group begun last, if there is one. */
void ledger_rollback(struct ledger *l);

#endif
