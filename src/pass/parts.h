#ifndef PARTS_H
#define PARTS_H

#include "health_checks.h"

/*
 * What a run does for everybody, in parts: one table of them, in parts.c, for
 * `ostler nightly` and for the rounds of the daemon.  All work from the one
 * plan and the one snapshot of the run.  A part that fails does not keep the
 * others from running.
 */
enum part {
    PART_FEEDS, /* their files are brought up to date */
    PART_PAGES, /* what is served is made anew: by the daemon, which has it */
    PART_PLAN,  /* the plan is kept, for the next one to hold to */
    PART_REMINDERS, /* people are told */
    PART_CHECKS,    /* what is wrong with the program itself is looked for, */
    PART_REPORT,    /* and its administrator told */
    PART_SENDING /* mail is handed to a server: the daemon does so later, in a
                    process of its own */
};

/* When a part has its turn: bits. */
enum parts_when {
    PARTS_NIGHTLY = 1 << 0,
    PARTS_ROUND = 1 << 1, /* any round of the daemon */
    PARTS_TODAY = 1 << 2, /* one whose day is the clock's: with another it tells
                             nobody, and keeps nothing */
    PARTS_HOUR = 1 << 3,  /* the hour of the reminders is here */
    PARTS_NEWS = 1 << 4   /* the administrator is to hear something at once */
};

/* A run under way; what is not for the parts is for whoever runs them. */
struct parts_run {
    const struct run_context *run;
    unsigned when;     /* bits */
    struct buf *notes; /* what somebody should know although all went well */
    struct health_checks *checks; /* what is wrong */

    /* How a part went: with @failed, as @seen says. */
    void (*ended)(
        void *with, enum part part, int failed, const struct fault *seen);
    /* Add to the checks what else is known to be wrong. */
    void (*add_known)(void *with, struct health_checks *checks);
    /* Make anew what is served; NULL where nothing is. */
    int (*serve)(void *with, struct fault *f);
    void *with;
};

/* Do what has its turn. */
void parts_run(const struct parts_run *r);

/* What trouble with a part is said to be about, "the feeds"; NULL where trouble
 * with it is told in no other way. */
const char *parts_about(enum part part);

/* All parts of a night, while no other run does its own.  Returns 0, or -1 with
 * @f set to the first failure. */
int parts_nightly(
    const struct run_context *p, struct buf *notes, struct fault *f);

/*
 * Append what parts_nightly() would send to whom, and why, for people to read,
 * and write nothing: the ledger may be open for reading only.  Returns 0, or -1
 * with @f set.
 */
int parts_show(const struct run_context *p, struct buf *out, struct fault *f);

#endif
