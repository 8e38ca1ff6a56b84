#ifndef CONDITIONAL_H
#define CONDITIONAL_H

#include <stdint.h>

enum condition {
    CONDITION_ABSENT, /* not asked, or not understood */
    CONDITION_FALSE,
    CONDITION_TRUE
};

/*
 * Conditional requests, RFC 9110 section 13: whether the client already has
 * what it asks for.  Start with the validators of what would be sent, show
 * every field of the request in any order, and ask.
 */
struct conditional {
    const char *etag;
    int64_t modified;
    enum condition match;
    enum condition none_match;
    enum condition modified_since;
    enum condition unmodified_since;
};

enum conditional_answer {
    CONDITIONAL_SEND,  /* as if nothing had been asked */
    CONDITIONAL_SAME,  /* 304: the client has it */
    CONDITIONAL_FAILED /* 412: the client wants another */
};

/* Start for bytes with the strong @etag, quotes included, which must outlive
 * @c, last modified @modified seconds after 1970, 0 when that is not told. */
void conditional_start(
    struct conditional *c, const char *etag, int64_t modified);

/* Take note of a field; one that is no precondition, or a date that is none,
 * is ignored. */
void conditional_field(
    struct conditional *c, const char *name, const char *value);

/* What to do, once all fields were shown. */
enum conditional_answer conditional_decide(const struct conditional *c);

#endif
