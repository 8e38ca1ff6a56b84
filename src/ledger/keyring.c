#include "keyring.h"

#include "rows.h"

#include <string.h>
#include <strings.h>

static const char *const words[] = {
    [KEYRING_FEED] = "feed",
    [KEYRING_FLEET] = "fleet",
    [KEYRING_DEPOT] = "depot",
    [KEYRING_PERSON] = "person",
    [KEYRING_DRIVER] = "driver",
    [KEYRING_VEHICLE] = "vehicle",
};

#define KINDS (sizeof words / sizeof *words)

int
keyring_add(struct ledger *l, const struct keyring_key *key, struct fault *f)
{
    struct query q = query_start(l, KEY_ADD);

    query_text(&q, words[key->kind]);
    query_text(&q, key->name);
    query_bytes(&q, key->hash, KEY_HASH);
    query_int(&q, key->made);
    return query_run(&q, f);
}

int
keyring_revoke(struct ledger *l, enum keyring_kind kind, const char *name,
    int64_t when, size_t *n, struct fault *f)
{
    struct query q = query_start(l, KEY_REVOKE);
    int row;

    *n = 0;
    query_text(&q, words[kind]);
    query_text(&q, name);
    query_int(&q, when);
    while ((row = query_row(&q, f)) > 0)
        ++*n;
    return row;
}

static int
kind_of(const char *word, enum keyring_kind *kind)
{
    for (size_t i = 0; i < KINDS; i++)
        if (strcmp(words[i], word) == 0) {
            *kind = (enum keyring_kind)i;
            return 0;
        }
    return -1;
}

/* Returns 1, 0 for a kind that we do not know, or -1 when memory is out. */
static int
take(const struct query *q, struct arena *a, void *at)
{
    struct keyring_key *key = at;
    const char *kind;
    const char *hash;

    if (query_text_at(q, 1, a, &kind) || query_text_at(q, 2, a, &key->name) ||
        query_text_at(q, 3, a, &hash))
        return -1;
    key->id = query_int_at(q, 0);
    memcpy(key->hash, hash, KEY_HASH);
    key->made = query_int_at(q, 4);
    key->revoked = query_int_at(q, 5);
    return kind_of(kind, &key->kind) == 0;
}

int
keyring_list(struct ledger *l, struct arena *a, struct keyring_key **out,
    size_t *n, struct fault *f)
{
    struct query q = query_start(l, KEYS);
    struct rows rows;
    int rc = rows_take(&q, a, sizeof **out, take, &rows, f);

    *out = rows.items;
    *n = rows.n;
    return rc;
}
