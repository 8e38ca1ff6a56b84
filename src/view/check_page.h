#ifndef CHECK_PAGE_H
#define CHECK_PAGE_H

#include "condition.h"

struct buf;

/*
 * The driver's page, for a phone: whether the vehicle may be driven, what is
 * wrong with it, and its walk-round check, one form for each place where one
 * stands.  Without a script, and small.
 */

/* Something to look at: an item of the sheet, or a watched defect. */
struct check_line {
    const char *code;              /* "T1", "F1/EX-31"; of a defect "#12" */
    const struct check_item *item; /* NULL for a watched defect */
    const struct subject *about;   /* equipment where the item asks for it */
    const struct defect *watched;  /* NULL for an item */
    int answered;                  /* in the draft */
    const char *text;              /* what is wrong with it; NULL: nothing */
    const char *grade;             /* or NULL for that of the item */
};

/* The lines that are looked at from one place. */
struct check_part {
    const char *title;
    struct check_line *lines;
    size_t n;
};

/* The fields of its forms. */
#define CHECK_STEP "step"       /* show, begin, part or send */
#define CHECK_VEHICLE "vehicle" /* by a driver's key */
#define CHECK_SHEET "sheet"
#define CHECK_WHO "initials"
#define CHECK_READING "reading"
#define CHECK_OPENED "opened" /* which names the draft, with those above */
#define CHECK_PART "part"     /* its number */
#define CHECK_ALL "all"       /* its answer: right or wrong */
#define CHECK_SURE "sure"

struct check_page {
    const char *site;
    day_t today;
    const char *drawn; /* when it was made, for people */
    const struct conditions *conditions;
    const struct defects *defects;
    const char *driver;    /* who has the key; NULL: it is a vehicle's */
    const char *driver_id; /* likewise */
    const struct subject *vehicle; /* NULL: the list to choose from */
    /* A check under way, or NULL: */
    const struct check_sheet *sheet;
    const char *who;
    int64_t opened;
    const char *reading;
    const struct check_part *parts;
    size_t n_parts;
    /* What became of the form that was sent, if one was: */
    const char *heading; /* or NULL */
    const char *text;
    int refused;
    int ask_sure; /* to insist is of use */
    /* After a refusal, what was typed into the field of that name, or NULL. */
    const char *(*typed)(const void *from, const char *name);
    const void *from;
};

/* The names of the two fields of a line. */
#define CHECK_FIELD 96
const char *check_text_field(
    const struct check_line *line, char out[CHECK_FIELD]);
const char *check_grade_field(
    const struct check_line *line, char out[CHECK_FIELD]);

/* Nonzero when all lines of a part are answered. */
int check_part_done(const struct check_part *part);

/* Append the page: 0, or -1 when memory is out. */
int check_page_html(const struct check_page *p, struct buf *out);

/* What it may do, as the value of Content-Security-Policy. */
extern const char check_page_policy[];

#endif
