#include "routes.h"

#include "resource.h"
#include "target.h"

#include <stdlib.h>
#include <string.h>

struct route {
    char *path;
    struct resource *get;
    int accepts;
};

struct grant {
    uint8_t hash[KEY_HASH];
    char *path;
};

struct routes {
    struct route *entries; /* by path */
    size_t n_entries;
    struct grant *grants;
    size_t n_grants;
};

struct routes *
routes_new(void)
{
    return calloc(1, sizeof(struct routes));
}

void
routes_free(struct routes *s)
{
    if (s == NULL)
        return;
    for (size_t i = 0; i < s->n_entries; i++) {
        free(s->entries[i].path);
        resource_drop(s->entries[i].get);
    }
    for (size_t i = 0; i < s->n_grants; i++)
        free(s->grants[i].path);
    free(s->entries);
    free(s->grants);
    free(s);
}

/* Where @path stands in the table, or would. */
static size_t
place(const struct routes *s, const char *path)
{
    size_t low = 0;
    size_t high = s->n_entries;

    while (low < high) {
        size_t middle = low + (high - low) / 2;
        if (strcmp(s->entries[middle].path, path) < 0)
            low = middle + 1;
        else
            high = middle;
    }
    return low;
}

static struct route *
find(const struct routes *s, const char *path)
{
    size_t i = place(s, path);

    return i < s->n_entries && strcmp(s->entries[i].path, path) == 0
               ? &s->entries[i]
               : NULL;
}

/* The entry of @path, made when there is none. */
static struct route *
entry_for(struct routes *s, const char *path)
{
    struct route *e = find(s, path);

    if (e != NULL)
        return e;
    e = realloc(s->entries, (s->n_entries + 1) * sizeof *e);
    if (e == NULL)
        return NULL;
    s->entries = e;
    char *copy = strdup(path);
    if (copy == NULL)
        return NULL;
    size_t i = place(s, path);
    memmove(&e[i + 1], &e[i], (s->n_entries - i) * sizeof *e);
    e[i] = (struct route){.path = copy};
    s->n_entries++;
    return &e[i];
}

int
routes_add(struct routes *s, const char *path, struct resource *r)
{
    struct route *e = entry_for(s, path);

    if (e == NULL)
        return -1;
    resource_drop(e->get);
    e->get = resource_ref(r);
    return 0;
}

int
routes_accept(struct routes *s, const char *path)
{
    struct route *e = entry_for(s, path);

    if (e == NULL)
        return -1;
    e->accepts = 1;
    return 0;
}

int
routes_grant(struct routes *s, const uint8_t hash[KEY_HASH], const char *path)
{
    struct grant *g = realloc(s->grants, (s->n_grants + 1) * sizeof *g);

    if (g == NULL)
        return -1;
    s->grants = g;
    g[s->n_grants].path = strdup(path);
    if (g[s->n_grants].path == NULL)
        return -1;
    memcpy(g[s->n_grants++].hash, hash, KEY_HASH);
    return 0;
}

/* Goes through all, whatever it finds, so that the time says nothing. */
static int
is_granted(
    const struct routes *s, const uint8_t hash[KEY_HASH], const char *path)
{
    int found = 0;

    for (size_t i = 0; i < s->n_grants; i++) {
        int is_key = key_same(hash, s->grants[i].hash);
        int is_path = strcmp(s->grants[i].path, path) == 0;
        found |= is_key & is_path;
    }
    return found;
}

int
routes_find(
    const struct routes *s, const struct target *t, struct route_spot *spot)
{
    const struct route *e = find(s, t->path);

    memset(spot->hash, 0, sizeof spot->hash);
    if (t->key != NULL) {
        const struct route *locked = find(s, t->pattern);
        key_hash(t->key, t->key_len, spot->hash);
        if (is_granted(s, spot->hash, t->pattern))
            e = locked;
    }
    if (e == NULL)
        return -1;
    spot->path = e->path;
    spot->get = e->get;
    spot->accepts = e->accepts;
    return 0;
}
