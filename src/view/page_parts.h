#ifndef PAGE_PARTS_H
#define PAGE_PARTS_H

#include "page_input.h"

struct buf;

/*
 * Inside the views only: what the parts of the workshop page share.  All of
 * them append HTML; the page is cleaned as a whole.
 */

/* Append what the marks of a page are drawn by. */
void page_shapes(struct buf *out);

/* How a mark stands: its letter, and whether it is filled. */
enum page_look {
    LOOK_NEXT,    /* the next time: filled, with the letter of the class */
    LOOK_LATER,   /* the times after it: an outline */
    LOOK_FAILED,  /* X */
    LOOK_OVERDUE, /* ! */
    LOOK_UNKNOWN, /* ? no record, or a reading is missing */
    LOOK_PARKED   /* P: before it returns to the road */
};

enum page_look page_look(const struct due *d);

/* Append the mark of a class; @title, which may be NULL, says it in words. */
void page_mark(enum job_class class, enum page_look look, const char *title,
    struct buf *out);

/* The subject in whose row things stand: the one that carries @s, or @s. */
const struct subject *page_carrier(const struct subject *s);

/* Some dues, in an order of their own. */
struct page_list {
    const struct due **dues;
    size_t n;
};

typedef int page_wanted(const struct page *p, const struct due *d);

/* Those of the page that are @wanted, by day and then by the rows of the
 * picture, or by these first.  Free its dues with free(); -1 when memory is
 * out. */
int page_choose(const struct page *p, page_wanted *wanted, int rows_first,
    struct page_list *out);

/* The spell off the road in which @s, or what carries it, is on one of the days
 * from @from to @to; NULL when there is none. */
const struct record *page_spell(
    const struct page *p, const struct subject *s, day_t from, day_t to);

/* Append one due as an item of a list; @plate says to name its row as well.
 * Returns 0, or -1 when memory is out. */
int page_item(
    const struct page *p, const struct due *d, int plate, struct buf *out);

/* Append the id of @s as a plate. */
void page_plate(const struct subject *s, struct buf *out);

/* Append the condition of the vehicle @s, unless it is fit. */
void page_condition(
    const struct page *p, const struct subject *s, struct buf *out);

#endif
