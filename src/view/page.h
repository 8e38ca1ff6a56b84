#ifndef PAGE_H
#define PAGE_H

#include "page_input.h"

struct buf;

/*
 * The workshop page: what cannot be driven, what is overdue, the work of this
 * week and the next, and the coming year as a picture.  One page of HTML with
 * its style and drawings in it; for a wall, a phone and paper.  It needs no
 * script; the one it has keeps a wall up to date.
 */

/* Append the page.  Returns 0, or -1 when memory is out, as the others. */
int page_html(const struct page *p, struct buf *out);

/* Where a page takes in that it is no longer up to date. */
#define PAGE_STALE                                                             \
    "<p id=\"stale\" class=\"notice\" role=\"status\" hidden></p>\n"

/* Append such a page of @len bytes at @html with another notice at its top:
 * what the page itself could not know when it was made. */
int page_add_notice(
    const char *html, size_t len, const char *notice, struct buf *out);

/* What became of a form. */
struct page_answer {
    const char *site;
    const char *heading; /* "Recorded" */
    const char *text;    /* a sentence */
    const char *back;    /* a path or URL to return by, or NULL for none */
    /* After a refusal, the form again: */
    const struct page_recorder *recorder; /* or NULL for no form */
    const struct due *due;
    day_t today;
    const struct page_fields *fields; /* as they were filled in */
    int ask_sure;                     /* to insist is of use */
};

/* Append a page that says so; without a due it also serves to say that there
 * is no such page. */
int page_answer_html(const struct page_answer *a, struct buf *out);

/* What the page may do, as the value of Content-Security-Policy. */
extern const char page_policy[];

#endif
