#ifndef PAGE_FORM_H
#define PAGE_FORM_H

#include "page_input.h"

struct buf;

/* The form by which work is recorded. */

/* Append the form that records @d, filled in with @fields, or NULL for an empty
 * one; @ask_sure adds the box to insist. */
void page_form(const struct page_recorder *recorder, const struct due *d,
    day_t today, const struct page_fields *fields, int ask_sure,
    struct buf *out);

/* Append what opens to the empty form for @d, on a page with a recorder. */
void page_record(const struct page *p, const struct due *d, struct buf *out);

#endif
