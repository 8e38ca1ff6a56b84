#ifndef ANSWERS_H
#define ANSWERS_H

#include <stddef.h>

/* What a server may answer with one status.  A body that is NULL is one of the
 * library's own. */
struct answer_kind {
    int status;
    const char *body;
};

/*
 * Read the @len bytes at @text, all that came back on one connection, as
 * RFC 9112 has it: answers of HTTP/1.1, each whole, with one of the @n @kinds,
 * and none behind one that says it is the last.  Returns NULL, or what is
 * wrong.
 */
const char *answers_wrong(
    const char *text, size_t len, const struct answer_kind *kinds, size_t n);

#endif
