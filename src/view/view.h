#ifndef VIEW_H
#define VIEW_H

#include "select.h"

struct buf;
struct conditions;
struct defects;

/* What a view shows: dues, and unless they are NULL the conditions of the
 * vehicles that the filter asks for, with the defects behind them. */
struct shown {
    const struct selection *dues;
    const struct filter *filter;
    const struct conditions *conditions;
    const struct defects *defects;
};

/*
 * A way to show dues.  To add one, write its file and give it a row in the
 * table in view.c.  Calendar feeds stand beside this, in ical.h, because they
 * carry state from one time to the next, and so do letters, in reminder_mail.h,
 * which say more than dues.
 */
struct view {
    const char *name;
    int reasons;    /* nonzero when it shows those of the dues */
    int conditions; /* nonzero when it shows those of the vehicles */
    /* Append @shown to @out: 0, or -1 when memory is out. */
    int (*render)(const struct shown *shown, struct buf *out);
};

extern const struct view view_list;
extern const struct view view_why;
extern const struct view view_json;
extern const struct view view_csv;

/* The view of that name, or NULL. */
const struct view *view_find(const char *name);

#endif
