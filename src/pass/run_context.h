#ifndef RUN_CONTEXT_H
#define RUN_CONTEXT_H

#include "arena.h"
#include "buf.h"
#include "clock.h"
#include "ledger.h"
#include "problem.h"
#include "snapshot.h"

/*
 * One run of a command, or one round of the daemon: the fleet file and the
 * ledger, read at one moment. Whatever is done is done with one of these.
 */
struct run_context;

struct run_options {
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
 * in NULL with @f set.  Close with run_close().
 */
struct run_context *run_open(const struct run_options *options,
    struct problems *problems, struct fault *f);

/* Give back everything; NULL is ignored. */
void run_close(struct run_context *p);

/*
 * Give back all but the fleet, which stays as it was read: whoever waits for
 * the next thing to do holds no ledger meanwhile.  Until run_again() only
 * run_fleet() may be asked.
 */
void run_rest(struct run_context *p);

/* Read the clock and the ledger once more, for the fleet as it was read.  0, or
 * -1 with @f set, and the run rests. */
int run_again(
    struct run_context *p, struct problems *problems, struct fault *f);

/* The fleet, the moment and the ledger of the run; the ledger is NULL when it
 * was not opened. */
const struct fleet *run_fleet(const struct run_context *p);
struct moment run_moment(const struct run_context *p);
struct ledger *run_ledger(const struct run_context *p);

/* Memory that lives as long as the run. */
struct arena *run_arena(const struct run_context *p);

/* The facts that the calculator works from: with history all that stand, else
 * those that the dues need, among them all spells off the road. */
const struct facts *run_facts(const struct run_context *p);

/* All records in the order of entry, voided ones too; sets @n.  Only of a run
 * that was opened with history. */
const struct record *run_records(const struct run_context *p, size_t *n);

/* Add the warnings about the fleet file that depend on today. */
void run_warn(const struct run_context *p, struct problems *ps);

/* Warn of the line of the fleet file that states the deadline of @t. */
void run_warn_stated(const struct run_context *p, const struct task *t,
    const char *text, struct problems *ps);

/* Append the fleet as it was understood, as config_explain() does. */
int run_explain(const struct run_context *p, struct buf *out, struct fault *f);

#endif
