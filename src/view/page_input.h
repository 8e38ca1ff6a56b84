#ifndef PAGE_INPUT_H
#define PAGE_INPUT_H

#include "select.h"

struct conditions;

/* What the workshop page and its forms are made from. */

#define PAGE_TOKEN 65 /* room for the token of a form and a NUL */
#define PAGE_WEEKS 53 /* of the picture, this one included */

/* The person who may record from the page. */
struct page_recorder {
    const char *person; /* the name to show */
    int64_t made;       /* when the forms were, seconds since 1970 */
    /* Write the token of the form for @d: hexadecimal digits. */
    void (*token)(const struct page_recorder *recorder, const struct due *d,
        char out[PAGE_TOKEN]);
};

struct page {
    const struct selection *dues;        /* projected up to page_until() */
    const struct filter *filter;         /* which vehicles it is about */
    const struct conditions *conditions; /* of the dues' snapshot */
    const struct facts *facts;           /* for the spells off the road */
    const char *part;                    /* of the site, as a depot, or NULL */
    const char *drawn;                   /* when it was made, for people */
    const char *notice; /* what is wrong with the pass itself, or NULL */
    const struct page_recorder *recorder; /* NULL on a page that is only read */
};

/* The last day that the page made on @today shows. */
day_t page_until(day_t today);

/* The fields of a form, by these names; and what was written into them, each
 * NULL when it is not there. */
#define PAGE_FIELDS                                                            \
    X(subject)                                                                 \
    X(job)                                                                     \
    X(cycle)                                                                   \
    X(made)                                                                    \
    X(token) X(result) X(on) X(reading) X(initials) X(reference) X(note) X(sure)
struct page_fields {
#define X(name) const char *name;
    PAGE_FIELDS
#undef X
};

#endif
