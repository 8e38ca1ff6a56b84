#include "display.h"

#include "arena.h"
#include "feeds.h"
#include "keyring.h"
#include "pages.h"
#include "resource.h"
#include "shelf.h"
#include "source.h"

#include <stdlib.h>
#include <string.h>
#include <strings.h>
#include <sysexits.h>

/* A key of the operator's own that is shorter could be guessed: this many
 * letters and digits are 128 bits. */
#define OWN_KEY_LEAST 26

struct grant {
    uint8_t hash[KEY_HASH];
    const char *path;
};

/* One state of it; the next one is made beside it. */
struct state {
    struct arena *arena;
    struct feeds *feeds;
    struct keyring_key *keys;
    size_t n_keys;
    struct grant *grants;
    size_t n_grants;
    struct pages *pages;
    int are_old; /* the pages: those of now could not be made */
};

struct display {
    struct state now;
    struct pages_seal seal;
};

static void
drop(struct state *s)
{
    feeds_free(s->feeds);
    pages_free(s->pages);
    arena_free(s->arena);
}

struct display *
display_new(void)
{
    struct display *d = calloc(1, sizeof *d);

    if (d != NULL && pages_seal(&d->seal)) {
        free(d);
        d = NULL;
    }
    return d;
}

void
display_free(struct display *d)
{
    if (d == NULL)
        return;
    drop(&d->now);
    free(d);
}

static int
no_memory(struct fault *f)
{
    return fault_set(f, EX_OSERR, "out of memory");
}

static void
grant(struct state *s, const uint8_t hash[KEY_HASH], const char *path)
{
    if (path == NULL)
        return;
    memcpy(s->grants[s->n_grants].hash, hash, KEY_HASH);
    s->grants[s->n_grants++].path = path;
}

/* The key that the operator gave a feed in a file of its own. */
static int
take_own_key(struct state *s, const struct feed *feed, struct fault *f)
{
    char secret[SECRET_MOST + 1];
    uint8_t hash[KEY_HASH];
    struct fault why;

    if (feed->key_file == NULL)
        return 0;
    if (source_secret(feed->key_file, secret, &why))
        return fault_set(f, why.code, "the key-file of the feed '%s' %s",
            feed->id, why.text);
    size_t len = strlen(secret);
    key_hash(secret, len, hash);
    explicit_bzero(secret, sizeof secret);
    if (len < OWN_KEY_LEAST)
        return fault_set(f, EX_CONFIG,
            "the key-file of the feed '%s' opens nothing: its key has less "
            "than %d characters; ostler key makes a good one",
            feed->id, OWN_KEY_LEAST);
    grant(s, hash, feeds_path(s->feeds, feed->id));
    return 0;
}

/* Make the pages; when that fails, those from before stay, as old ones. */
static int
take_pages(struct display *d, struct state *next, const struct pass *p,
    const char *notice, struct fault *f)
{
    next->pages = pages_make(p, next->keys, next->n_keys, &d->seal, notice, f);
    if (next->pages != NULL)
        return 0;
    next->pages = d->now.pages;
    next->are_old = 1;
    d->now.pages = NULL;
    return -1;
}

static int
take_grants(struct state *next, const struct pass *p, struct fault *f)
{
    const struct fleet *fleet = pass_fleet(p);
    int rc = 0;

    for (size_t i = 0; i < next->n_keys; i++) {
        const struct keyring_key *k = &next->keys[i];
        if (k->revoked == 0)
            grant(next, k->hash,
                k->kind == KEYRING_FEED
                    ? feeds_path(next->feeds, k->name)
                    : pages_path(next->pages, k->kind, k->name));
    }
    for (size_t i = 0; i < fleet->n_feeds; i++)
        if (take_own_key(next, &fleet->feeds[i], rc ? NULL : f))
            rc = -1;
    return rc;
}

