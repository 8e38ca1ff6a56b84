#ifndef CALC_CONTEXT_H
#define CALC_CONTEXT_H

#include "due.h"

/*
 * Inside the due layer only: what is at hand while one task is worked out,
 * and what an interval kind has to answer.
 */
struct arena;
struct buf;
struct calm;
struct decision;
struct reasons;
struct scan;

/* Something that counts as the job having been done. */
struct completion {
    day_t day;
    int64_t record;          /* 0 without a record */
    int64_t reading[METERS]; /* as in usage.h; USAGE_UNKNOWN for none */
    const struct record *by; /* NULL without a record */
    const struct job *job;   /* the one done, which may be a wider one */
    int also;                /* counts only towards a minimum number */
    int assumed;             /* has not happened yet */
};

struct calc_context {
    const struct task *task;
    const struct completion *done; /* in order of day */
    size_t n_done;
    /* Of a follow-on, where @done is but the open call that is due first: all
     * that called for it, and all that it was done, in the order of @done. */
    const struct completion *called;
    size_t n_called;
    const struct completion *answers;
    size_t n_answers;
    enum meter unread; /* a meter that cannot tell when another open call is
                          due, or METER_NONE */
    const struct record *failed; /* the newest failure since the last
                                    completion, or NULL */
    const struct spell *spells;  /* in order of day */
    size_t n_spells;
    struct usage distance;
    struct usage hours;
    const struct decision *before; /* what all but the newest completion came
                                      to, or NULL to begin at the beginning */
    struct reasons *why;           /* NULL when nobody asks */
    struct calm *calm;             /* forecasts that stand, or NULL */
    planned_day *planned;          /* NULL when there is no plan */
    void *planned_with;
    const struct booked *booked; /* for the task, in order of entry */
    size_t n_booked;
    const struct cycle *now; /* the present cycle, while a later one is worked
                                out; else NULL */
    int ahead;               /* how much later: so many of what was done are
                                assumed */
};

/* What one interval of a rule comes to, carried from cycle to cycle. */
struct limit {
    day_t deadline;      /* DAY_NONE when it cannot tell */
    day_t previous;      /* a rhythm's deadline, or its start, before that */
    day_t counts_from;   /* of a stated first deadline: earlier work counts
                            never for it; DAY_NONE for any other */
    day_t base;          /* the anchor of a series that must not drift */
    int64_t ahead;       /* so many months from there to its first deadline */
    int steps;           /* how many intervals from that one */
    size_t from;         /* which completion it runs from, counted from 1; 0
                            for the first deadline, before any */
    int extra;           /* the last completion changed nothing */
    int64_t due_reading; /* -1 without a meter */
    struct forecast forecast;
};

/*
 * A kind of interval.  To add one, write its file and give it a row in the
 * table in kind.c.  What nobody sets is 0 or NULL.
 */
struct interval_kind {
    const char *form; /* as the fleet file spells it */
    int by_length;    /* @span is a length of time, which the rule's kind of
                         end, ages and spells off the road act on */
    int never_due;    /* the work is only recorded when it happens */
    enum meter meter;
    /* The first deadline on or after a day, where the calendar names them and
     * nothing is said of what the interval runs from; else NULL. */
    day_t (*date_from)(const struct interval *every, day_t d);
    int needs_history; /* where it runs from a deadline, every completion
                          matters, not only the last */
    int looks_back;    /* next() looks at completions before @i too */
    /* Take the words of one interval from the scan: 0, -1 when they are not of
     * this kind, or KIND_NO_MEMORY. */
    int (*parse)(struct scan *s, struct arena *a, struct interval *out);
    /* Append it as it was understood, in words that parse() takes. */
    void (*print)(const struct interval *every, struct buf *out);
    /* The deadline that a series like this one would have before @deadline,
     * one interval earlier; NULL where a meter decides. */
    day_t (*before)(const struct calc_context *r, const struct interval *every,
        day_t deadline);
    /* The deadline with nothing done yet. */
    void (*first)(const struct calc_context *r, const struct interval *every,
        struct limit *l);
    /* The deadline after the completion at @i, given the one before it. */
    void (*next)(const struct calc_context *r, const struct interval *every,
        size_t i, struct limit *l);
};

#endif
