#ifndef URL_PATH_H
#define URL_PATH_H

#include "keyring.h"

struct buf;
struct fleet;

/*
 * Where what a key opens is served: what "ostler key" prints, and where the
 * daemon puts it.
 */

/* Append the path of the thing of @kind called @name, with @key in it; "*" is
 * the place of any key. */
void url_path(
    enum keyring_kind kind, const char *key, const char *name, struct buf *out);

/* What a thing of that kind is called: "feed". */
const char *url_path_word(enum keyring_kind kind);

/* The id of the @n-th thing of that kind that @f has, or NULL past the
 * last. */
const char *url_path_name(
    const struct fleet *f, enum keyring_kind kind, size_t n);

#endif
