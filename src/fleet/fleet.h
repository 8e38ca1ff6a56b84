#ifndef FLEET_H
#define FLEET_H

#include "rule.h"
#include "server.h"
#include "work_calendar.h"

#include <stddef.h>
#include <stdint.h>

/*
 * The fleet as its file describes it: plain data, made by the reader of the
 * file, then only read.  Texts and lists live as long as the fleet.  Lists
 * are in the order of the file unless stated otherwise.
 */

/* Who says that a job must be done: shown wherever its due is shown. */
enum job_class { CLASS_LAW, CLASS_RECOMMENDATION, CLASS_MAKER, CLASS_OWN };

enum subject_kind { SUBJECT_VEHICLE, SUBJECT_EQUIPMENT, SUBJECT_DRIVER };

/* Where work is done: what a calendar says beside its days.  A limit of 0 is
 * none. */
struct workplace {
    const char *id;
    const char *title;
    const struct work_calendar *calendar;
    int64_t vehicles; /* that it takes a day */
    int64_t minutes;  /* of work a day */
};

struct depot {
    const char *id;
    const char *title;
    const char *time_zone;                /* an IANA name */
    const struct work_calendar *calendar; /* never NULL */
    const struct workplace *at;           /* the place of that calendar */
};

/* A job that also counts towards another's minimum, so many times. */
struct also_counts {
    const struct job *job; /* NULL for none */
    int most;
};

/* What somebody hears, or the vehicle does, when a job was not passed; and when
 * its deadline is past. */
enum job_failure { FAILURE_USUAL, FAILURE_STOPS, FAILURE_TELLS };
enum job_overdue { OVERDUE_USUAL, OVERDUE_STOPS, OVERDUE_WARNS };

struct job {
    const char *id;
    const char *title;
    enum job_class class;
    const char *authority; /* may be NULL, as the next two */
    const char *source;
    const char *caution;
    size_t index;     /* in fleet.jobs */
    int title_shared; /* another job has the same title */
    struct rule rule;
    const struct job **covers; /* as named, not yet transitive */
    size_t n_covers;
    const struct job **follows; /* a record of one of these makes this due */
    size_t n_follows;
    struct also_counts also_counts;
    int inspection; /* a defect is put off until the next of these at most */
    /* Never the usual one once the file is read: where the class is law, the
     * vehicle stops. */
    enum job_failure failure;
    enum job_overdue overdue;
};

/* What must be on record before a new, hired-in or returned vehicle counts as
 * fit. */
enum first_use { FIRST_USE_NOTHING, FIRST_USE_CHECK, FIRST_USE_INSPECTION };

/* What subjects of one type share; sheet.h says what items ask for it. */
struct subject_type {
    const char *id;
    const char *title; /* may be NULL */
    size_t index;      /* in fleet.types */
};

struct check_sheet;

struct subject {
    const char *id;
    const char *title; /* may be NULL */
    enum subject_kind kind;
    size_t index;                      /* in fleet.subjects */
    const struct subject_type *type;   /* or NULL */
    const struct check_sheet **sheets; /* of its type, then its own */
    size_t n_sheets;
    enum first_use first_use;
    day_t registered;
    day_t built;
    day_t in_service;
    const struct depot *depot;           /* NULL: a carrier's, or none */
    const struct subject *carrier;       /* NULL when not carried */
    const struct subject *first_carrier; /* before any record moved it */
    enum distance_unit unit;             /* of the odometer */
    day_t unit_since;        /* before which it counted the other unit, or
                                DAY_NONE */
    int64_t yearly_distance; /* stated, 0 for unknown */
    int64_t yearly_hours;
    size_t first_task; /* in fleet.tasks */
    size_t n_tasks;
};

/* What the fleet file says was so before the ledger began. */
struct baseline {
    day_t last;                   /* last completed, or DAY_NONE */
    day_t deadline;               /* as a certificate states it, or DAY_NONE */
    int64_t last_reading[METERS]; /* at that completion, each -1 when it is
                                     not stated.  That of METER_NONE is one
                                     whose meter is not said, -1 once the file
                                     has been read */
    enum distance_unit unit;      /* of the one of METER_DISTANCE: its
                                     subject's, likewise */
};

/* One job of one subject, with the rule that holds for the two. */
struct task {
    const struct subject *subject;
    const struct job *job;
    const struct rule *rule;
    const struct work_calendar
        *calendar; /* depot and place of the work together */
    struct baseline baseline;
};

enum scope_kind {
    SCOPE_ALL,
    SCOPE_DEPOT,
    SCOPE_SUBJECT,
    SCOPE_JOB,
    SCOPE_PERSON
};

/* Some of the dues: all, those of one depot, subject or job, or what a person
 * is told of. */
struct scope {
    enum scope_kind kind;
    const void *which; /* the depot, subject, job or person; NULL for all */
};

/* What a person may do about defects of the vehicles that they are told of.
 * Anybody may report one. */
enum person_may { MAY_ASSESS = 1, MAY_REPAIR = 2, MAY_RELEASE = 4 };

/* What a person hears of on any day, written to on it or not. */
enum urgent { URGENT_NEVER, URGENT_LAW_OVERDUE };

