#ifndef RECORD_FORM_H
#define RECORD_FORM_H

#include "key.h"
#include "page.h"
#include "run_context.h"

/*
 * Recording from the workshop page: where one person, by their own key, writes
 * down what was done.  A form carries a token that only we can have made, for
 * that person and that due; it is taken once.
 */

enum {
    FORM_SECRET = 32,     /* random bytes by which tokens are made */
    FORM_SECONDS = 172800 /* how long a form is good: two days */
};

struct recorder {
    struct page_recorder page; /* stays first; for workshop_page() */
    uint8_t secret[FORM_SECRET];
    uint8_t key[KEY_HASH];
};

/* The recorder of @person, whose name it borrows, with the key that hashes to
 * @key, as of @made: each version of the page has forms of its own. */
struct recorder recorder_of(const uint8_t secret[FORM_SECRET],
    const uint8_t key[KEY_HASH], const char *person, int64_t made);

/* Where the fields of a form that was sent come from. */
struct record_form {
    /* The value of a field, or NULL when it is not there. */
    const char *(*value)(const void *from, const char *name);
    const void *from;
    const char *back; /* a path by which to return to the page, or NULL */
};

enum form_outcome {
    FORM_FAILED = -1, /* the fault says why, and there is no page */
    FORM_REFUSED,     /* nothing was recorded */
    FORM_RECORDED,
    FORM_AGAIN /* this form was recorded before */
};

/*
 * Take a form: record what it says, by the recorder's person, in the ledger of
 * @p, which reads RUN_LATER and is open to write.  What is refused is what the
 * command line refuses, and also what was recorded by somebody else in the
 * meantime. Appends the page that says what became of it, after a refusal with
 * the form, to @out.
 */
enum form_outcome record_form_take(const struct recorder *d,
    struct run_context *p, const struct record_form *form, struct buf *out,
    struct fault *f);

#endif
