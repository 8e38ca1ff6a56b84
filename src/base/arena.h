#ifndef ARENA_H
#define ARENA_H

#include <stddef.h>

/*
 * Memory that is given back all at once.  What lives as long as the fleet
 * file, a snapshot or a run of reasons is taken from one of these and never
 * freed by itself.
 */
struct arena;

/* An empty arena, or NULL when memory is out.  Free with arena_free(). */
struct arena *arena_new(void);

/* Free @a and everything taken from it; NULL is ignored. */
void arena_free(struct arena *a);

/* @size zeroed bytes, aligned for any type, or NULL when memory is out. */
void *arena_take(struct arena *a, size_t size);

/*
 * Room for @count items of @size bytes where @had of them are at @old (NULL
 * when none): a zeroed, larger copy.  Returns NULL when memory is out.  The
 * old place stays until the arena goes, so grow by doubling.
 */
void *arena_grow(
    struct arena *a, const void *old, size_t had, size_t count, size_t size);

/*
 * The list at @list of @n items of @size bytes, with room for one more: where
 * it was, or copied to a place of twice the length.  It must have grown by this
 * alone, from NULL and 0.  NULL when memory is out.
 */
void *arena_one_more(struct arena *a, void *list, size_t n, size_t size);

/* A copy of the first @n bytes of @text, NUL-terminated, or NULL. */
char *arena_text(struct arena *a, const char *text, size_t n);

/* A formatted text, or NULL when memory is out. */
char *arena_print(struct arena *a, const char *format, ...)
    __attribute__((format(printf, 2, 3)));

#endif