struct person {
    const char *id;
    const char *name; /* may be NULL */
    const char *mail; /* may be NULL for one who is told nothing */
    const struct scope *told;
    size_t n_told;
    unsigned may;     /* bits of enum person_may, see people.h */
    struct span from; /* the earliest stage to hear of, before the
                         deadline, or after it */
    int from_overdue; /* that span counts from the deadline on */
    weekdays_t days;  /* on which to be written to */
    const struct work_calendar
        *calendar; /* and only when it is open, or NULL */
    enum urgent urgent;
    weekdays_t outlook; /* on which to hear of all that is coming */
};

enum feed_form { FEED_EVENTS, FEED_TODOS };

struct feed {
    const char *id;
    const char *title;
    const struct scope *shows;
    size_t n_shows;
    enum feed_form form;
    struct span horizon;
    struct span history;    /* how far back what is done stays; 0 for not */
    struct span alarm;      /* so long before the day; n is -1 for none */
    int64_t most_events;    /* what it holds at most */
    int64_t most_kilobytes; /* of 1000 bytes */
    const char *key_file;   /* a path: of the secret to subscribe by, or NULL */
};

/* Of these vehicles only so many may be away for work on one day. */
struct away_limit {
    const char *id;
    const char *title;
    const struct subject **of;
    size_t n_of;
    int64_t away;
    const struct workplace *on; /* on days it is open; NULL for all */
};

/* How mail leaves: by which transport, with which argument; and when that is a
 * server, how to speak to it. */
struct mail_settings {
    const char *from; /* an address, or NULL when mail is not set up */
    const char *reply_to;
    const char *keeper; /* the address to hear of trouble, or NULL */
    const char *transport;
    const char *argument;
    enum server_tls tls;
    const char *login;         /* or NULL */
    const char *password_file; /* a path: of the password of that login */
    const char *ca_file;       /* a path, or NULL */
    const char *ehlo;          /* what we call ourselves */
    int64_t timeout;           /* seconds that one message may take */
};

/* How the daemon serves, and when it writes to people. */
struct server_settings {
    const char *listen;         /* an address with its port, or unix:/PATH */
    const char *const *proxies; /* those trusted, then NULL; NULL for none */
    int64_t remind_at;          /* minutes after the site's midnight */
};

struct site {
    const char *name;
    const char *time_zone;
    const char *ledger;      /* a path */
    const char *feed_folder; /* a path, or NULL */
    const char *page_url;    /* where the page of the dues is, or NULL */
    struct span calm; /* how far a forecast moves before calendars and mail
                         show it; n is 0 for at once */
    int planner;      /* nonzero when plan days are those of the plan */
    struct span plan_ahead;    /* how far it reaches */
    struct span defer_at_most; /* how long a defect may be put off */
    struct mail_settings mail;
    struct server_settings server;
};

struct fleet {
    struct site site;
    const struct depot *depots;
    size_t n_depots;
    const struct job *jobs;
    size_t n_jobs;
    const struct subject *subjects;
    size_t n_subjects;
    const struct task *tasks; /* by subject, then as the subject lists them */
    size_t n_tasks;
    const struct person *persons;
    size_t n_persons;
    const struct feed *feeds;
    size_t n_feeds;
    const struct workplace *workplaces;
    size_t n_workplaces;
    const struct away_limit *limits;
    size_t n_limits;
    const struct subject_type *types;
    size_t n_types;
    const struct check_sheet *sheets;
    size_t n_sheets;
};

/* The depot of @s: its own, or its carrier's; NULL when neither has one. */
const struct depot *fleet_depot(const struct subject *s);

/* Where the work of @t is done; NULL when nothing says so. */
const struct workplace *fleet_workplace(const struct task *t);

/* The place with that id, letters in either case, or NULL. */
const struct workplace *fleet_workplace_named(
    const struct fleet *f, const char *id);

/* The subject with that id, letters in either case, or NULL. */
const struct subject *fleet_subject(const struct fleet *f, const char *id);

/* The job with that id, letters in either case, or NULL. */
const struct job *fleet_job(const struct fleet *f, const char *id);

/* The task of @s and @j, or NULL when @s does not have that job. */
const struct task *fleet_task(
    const struct fleet *f, const struct subject *s, const struct job *j);

/* The words by which the fleet file names classes and kinds of subject. */
const char *fleet_class_word(enum job_class class);
const char *fleet_kind_word(enum subject_kind kind);
const char *fleet_unit_word(enum distance_unit unit);

/* The unit that is not that one. */
enum distance_unit fleet_other_unit(enum distance_unit unit);

/* A distance of 0 or more in another unit, without its fraction; and with the
 * fraction for a whole one.  A mile is 1.609344 km exactly (international yard,
 * 1959). */
int64_t fleet_in_unit(
    int64_t n, enum distance_unit from, enum distance_unit to);
int64_t fleet_in_unit_at_most(
    int64_t n, enum distance_unit from, enum distance_unit to);

/* What a meter of @s counts: "km", "miles" or "hours". */
const char *fleet_meter_word(const struct subject *s, enum meter meter);

#endif
