#include "arena.h"

#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define BLOCK_SIZE ((size_t)16 * 1024)
#define ALIGN _Alignof(max_align_t)

struct block {
    struct block *older;
    size_t used;
    size_t size;
    _Alignas(max_align_t) char bytes[];
};

struct arena {
    struct block *newest;
};

struct arena *
arena_new(void)
{
    return calloc(1, sizeof(struct arena));
}

void
arena_free(struct arena *a)
{
    if (a == NULL)
        return;
    struct block *b = a->newest;
    while (b != NULL) {
        struct block *older = b->older;
        free(b);
        b = older;
    }
    free(a);
}

static struct block *
add_block(struct arena *a, size_t size)
{
    size_t room = size > BLOCK_SIZE ? size : BLOCK_SIZE;
    struct block *b = calloc(1, sizeof *b + room);

    if (b == NULL)
        return NULL;
    b->older = a->newest;
    b->size = room;
    a->newest = b;
    return b;
}

/* Half of all memory is refused first, so that rounding up cannot wrap. */
void *
arena_take(struct arena *a, size_t size)
{
    if (size > SIZE_MAX / 2)
        return NULL;
    size = (size + ALIGN - 1) & ~(ALIGN - 1);
    struct block *b = a->newest;
    if (b == NULL || size > b->size - b->used)
        b = add_block(a, size);
    if (b == NULL)
        return NULL;
    void *taken = b->bytes + b->used;
    b->used += size;
    return taken;
}

void *
arena_grow(
    struct arena *a, const void *old, size_t had, size_t count, size_t size)
{
    if (size != 0 && count > SIZE_MAX / 2 / size)
        return NULL;
    void *taken = arena_take(a, count * size);
    if (taken != NULL && had > 0)
        memcpy(taken, old, had * size);
    return taken;
}

/* At 0, 1, 2, 4, 8 ... it is full. */
void *
arena_one_more(struct arena *a, void *list, size_t n, size_t size)
{
    if ((n & (n - 1)) != 0)
        return list;
    return arena_grow(a, list, n, n == 0 ? 1 : 2 * n, size);
}

char *
arena_text(struct arena *a, const char *text, size_t n)
{
    char *copy = arena_take(a, n + 1);

    if (copy != NULL && n > 0)
        memcpy(copy, text, n);
    return copy;
}

char *
arena_print(struct arena *a, const char *format, ...)
{
    va_list args;

    va_start(args, format);
    int n = vsnprintf(NULL, 0, format, args);
    va_end(args);
    char *text = n < 0 ? NULL : arena_take(a, (size_t)n + 1);
    if (text == NULL)
        return NULL;
    va_start(args, format);
    vsnprintf(text, (size_t)n + 1, format, args);
    va_end(args);
    return text;
}
