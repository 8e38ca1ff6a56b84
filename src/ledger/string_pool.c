#include "string_pool.h"

#include "arena.h"

#include <stdint.h>
#include <stdlib.h>
#include <string.h>

/* A hash table with open addressing, at most half full; a free place has no
 * text. */
struct string_pool {
    struct arena *arena;
    struct word *places;
    size_t n;
    size_t size; /* a power of two */
};

static struct word *
new_places(size_t size)
{
    return calloc(size, sizeof(struct word));
}

struct string_pool *
string_pool_new(struct arena *a)
{
    struct string_pool *w = calloc(1, sizeof *w);

    if (w == NULL)
        return NULL;
    *w = (struct string_pool){a, new_places(64), 0, 64};
    if (w->places != NULL)
        return w;
    free(w);
    return NULL;
}

void
string_pool_free(struct string_pool *w)
{
    if (w == NULL)
        return;
    free(w->places);
    free(w);
}

/* FNV-1a, 64 bits. */
static size_t
hash(const char *text, size_t len)
{
    uint64_t h = 0xcbf29ce484222325u;

    for (size_t i = 0; i < len; i++)
        h = (h ^ (unsigned char)text[i]) * 0x100000001b3u;
    return (size_t)(h ^ (h >> 32));
}

/* Where the text is, or would be. */
static struct word *
place_of(const struct string_pool *w, const char *text, size_t len)
{
    size_t at = hash(text, len) & (w->size - 1);

    while (w->places[at].text != NULL &&
           (w->places[at].len != len ||
               memcmp(w->places[at].text, text, len) != 0))
        at = (at + 1) & (w->size - 1);
    return &w->places[at];
}

static int
grow(struct string_pool *w)
{
    struct word *old = w->places;
    size_t n = w->size;
    struct word *places = new_places(2 * n);

    if (places == NULL)
        return -1;
    w->places = places;
    w->size = 2 * n;
    for (size_t i = 0; i < n; i++)
        if (old[i].text != NULL)
            *place_of(w, old[i].text, old[i].len) = old[i];
    free(old);
    return 0;
}

struct word *
string_pool_get(
    struct string_pool *w, const char *text, size_t len, int *is_new)
{
    struct word *found = place_of(w, text, len);

    *is_new = found->text == NULL;
    if (!*is_new)
        return found;
    if (2 * (w->n + 1) > w->size) {
        if (grow(w) != 0)
            return NULL;
        found = place_of(w, text, len);
    }
    found->text = arena_text(w->arena, text, len);
    if (found->text == NULL)
        return NULL;
    found->len = len;
    w->n++;
    return found;
}
