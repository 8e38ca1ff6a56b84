#ifndef POSTER_PARTS_H
#define POSTER_PARTS_H

#include "fleet_plan.h"
#include "visits.h"

#include <pango/pangocairo.h>

struct buf;

/*
 * Inside the poster only.  Lengths are points, 72 to the inch.
 */
#define POSTER_WIDTH 1190.55 /* A3 on its side: 420 by 297 mm */
#define POSTER_HEIGHT 841.89
#define POSTER_MARGIN 28.0
#define POSTER_NAMES 88.0 /* the column of the vehicles */
#define POSTER_HEAD 62.0  /* the title, the months and the weeks */
#define POSTER_CODE 8

#define POSTER_FAILED "\xc3\x97 " /* before the code of what failed */

/* What a box says, as two texts one above the other. */
struct box {
    char day[16];
    const char *weekday;
    char codes[1000];
    int lines; /* of codes */
};

struct poster {
    const struct fleet_plan *plan;
    const struct plan_problem *problem;
    struct visits visits;
    day_t first; /* the Monday of the first week */
    int weeks;
    char (*codes)[POSTER_CODE]; /* of each job of the fleet, "" when unused */
    size_t n_codes;             /* that are used */
    size_t *rows;               /* the units shown, as the fleet has them */
    double *heights;            /* of each row */
    size_t n_rows;
    size_t *starts; /* the first row of each sheet, and one past the last */
    size_t n_sheets;
    struct buf *undated; /* what has no day, as one text */
    PangoContext *context;
    PangoLayout *layout;
};

/* poster_code.c: a short code of letters for each job that has a booking. */
int poster_make_codes(struct poster *p);

/* poster_text.c: how wide @text is, and how to draw it with its top left corner
 * at a place; @most is 0, or the width at which it is cut short with "...". */
double poster_text_width(struct poster *p, const char *text, double size);
void poster_text(struct poster *p, cairo_t *cr, double x, double y,
    const char *text, double size, int bold, double most);

/* The same over several lines of at most @width, and returns how high that is;
 * without @cr it is only measured.  An empty text has no height. */
double poster_paragraph(struct poster *p, cairo_t *cr, double x, double y,
    const char *text, double size, double width);

/* poster_box.c: how wide a week is; how high the box of one visit is; drawing
 * it with the top left corner at a place. */
double poster_week_width(const struct poster *p);
double poster_box_height(struct poster *p, const struct visit *v);
void poster_box_draw(
    struct poster *p, cairo_t *cr, const struct visit *v, double x, double y);

/* How the box of a place is drawn, the legend's sample of it, and whether the
 * place has any visit. */
void poster_place_outline(struct poster *p, cairo_t *cr, size_t place, double x,
    double y, double width, double height);

/* poster_sheet.c: the height of what stands under the rows; a sheet. */
double poster_foot_height(struct poster *p);
void poster_draw(struct poster *p, cairo_t *cr, size_t sheet);

#endif
