#ifndef STRING_POOL_H
#define STRING_POOL_H

#include <stddef.h>

/*
 * Texts that come again and again, such as ids, each kept once with the thing
 * it stands for.  For this layer only.
 */
struct string_pool;
struct arena;

struct word {
    const char *text; /* NUL-terminated, in the arena */
    size_t len;
    const void *thing; /* NULL at first; for whoever asked */
};

/* None yet; the texts go into @a.  NULL when memory is out. */
struct string_pool *string_pool_new(struct arena *a);

/* Free @w but not its texts; NULL is ignored. */
void string_pool_free(struct string_pool *w);

/*
 * The word of these @len bytes; sets @is_new when it was not there before.
 * Valid until the next call.  NULL when memory is out.
 */
struct word *string_pool_get(
    struct string_pool *w, const char *text, size_t len, int *is_new);

#endif
