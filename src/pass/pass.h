#ifndef PASS_H
#define PASS_H

#include "arena.h"
#include "buf.h"
#include "clock.h"
#include "ledger.h"
#include "problem.h"
#include "snapshot.h"

/*
 * One pass over everything: the fleet file and the ledger, read at one moment.
 * Whatever a command or the daemon does, it does with one of these.
 */
struct pass;

struct pass_options {
    const char *fleet_file;
    day_t today;             /* DAY_NONE to read the clock */
    enum ledger_mode ledger; /* LEDGER_WRITE when something will be written */
    int fleet_only;          /* the ledger is not opened, whatever its state */
    int history;             /* all records are read; else only those that the
                                dues need, which is far quicker */
    int feeds;               /* feeds will be written: all records are read when
                                one of them shows what was done */
};

/*
 * Read the fleet file, the clock and the ledger.  Problems of the fleet file
 * go to @problems; errors among them, like a ledger that cannot be read, end
 * in NULL with @f set.  Close with pass_close().
 */
struct pass *pass_open(const struct pass_options *options,
    struct problems *problems, struct fault *f);

/* Give back everything; NULL is ignored. */
void pass_close(struct pass *p);

/*
 * Give back all but the fleet, which stays as it was read: whoever waits for
 * the next thing to do holds no ledger meanwhile.  Until pass_again() only
 * pass_fleet() may be asked.
 */
void pass_rest(struct pass *p);

/* Read the clock and the ledger once more, for the fleet as it was read.  0, or
 * -1 with @f set, and the pass rests. */
int pass_again(struct pass *p, struct problems *problems, struct fault *f);

/* The fleet, the moment and the ledger of the pass; the ledger is NULL when it
 * was not opened. */
const struct fleet *pass_fleet(const struct pass *p);
struct moment pass_moment(const struct pass *p);
struct ledger *pass_ledger(const struct pass *p);

/* Memory that lives as long as the pass. */
struct arena *pass_arena(const struct pass *p);

/* The facts that the calculator works from: with history all that stand, else
 * those that the dues need, among them all spells off the road. */
const struct facts *pass_facts(const struct pass *p);

/* All records in the order of entry, voided ones too; sets @n.  Only of a pass
 * that was opened with history. */
const struct record *pass_records(const struct pass *p, size_t *n);

/* Add the warnings about the fleet file that depend on today. */
void pass_warn(const struct pass *p, struct problems *ps);

/* Warn of the line of the fleet file that states the deadline of @t. */
void pass_warn_stated(const struct pass *p, const struct task *t,
    const char *text, struct problems *ps);

/* Append the fleet as it was understood, as config_explain() does. */
int pass_explain(const struct pass *p, struct buf *out, struct fault *f);

#endif
