#include "served_site.h"

#include "arena.h"
#include "feeds.h"
#include "keyring.h"
#include "pages.h"
#include "resource.h"
#include "routes.h"
#include "source.h"

#include <stdlib.h>
#include <string.h>
#include <strings.h>
#include <sysexits.h>

/* A key of the operator's own that is shorter could be guessed: this many
 * letters and digits are 128 bits. */
#define OWN_KEY_LEAST 26

/* What opens a feed by a file of the operator's own. */
struct own_key {
    uint8_t hash[KEY_HASH];
    const char *path;
};

/* One state of it; the next one is made beside it. */
struct state {
    struct arena *arena;
    struct feeds *feeds;
    struct keyring_key *keys;
    size_t n_keys;
    struct own_key *own;
    size_t n_own;
    struct pages *pages;
    int are_old; /* the pages: newer ones could not be made */
};

struct served_site {
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

struct served_site *
served_site_new(void)
{
    struct served_site *d = calloc(1, sizeof *d);

    if (d != NULL && pages_seal(&d->seal)) {
        free(d);
        d = NULL;
    }
    return d;
}

void
served_site_free(struct served_site *d)
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
    const char *path = feeds_path(s->feeds, feed->id);
    if (path != NULL) {
        memcpy(s->own[s->n_own].hash, hash, KEY_HASH);
        s->own[s->n_own++].path = path;
    }
    return 0;
}

/* Without its keys nothing could be had: then all stays as it was. */
static int
take_keys(struct state *next, const struct run_context *p, struct fault *f)
{
    if (keyring_list(run_ledger(p), next->arena, &next->keys, &next->n_keys, f))
        return -1;
    next->own = arena_take(
        next->arena, (run_fleet(p)->n_feeds + 1) * sizeof *next->own);
    return next->own ? 0 : no_memory(f);
}

int
served_site_feeds(
    struct served_site *d, const struct run_context *p, struct fault *f)
{
    const struct fleet *fleet = run_fleet(p);
    struct state next = {.arena = arena_new()};

    if (next.arena == NULL)
        return no_memory(f);
    if (take_keys(&next, p, f) || (next.feeds = feeds_new(fleet, f)) == NULL) {
        drop(&next);
        return -1;
    }
    int rc = feeds_take(next.feeds, d->now.feeds, p, f);
    for (size_t i = 0; i < fleet->n_feeds; i++)
        if (take_own_key(&next, &fleet->feeds[i], rc ? NULL : f))
            rc = -1;
    next.pages = d->now.pages;
    next.are_old = d->now.are_old;
    d->now.pages = NULL;
    drop(&d->now);
    d->now = next;
    return rc;
}

int
served_site_pages(struct served_site *d, const struct run_context *p,
    const char *notice, struct fault *f)
{
    struct state *now = &d->now;
    struct pages *next =
        pages_make(p, now->keys, now->n_keys, &d->seal, notice, f);

    now->are_old = next == NULL;
    if (next == NULL)
        return -1;
    pages_free(now->pages);
    now->pages = next;
    return 0;
}

/* Where the thing stands that @k opens, or NULL. */
static const char *
path_of(const struct state *s, const struct keyring_key *k)
{
    if (k->revoked != 0)
        return NULL;
    return k->kind == KEYRING_FEED ? feeds_path(s->feeds, k->name)
                                   : pages_path(s->pages, k->kind, k->name);
}

/* A key may have been revoked since the form was sent. */
static int
is_granted(
    const struct state *s, const uint8_t hash[KEY_HASH], const char *path)
{
    for (size_t i = 0; i < s->n_keys; i++) {
        const char *opens = path_of(s, &s->keys[i]);
        if (opens != NULL && key_same(s->keys[i].hash, hash) &&
            strcmp(opens, path) == 0)
            return 1;
    }
    return 0;
}

int
served_site_recorder(const struct served_site *d, const struct fleet *fleet,
    const char *path, const uint8_t key[KEY_HASH], struct recorder *out)
{
    enum keyring_kind kind = KEYRING_FEED;
    const char *id = pages_signer(d->now.pages, path, &kind);

    if (id == NULL || kind != KEYRING_PERSON || !is_granted(&d->now, key, path))
        return -1;
    for (size_t i = 0; i < fleet->n_persons; i++)
        if (strcasecmp(fleet->persons[i].id, id) == 0) {
            *out = pages_recorder(&d->seal, &fleet->persons[i]);
            return 0;
        }
    return -1;
}

int
served_site_checker(const struct served_site *d, const struct fleet *fleet,
    const char *path, const uint8_t key[KEY_HASH], struct walk_round_key *out)
{
    enum keyring_kind kind = KEYRING_FEED;
    const char *id = pages_signer(d->now.pages, path, &kind);

    if (id == NULL || !is_granted(&d->now, key, path))
        return -1;
    return pages_check_key(fleet, kind, id, out);
}

static int
put_feeds(struct routes *s, const struct served_site *d, const struct health *h)
{
    (void)h;
    return feeds_put(d->now.feeds, s);
}

static int
put_keys(struct routes *s, const struct served_site *d, const struct health *h)
{
    const struct state *now = &d->now;
    int rc = 0;

    (void)h;
    for (size_t i = 0; i < now->n_own && rc == 0; i++)
        rc = routes_grant(s, now->own[i].hash, now->own[i].path);
    for (size_t i = 0; i < now->n_keys && rc == 0; i++) {
        const char *path = path_of(now, &now->keys[i]);
        if (path != NULL)
            rc = routes_grant(s, now->keys[i].hash, path);
    }
    return rc;
}

static int
put_pages(struct routes *s, const struct served_site *d, const struct health *h)
{
    return pages_put(d->now.pages, d->now.are_old || h->is_old, s);
}

static int
put(struct routes *s, const char *path, struct resource *r)
{
    int rc = r ? routes_add(s, path, r) : -1;

    resource_drop(r);
    return rc;
}

static int
put_health(
    struct routes *s, const struct served_site *d, const struct health *h)
{
    (void)d;
    return put(s, "/health", health_page(h));
}

/* Nothing here is for a search. */
static int
put_robots(
    struct routes *s, const struct served_site *d, const struct health *h)
{
    static const char text[] = "User-agent: *\nDisallow: /\n";
    const struct resource_facts facts = {.cache = "public, max-age=86400"};

    (void)d;
    (void)h;
    return put(s, "/robots.txt", resource_new(&facts, text, sizeof text - 1));
}

/* What is served: each puts its part among the routes. */
static int (*const parts[])(
    struct routes *s, const struct served_site *d, const struct health *h) = {
    put_feeds,
    put_pages,
    put_keys,
    put_health,
    put_robots,
};

struct routes *
served_site_routes(const struct served_site *d, const struct health *h)
{
    struct routes *s = routes_new();

    for (size_t i = 0; s != NULL && i < sizeof parts / sizeof *parts; i++)
        if (parts[i](s, d, h)) {
            routes_free(s);
            s = NULL;
        }
    return s;
}
