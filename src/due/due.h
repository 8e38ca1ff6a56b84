#ifndef DUE_H
#define DUE_H

#include "record.h"
#include "usage.h"

/* How things stand with a due; the order is the order of urgency. */
enum due_state {
    DUE_FAILED,        /* it failed and has not been done since */
    DUE_NO_RECORD,     /* nothing known to run from */
    DUE_OVERDUE,       /* the deadline is past */
    DUE_NEEDS_READING, /* a meter decides and its reading is missing or old */
    DUE_BEFORE_RETURN, /* off the road: to be done before it returns */
    DUE_NOW,           /* plan day or deadline by the end of this ISO week */
    DUE_AHEAD
};

/* What a due warns of: bits. */
enum due_warning {
    WARN_PLAN_PASSED = 1 << 0,      /* not done on its plan day, not overdue */
    WARN_BOOK_NOW = 1 << 1,         /* the book-by day is here or past, the plan
                                       day is not */
    WARN_NO_WORKING_DAY = 1 << 2,   /* none between cycle start and deadline */
    WARN_HOLIDAYS_UNKNOWN = 1 << 3, /* a holiday set ends before the day */
    WARN_OLD_READING = 1 << 4,      /* the newest is older than tolerated, or
                                       there is none */
    WARN_STATED_USE = 1 << 5,       /* forecast from the stated use alone */
    WARN_OUT_OF_RANGE = 1 << 6,     /* a date past the last day we know */
    WARN_DONE_LATER = 1 << 7,       /* it was last done on a day to come */
    WARN_BEFORE_RETURN = 1 << 8,    /* overdue, and off the road today: to be
                                       done before it returns */
    WARN_BOOKED_LATE = 1 << 9,      /* booked for a day after the deadline */
    WARN_BOOKED_PASSED = 1 << 10    /* booked for a day that has passed */
};
#define WARN_LAST WARN_BOOKED_PASSED

/* What is wrong with the day that somebody booked. */
#define WARN_BOOKED (WARN_BOOKED_LATE | WARN_BOOKED_PASSED)

/* The steps by which a due comes to its dates. */
enum reason_step {
    REASON_START,    /* the record, baseline or first day it runs from */
    REASON_INTERVAL, /* the interval, and which rule set it */
    REASON_KEPT,     /* the date was kept, or lost, and why */
    REASON_AGE,      /* a shorter interval from an age on */
    REASON_FIRST,    /* which of several intervals comes first */
    REASON_FORECAST, /* from readings to a day */
    REASON_OFF_ROAD, /* a spell off the road moved it */
    REASON_ROLL,     /* a day on which nothing can be done */
    REASON_PLAN,     /* another day, which the plan of the fleet has for it */
    REASON_LEAD,     /* working back to the book-by day */
    REASON_NOTE      /* moves nothing */
};

/*
 * One step.  @before is the day the step found, @after the day it left, either
 * DAY_NONE; the chain of days runs from the start of the cycle to the plan
 * day, and REASON_LEAD goes on from there to the book-by day.
 */
struct reason {
    enum reason_step step;
    day_t before;
    day_t after;
    const char *text; /* one sentence without a full stop */
};

/*
 * Which cycle a due belongs to: the record it runs from, or 0 and the day it
 * runs from when that is in the fleet file, and how many cycles further on.
 */
struct cycle {
    int64_t record;
    day_t start; /* DAY_NONE with no record */
    int ahead;   /* 0 for the current cycle */
};

#define CYCLE_TEXT 40

/* A computed answer: one job of one subject in one cycle. */
struct due {
    const struct task *task;
    struct cycle cycle;
    enum due_state state;
    enum due_state besides; /* the state it would have had it not failed; any
                               other has its own here too */
    unsigned warnings;      /* of enum due_warning */
    int no_return; /* off the road and no return known: the deadline only stands
                      to be seen, and there is no plan day */
    day_t deadline;  /* DAY_NONE when none can be told */
    day_t plan_day;  /* the booked day, where there is one; never after the
                        deadline; DAY_NONE when none */
    day_t booked;    /* by somebody, be it after the deadline, or passed; or
                        DAY_NONE */
    int64_t booking; /* the number of that booking, or 0 */
    day_t book_by;   /* DAY_NONE without a plan day or a lead, or when booked */
    day_t back; /* WARN_BEFORE_RETURN: the last day off the road, or DAY_NONE
                   while the return is not known */
    day_t last_done;     /* DAY_NONE when never */
    enum meter meter;    /* that these two are of, or METER_NONE */
    int64_t due_reading; /* -1 when no meter is involved */
    struct forecast forecast;
    enum meter to_read;   /* the meter that needs a reading, or METER_NONE */
    day_t newest_reading; /* of that one, else of the one above; DAY_NONE
                             when there is none */
    const struct record *failed; /* the newest failure since it was last done,
                                    of the facts; NULL without one, and so but
                                    in the state DUE_FAILED */
    const struct reason *reasons;
    size_t n_reasons;
};

/*
 * The day that a plan has for the call of @t with that deadline, and why: a
 * clause that is good until the next question.  DAY_NONE when it has none.
 */
typedef day_t planned_day(
    void *with, const struct task *t, day_t deadline, const char **why);

/* The day by which a due is listed: the plan day, else the deadline. */
day_t due_day(const struct due *d);

/* The day of a forecast that a job goes by. */
day_t due_forecast_day(enum forecast_day which, const struct forecast *f);

/* The words of the JSON contract: "failed", "no-record", "overdue" and so on.
 */
const char *due_state_word(enum due_state state);
const char *due_warning_word(enum due_warning warning);
const char *due_step_word(enum reason_step step);

/*
 * What one warning bit of @d says on @today, a sentence without a full stop,
 * written into @out and returned.
 */
const char *due_warning_text(const struct due *d, enum due_warning warning,
    day_t today, char *out, size_t size);

/*
 * "booked for Fri 2027-01-08" and what is wrong with that day by those of the
 * bits @warnings: ", after the deadline", ", which has passed".  Written into
 * @out and returned.
 */
const char *due_booked_text(
    const struct due *d, unsigned warnings, char *out, size_t size);

/*
 * The name of a cycle, of letters, digits, "-" and "+": "r42" from record 42,
 * "d2026-03-14" from a day, "none", each with "+N" for the Nth after it.
 */
const char *due_cycle_text(const struct cycle *c, char out[CYCLE_TEXT]);

#endif
