#ifndef PAGE_SECTIONS_H
#define PAGE_SECTIONS_H

#include "page_input.h"

struct buf;

/* The two halves of the workshop page.  Each returns 0, or -1 when memory is
 * out. */

/* page_board.c: the lists to work by.  What is not to be driven, what else
 * failed or is overdue, what is not known, and the work of two weeks. */
int page_board(const struct page *p, struct buf *out);

/* Nonzero when something stands under "Failed", "Not for use" or "Not known",
 * parts that are otherwise left out. */
int page_has_failed(const struct page *p);
int page_has_hold(const struct page *p);
int page_has_unknown(const struct page *p);

/* page_year.c: the coming year as a picture, and as a list. */
int page_year(const struct page *p, struct buf *out);

#endif
