#ifndef WORKSHOP_H
#define WORKSHOP_H

#include "page.h"
#include "run_context.h"
#include "snapshot.h"

/* The workshop page of a run. */
struct workshop {
    const struct scope *scopes; /* what it shows: any of these; none for all */
    size_t n_scopes;
    const char *part;   /* how that is called, or NULL */
    const char *notice; /* see page.h, as the next */
    const struct page_recorder *recorder;
};

/*
 * Append the page to @out; @s is of @p, and goes up to page_until() of its day
 * or further.
 * Returns 0, or -1 with @f set when memory is out.
 */
int workshop_page(const struct run_context *p, const struct snapshot *s,
    const struct workshop *w, struct buf *out, struct fault *f);

#endif