/* Without its keys nothing could be had: then all stays as it was. */
static int
take_keys(struct state *next, const struct pass *p, struct fault *f)
{
    if (keyring_list(
            pass_ledger(p), next->arena, &next->keys, &next->n_keys, f))
        return -1;
    size_t most = next->n_keys + pass_fleet(p)->n_feeds + 1;
    next->grants = arena_take(next->arena, most * sizeof *next->grants);
    return next->grants ? 0 : no_memory(f);
}

int
display_update(struct display *d, const struct pass *p, const char *notice,
    struct fault *f)
{
    struct state next = {.arena = arena_new()};

    if (next.arena == NULL)
        return no_memory(f);
    if (take_keys(&next, p, f) ||
        (next.feeds = feeds_new(pass_fleet(p), f)) == NULL) {
        drop(&next);
        return -1;
    }
    int rc = feeds_take(next.feeds, d->now.feeds, p, f);
    if (take_pages(d, &next, p, notice, rc ? NULL : f))
        rc = -1;
    if (take_grants(&next, p, rc ? NULL : f))
        rc = -1;
    drop(&d->now);
    d->now = next;
    return rc;
}

/* A key may have been revoked since the form was sent. */
static int
is_granted(
    const struct state *s, const uint8_t hash[KEY_HASH], const char *path)
{
    for (size_t i = 0; i < s->n_grants; i++)
        if (key_same(s->grants[i].hash, hash) &&
            strcmp(s->grants[i].path, path) == 0)
            return 1;
    return 0;
}

int
display_desk(const struct display *d, const struct fleet *fleet,
    const char *path, const uint8_t key[KEY_HASH], struct desk *out)
{
    const char *id = pages_person(d->now.pages, path);

    if (id == NULL || !is_granted(&d->now, key, path))
        return -1;
    for (size_t i = 0; i < fleet->n_persons; i++)
        if (strcasecmp(fleet->persons[i].id, id) == 0) {
            *out = pages_desk(&d->seal, &fleet->persons[i]);
            return 0;
        }
    return -1;
}

static int
put_feeds(struct shelf *s, const struct display *d, const struct health *h)
{
    (void)h;
    return feeds_put(d->now.feeds, s);
}

static int
put_keys(struct shelf *s, const struct display *d, const struct health *h)
{
    const struct state *now = &d->now;
    int rc = 0;

    (void)h;
    for (size_t i = 0; i < now->n_grants && rc == 0; i++)
        rc = shelf_grant(s, now->grants[i].hash, now->grants[i].path);
    return rc;
}

static int
put_pages(struct shelf *s, const struct display *d, const struct health *h)
{
    int are_old = d->now.are_old || h->is_old || !h->pass;

    return pages_put(d->now.pages, are_old, s);
}

static int
put(struct shelf *s, const char *path, struct resource *r)
{
    int rc = r ? shelf_add(s, path, r) : -1;

    resource_drop(r);
    return rc;
}

static int
put_health(struct shelf *s, const struct display *d, const struct health *h)
{
    (void)d;
    return put(s, "/health", health_page(h));
}

/* Nothing here is for a search. */
static int
put_robots(struct shelf *s, const struct display *d, const struct health *h)
{
    static const char text[] = "User-agent: *\nDisallow: /\n";
    const struct resource_facts facts = {.cache = "public, max-age=86400"};

    (void)d;
    (void)h;
    return put(s, "/robots.txt", resource_new(&facts, text, sizeof text - 1));
}

/* What is served: each puts its part on the shelf. */
static int (*const parts[])(
    struct shelf *s, const struct display *d, const struct health *h) = {
    put_feeds,
    put_pages,
    put_keys,
    put_health,
    put_robots,
};

struct shelf *
display_shelf(const struct display *d, const struct health *h)
{
    struct shelf *s = shelf_new();

    for (size_t i = 0; s != NULL && i < sizeof parts / sizeof *parts; i++)
        if (parts[i](s, d, h)) {
            shelf_free(s);
            s = NULL;
        }
    return s;
}
