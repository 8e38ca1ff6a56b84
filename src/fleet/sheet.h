#ifndef SHEET_H
#define SHEET_H

#include "fleet.h"

/*
 * Check sheets: what somebody looks at who walks round a vehicle, in walking
 * order.  A vehicle has those of its type and its own.  Plain data like the
 * rest of the fleet.
 */

/* How grave a defect is.  The grades are those of Directive 2014/45/EU,
 * annex I: minor, major and dangerous, which the fleet file calls
 * "stops", for that is what it does. */
enum grade { GRADE_MINOR, GRADE_MAJOR, GRADE_STOPS };

/* How often a sheet is gone through. */
enum check_when { CHECK_EACH_DRIVER_EACH_DAY, CHECK_EACH_USE, CHECK_EACH_WEEK };

struct check_item {
    const char *code;  /* as the fleet file writes it; letters in either case
                          are the same code */
    const char *text;  /* what to look at */
    const char *right; /* what right looks like, or NULL */
    enum grade grade;  /* until somebody assessed a defect */
    const struct subject_type *carried; /* asked only where equipment of that
                                           type is carried; NULL: always */
    size_t group;                       /* in its sheet's groups */
};

/* The items that are looked at from one place; each group has its own
 * answer. */
struct check_group {
    const char *title; /* NULL for items before the first group */
    size_t first;      /* in the sheet's items */
    size_t n;          /* at least 1 */
};

struct check_sheet {
    const char *id;
    const char *title;
    enum job_class class;
    const char *authority; /* may be NULL, as the next */
    const char *source;
    enum check_when when;
    int nil_recorded; /* a check that found nothing is on record too */
    int end_reading;  /* the odometer is asked for at the end as well */
    size_t index;     /* in fleet.sheets */
    const struct check_group *groups; /* in walking order, as the items */
    size_t n_groups;
    const struct check_item *items; /* no two with the same code */
    size_t n_items;
};

/* The words by which the fleet file names them. */
const char *sheet_grade_word(enum grade grade);
const char *sheet_when_word(enum check_when when);

/* The grade with that word, letters in either case, or -1. */
int sheet_grade_find(const char *word);

/* The sheet with that id, letters in either case, or NULL. */
const struct check_sheet *sheet_named(const struct fleet *f, const char *id);

/* The item of a sheet of @s with that code, letters in either case, or NULL.
 * Whether it is asked now is another question: sheet_asks(). */
const struct check_item *sheet_item(const struct subject *s, const char *code);

/* The code of an item of @s that is closest to @code, or NULL. */
const char *sheet_item_nearest(const struct subject *s, const char *code);

/* The item on the sheets of @s that asks for equipment of @type, the first of
 * several, or NULL. */
const struct check_item *sheet_item_carried(
    const struct subject *s, const struct subject_type *type);

/*
 * What @s carries now, by the file and all records of moves, that @item is
 * about: the one that comes after @after in the fleet, or the first for NULL.
 * NULL for no more, and for an item of the vehicle itself.
 */
const struct subject *sheet_carried(const struct fleet *f,
    const struct subject *s, const struct check_item *item,
    const struct subject *after);

/* Whether a check of @s asks for @item now, which is an item of its sheets. */
int sheet_asks(const struct fleet *f, const struct subject *s,
    const struct check_item *item);

#endif
