#ifndef FLEET_H
#define FLEET_H

#include "rule.h"
#include "workcal.h"

#include <stddef.h>

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
    const struct workcal *calendar;
    int64_t vehicles; /* that it takes a day */
    int64_t minutes;  /* of work a day */
};

struct depot {
    const char *id;
    const char *title;
    const char *time_zone;          /* an IANA name */
    const struct workcal *calendar; /* never NULL */
    const struct workplace *at;     /* the place of that calendar */
};

/* A job that also counts towards another's minimum, so many times. */
struct also_counts {
    const struct job *job; /* NULL for none */
    int most;
};

struct job {
    const char *id;
    const char *title;
    enum job_class class;
    const char *authority; /* may be NULL, as the next two */
    const char *source;
    const char *caution;
    size_t index; /* in fleet.jobs */
    struct rule rule;
    const struct job **covers; /* as named, not yet transitive */
    size_t n_covers;
    const struct job **follows; /* a record of one of these makes this due */
    size_t n_follows;
    struct also_counts also_counts;
};

struct subject {
    const char *id;
    const char *title; /* may be NULL */
    enum subject_kind kind;
    size_t index; /* in fleet.subjects */
    day_t registered;
    day_t built;
    day_t in_service;
    const struct depot *depot;           /* NULL: a carrier's, or none */
    const struct subject *carrier;       /* NULL when not carried */
    const struct subject *first_carrier; /* before any record moved it */
    enum distance_unit unit;
    int64_t yearly_distance; /* stated, 0 for unknown */
    int64_t yearly_hours;
    size_t first_task; /* in fleet.tasks */
    size_t n_tasks;
};

/* What the fleet file says was so before the ledger began. */
struct baseline {
    day_t last;           /* last completed, or DAY_NONE */
    day_t deadline;       /* as a certificate states it, or DAY_NONE */
    int64_t last_reading; /* at that completion, or -1 */
};

/* One job of one subject, with the rule that holds for the two. */
struct task {
    const struct subject *subject;
    const struct job *job;
    const struct rule *rule;
    const struct workcal *calendar; /* depot and place of the work together */
    struct baseline baseline;
};

enum scope_kind { SCOPE_ALL, SCOPE_DEPOT, SCOPE_SUBJECT, SCOPE_JOB };

/* Some of the dues: all, or those of one depot, subject or job. */
struct scope {
    enum scope_kind kind;
    const void *which; /* the depot, subject or job; NULL for all */
};

struct person {
    const char *id;
    const char *name; /* may be NULL */
    const char *mail;
    const struct scope *told;
    size_t n_told;
    struct span from; /* the earliest stage to hear of, before the
                         deadline, or after it */
    int from_overdue; /* that span counts from the deadline on */
    weekdays_t days;  /* on which to be written to */
};

struct feed {
    const char *id;
    const char *title;
    const struct scope *shows;
    size_t n_shows;
    struct span horizon;
    const char *key_file; /* a path: of the secret to subscribe by, or NULL */
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

/* How mail leaves: by which transport, with which argument. */
struct mail_settings {
    const char *from; /* an address, or NULL when mail is not set up */
    const char *reply_to;
    const char *transport;
    const char *argument;
};

struct site {
    const char *name;
    const char *time_zone;
    const char *ledger;      /* a path */
    const char *feed_folder; /* a path, or NULL */
    int planner;             /* nonzero when plan days are those of the plan */
    struct span plan_ahead;  /* how far it reaches */
    struct mail_settings mail;
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

#endif
