#ifndef RULE_H
#define RULE_H

#include "interval.h"

struct work_calendar;
struct workplace;

#define RULE_INTERVALS 4
#define RULE_AGES 4
#define RULE_STAGES 12

/* Where an interval that began on an anchor day ends. */
enum ends {
    ENDS_SAME_DAY,   /* on the corresponding date */
    ENDS_DAY_BEFORE, /* with the period that begins on the anchor */
    ENDS_MONTH_END,  /* with the month of the corresponding date */
    ENDS_WEEK_END    /* with the ISO week of the corresponding day */
};

/* What an interval runs from.  A yearly date or an RRULE needs none. */
enum runs_from {
    FROM_COMPLETION, /* the day it was last completed */
    FROM_DEADLINE,   /* the last deadline, whenever it was done */
    KEEPS_DATE       /* the last deadline, when completed in its window */
};

/* When the window before a deadline, in which a completion counts for it,
 * opens (check the certificate's rule: readings differ at the ends of short
 * months). */
enum window_opens {
    WINDOW_SAFER,     /* the latest of all readings */
    WINDOW_DAY_AFTER, /* the day after the deadline less the window */
    WINDOW_SAME_DAY   /* the first day from which the window reaches the
                         deadline: "so long or less before" */
};

/* Where a job that keeps its date runs from when it was done too late. */
enum when_late { LATE_RESTARTS, LATE_KEEPS_DATE };

/* The day from which a subject's age or a first deadline is counted. */
enum origin {
    ORIGIN_NONE,
    ORIGIN_REGISTERED,
    ORIGIN_BUILT,
    ORIGIN_IN_SERVICE,
    ORIGIN_EARLIEST, /* the earliest of those that are known */
    ORIGIN_ON        /* a stated day */
};

/* The first deadline, when nothing was ever done. */
struct first {
    enum origin origin;
    struct span after;
    day_t on; /* ORIGIN_ON: the deadline itself */
};

/* From an age on, a shorter interval holds. */
struct age_step {
    struct span age;
    struct span every;
};

enum off_road { OFF_ROAD_RUNS_ON, OFF_ROAD_WAITS };

/* Where a deadline on a closed day goes.  Only preceding leaves it alone. */
enum roll { ROLL_PRECEDING, ROLL_FOLLOWING, ROLL_NEAREST };

/* The day of a forecast that counts as the deadline. */
enum forecast_day { FORECAST_EARLY, FORECAST_LIKELY, FORECAST_LATE };

/* How long before the plan day the work must be arranged. */
struct lead {
    struct span span;
    int working; /* the span is in days, and only working days count */
};

/* Whether a vehicle is out of use while the work is done. */
enum vehicle_stays { VEHICLE_AWAY, VEHICLE_STAYS };

/* When to say that a job is coming. */
struct reminders {
    struct span before[RULE_STAGES]; /* the deadline, the longest first */
    int n_before;
    struct span overdue_every; /* n is 0 for never again */
};

/*
 * Everything about a job that one subject may have otherwise than another:
 * the job's own values, or a subject's copy with its overrides.
 */
struct rule {
    struct interval every[RULE_INTERVALS]; /* whichever comes first */
    int n_every;
    struct interval at_most[RULE_INTERVALS]; /* the most that is allowed, for
                                                doubts; no date comes of it */
    int n_at_most;
    enum ends ends;
    enum ends first_ends;
    enum month_end month_end;
    enum runs_from runs_from;
    struct span window; /* n is 0 for none */
    enum window_opens window_opens;
    enum when_late late;
    struct span shortest; /* the least that a kept date must leave */
    struct first first;
    int first_kept; /* nonzero when the first deadline is a date to keep, as
                       that of a certificate is */
    struct age_step ages[RULE_AGES]; /* the youngest first */
    int n_ages;
    enum origin age_from;
    enum off_road off_road;
    const struct work_calendar
        *calendar;              /* of the place of the work, or NULL */
    const char *place;          /* that calendar's name, or NULL */
    const struct workplace *at; /* that place, or NULL for the depot's */
    int64_t takes;              /* minutes of work; 0 for unknown */
    struct span early; /* how long before the deadline it may be planned; n is
                          0 for what its interval allows */
    enum vehicle_stays stays;
    enum roll roll;
    enum forecast_day forecast;
    struct span reading_within; /* how old the newest reading may be; n is 0
                                   for any age */
    struct lead lead;
    struct reminders remind;
};

#endif
