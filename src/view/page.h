#ifndef PAGE_H
#define PAGE_H

#include "select.h"

struct buf;

/*
 * The workshop page: what cannot be driven, what is overdue, the work of this
 * week and the next, and the coming year as a picture.  One page of HTML with
 * its style and drawings in it; for a wall, a phone and paper.  It needs no
 * script; the one it has keeps a wall up to date.
 */

#define PAGE_TOKEN 65 /* room for the token of a form and a NUL */
#define PAGE_WEEKS 53 /* of the picture, this one included */

/* Whoever may record from the page. */
struct page_desk {
    const char *person; /* who they are, for people */
    int64_t made;       /* when the forms were, seconds since 1970 */
    /* Write the token of the form for @d: hexadecimal digits. */
    void (*token)(const struct page_desk *desk, const struct due *d,
        char out[PAGE_TOKEN]);
};

struct page {
    const struct selection *dues; /* projected up to page_until() */
    const struct facts *facts;    /* for the spells off the road */
    const char *part;             /* of the site, as a depot, or NULL */
    const char *drawn;            /* when it was made, for people */
    const char *notice; /* what is wrong with the pass itself, or NULL */
    const struct page_desk *desk; /* NULL on a page that is only read */
};

/* The last day that the page made on @today shows. */
day_t page_until(day_t today);

/* Append the page.  Returns 0, or -1 when memory is out, as the others. */
int page_html(const struct page *p, struct buf *out);

/* Append such a page of @len bytes at @html with another notice at its top:
 * what the page itself could not know when it was made. */
int page_add_notice(
    const char *html, size_t len, const char *notice, struct buf *out);

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

/* What became of a form. */
struct page_answer {
    const char *site;
    const char *heading; /* "Recorded" */
    const char *text;    /* a sentence */
    const char *back;    /* a path or URL to return by, or NULL for none */
    /* After a refusal, the form again: */
    const struct page_desk *desk; /* or NULL for no form */
    const struct due *due;
    day_t today;
    const struct page_fields *fields; /* as they were filled in */
    int ask_sure;                     /* to insist is of use */
};

/* Append a page that says so; without a due it also serves to say that there
 * is no such page. */
int page_answer_html(const struct page_answer *a, struct buf *out);

/* What the page may do, as the value of Content-Security-Policy; the hash is
 * that of its script. */
#define PAGE_POLICY                                                            \
    "default-src 'none'; style-src 'unsafe-inline'; connect-src 'self'; "      \
    "script-src 'sha256-3Zqcjz3iiUPyut5AfhdAxEGVETa91/mi3uqi2+ZT5xw='; "       \
    "form-action 'self'; frame-ancestors 'none'; base-uri 'none'"

#endif
