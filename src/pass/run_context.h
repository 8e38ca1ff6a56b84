#ifndef RUN_CONTEXT_H
#define RUN_CONTEXT_H

#include "arena.h"
#include "buf.h"
#include "clock.h"
#include "ledger.h"
#include "problem.h"
#include "record.h"

struct fleet_plan;
struct booked;
struct conditions;
struct config;
struct defects;
struct snapshot;

/*
 * One run of a command, or one round of the daemon: the fleet file and the
 * ledger, read at one moment. Whatever is done is done with one of these.
 */
struct run_context;

/* How much of the ledger is read. */
enum run_reads {
    RUN_NEEDED,  /* the records that the dues need, which is far quicker than
                    all; all when a feed is made that shows what was done */
    RUN_HISTORY, /* all records */
    RUN_LATER,   /* none, until run_read() */
    RUN_FLEET    /* the ledger is not even opened, whatever its state */
};

/* What the dues of a run are made for: bits.  They reach as far, and say as
 * much, as the one that asks for most. */
enum run_serves {
    RUN_REASONS = 1 << 0, /* each due says why */
    RUN_SETTLED = 1 << 1, /* calendars and mail: a forecast that was shown
                             stands until it has moved, see calm.h, which the
                             ledger keeps, so it must be open to write */
    RUN_PLAN = 1 << 2,    /* coming cycles, as far as the plan reaches */
    RUN_PAGES = 1 << 3,   /* the same, as far as pages do */
    RUN_FEEDS = 1 << 4    /* the same, as far as feeds do */
};

struct run_options {
    const char *fleet_file;
    day_t today;             /* DAY_NONE to read the clock */
    enum ledger_mode ledger; /* LEDGER_WRITE when something will be written */
    enum run_reads reads;
    unsigned serves; /* of enum run_serves */
};

/*
 * What a run has at hand besides: what it read, and what was worked out of that
 * by planning.h, dues.h and fitness.h, each once and when it was first asked
 * for.
 */
struct run_made {
    unsigned serves;              /* as asked for */
    const struct record *records; /* with RUN_HISTORY all, in the order of */
    size_t n_records;             /* entry, voided ones too; else NULL */
    struct booked *booked;        /* in the arena; NULL until asked for */
    size_t n_booked;
    struct fleet_plan *plan;
    struct snapshot *dues;
    struct defects *defects;
    struct conditions *conditions;
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

/* Read the clock once more, and so much of the ledger, for the fleet as it was
 * read; @problems may be NULL here and below.  0, or -1 with @f set, and the
 * run rests. */
int run_again(struct run_context *p, enum run_reads reads,
    struct problems *problems, struct fault *f);

/* Read what the dues need, or, unless @only is NULL, what that one task needs:
 * of a run that reads RUN_LATER.  0, or -1 with @f set. */
int run_read(struct run_context *p, const struct task *only,
    struct problems *problems, struct fault *f);

/* The fleet, the moment and the ledger of the run; the ledger is NULL when it
 * was not opened. */
const struct fleet *run_fleet(const struct run_context *p);
struct moment run_moment(const struct run_context *p);
struct ledger *run_ledger(const struct run_context *p);

/* Memory that lives as long as the run. */
struct arena *run_arena(const struct run_context *p);

/* What it has at hand; NULL while it rests. */
struct run_made *run_made(const struct run_context *p);

/* The facts that the calculator works from: with history all that stand, else
 * those that the dues need, among them all spells off the road. */
const struct facts *run_facts(const struct run_context *p);

/* The fleet file as it was read, for what is to be said of it. */
struct config *run_config(const struct run_context *p);

#endif
