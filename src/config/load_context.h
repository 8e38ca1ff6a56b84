#ifndef LOAD_CONTEXT_H
#define LOAD_CONTEXT_H

#include "config_options.h"
#include "document.h"
#include "fleet.h"
#include "sheet.h"

/*
 * What is at hand while the sections are given meaning, and the ways in which
 * every reader of a value says that it is wrong.
 */

struct holidays {
    struct holiday_set set;
    struct named_day *added; /* what set.added points to */
    size_t size_added;
    const char *file;      /* the path of the one that was read, or NULL */
    size_t n_published;    /* of the days added, those from it */
    day_t published_until; /* the end of the last year that a file tells of */
};

struct calendar {
    const char *title;
    struct work_calendar_plan plan;
    int64_t vehicles;
    int64_t minutes;
    struct work_calendar *made; /* NULL when it was refused */
    struct workplace *workplace;
};

/* One of the things a subject or type has jobs for. */
struct use {
    const struct job *job;
    const struct section *from; /* whose 'jobs' names it */
    const struct rule *rule;
    struct rule *own; /* the same, where this section has its own */
    struct baseline baseline;
    int own_first_ends; /* first-ends is stated, and does not follow ends */
    int own_first_kept; /* first-kept likewise */
};

/* A subject, or what the subjects of one type share. */
struct subject_def {
    struct subject subject;
    const struct section *section;
    const struct subject_def *type;
    struct use *uses;
    size_t n_uses;
    int64_t yearly; /* distance, in a unit of its own */
    enum distance_unit yearly_unit;
    int moved; /* by a record: the file's carrier is not that of today */
};

/* A check sheet; its items while they can be written. */
struct sheet_def {
    struct check_sheet sheet;
    struct check_item *items; /* what sheet.items points to */
};

/* Calendars are made once and freed with the fleet. */
struct made_calendar {
    struct work_calendar *calendar;
    const struct work_calendar *a; /* of two that it joins, else NULL */
    const struct work_calendar *b;
    struct made_calendar *next;
};

struct load_context {
    struct arena *arena;
    struct document *document;
    struct problems *problems;
    const struct config_options *options;
    struct fleet *fleet;
    struct depot *depots; /* the fleet's, while they can be written */
    struct job *jobs;
    struct subject *subjects;
    struct person *persons;
    struct feed *feeds;
    struct workplace *workplaces;
    struct away_limit *limits;
    struct task *tasks;
    struct subject_type *types;
    struct check_sheet *sheets;
    struct subject_def *defs; /* one for each subject */
    struct made_calendar *calendars;
};

/* Add an error at @place. */
void context_error(struct load_context *r, struct place place,
    const char *format, ...) __attribute__((format(printf, 3, 4)));

/* Add a warning at @place. */
void context_warning(struct load_context *r, struct place place,
    const char *format, ...) __attribute__((format(printf, 3, 4)));

/* Add an error about the value of @e at @place, which begins with the key, and
 * mark the entry refused; returns -1. */
int context_refuse(struct load_context *r, struct entry *e, struct place place,
    const char *format, ...) __attribute__((format(printf, 4, 5)));

/* Nonzero when some calendar keeps these holidays. */
int context_is_kept(const struct load_context *r, const struct holidays *h);

/* Add a day to a set; @name must live as long as the fleet. */
void context_add_holiday(
    struct load_context *r, struct holidays *h, day_t day, const char *name);

/* Zeroed memory that lives as long as the fleet, or NULL: noted as an error. */
void *context_take(struct load_context *r, size_t size);

/* The lines of a value as one text, joined by blanks, or NULL. */
const char *context_text(struct load_context *r, struct entry *e);

/* The @len bytes at @text as a text that lives as long, or NULL. */
char *context_copy(struct load_context *r, const char *text, size_t len);

/* Keep @c with the fleet, as what joins @a and @b (NULL for none); on failure
 * it is freed.  Returns it, or NULL. */
struct work_calendar *context_keep(struct load_context *r,
    struct work_calendar *c, const struct work_calendar *a,
    const struct work_calendar *b);

/* The section that a value names, or NULL: refused with the nearest id. */
struct section *context_find(struct load_context *r, struct entry *e,
    struct place place, enum section_kind kind, const char *id);

#endif
