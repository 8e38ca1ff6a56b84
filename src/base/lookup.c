#include "lookup.h"

#include <assert.h>
#include <stdlib.h>
#include <strings.h>

struct entry {
    const char *id;
    const void *thing;
};

struct lookup {
    size_t n;
    size_t room;
    int sorted;
    struct entry entries[];
};

struct lookup *
lookup_new(size_t n)
{
    struct lookup *k = calloc(1, sizeof *k + n * sizeof *k->entries);

    if (k != NULL)
        k->room = n;
    return k;
}

void
lookup_free(struct lookup *k)
{
    free(k);
}

void
lookup_add(struct lookup *k, const char *id, const void *thing)
{
    assert(k->n < k->room);
    k->entries[k->n++] = (struct entry){id, thing};
    k->sorted = 0;
}

static int
by_id(const void *left, const void *right)
{
    const struct entry *a = left;
    const struct entry *b = right;

    return strcasecmp(a->id, b->id);
}

const void *
lookup_find(struct lookup *k, const char *id)
{
    if (id == NULL || k->n == 0)
        return NULL;
    if (!k->sorted)
        qsort(k->entries, k->n, sizeof *k->entries, by_id);
    k->sorted = 1;
    struct entry key = {id, NULL};
    const struct entry *e =
        bsearch(&key, k->entries, k->n, sizeof *k->entries, by_id);
    return e == NULL ? NULL : e->thing;
}
