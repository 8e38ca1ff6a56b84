#include "pages.h"

#include "arena.h"
#include "check_page.h"
#include "dues.h"
#include "resource.h"
#include "routes.h"
#include "url_path.h"
#include "walk_round.h"
#include "workshop.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>
#include <strings.h>
#include <sys/random.h>
#include <sysexits.h>

struct served_page {
    enum keyring_kind kind;
    const char *name;
    const char *path;
    int has_forms;
    struct resource *fresh;
    struct resource *old; /* NULL until it is wanted */
};

struct pages {
    struct arena *arena;
    const char *old_notice;
    struct served_page *list;
    size_t n;
};

/* What all pages of one time have in common. */
struct page_making {
    const struct run_context *run;
    const struct snapshot *snapshot;
    struct walk_round *checks; /* made when first asked for */
    const struct pages_seal *seal;
    const char *notice;
};

int
pages_seal(struct pages_seal *seal)
{
    ssize_t n;

    *seal = (struct pages_seal){0};
    do
        n = getrandom(seal->secret, sizeof seal->secret, 0);
    while (n < 0 && errno == EINTR);
    return n == sizeof seal->secret ? 0 : -1;
}

static int
no_memory(struct fault *f)
{
    return fault_set(f, EX_OSERR, "out of memory");
}

static const struct served_page *
find(const struct pages *g, enum keyring_kind kind, const char *name)
{
    for (size_t i = 0; g != NULL && i < g->n; i++)
        if (g->list[i].kind == kind && strcasecmp(g->list[i].name, name) == 0)
            return &g->list[i];
    return NULL;
}

/* The keys of one person open one page, so its forms are the person's. */
struct recorder
pages_recorder(const struct pages_seal *seal, const struct person *person)
{
    uint8_t hash[KEY_HASH];

    key_hash(person->id, strlen(person->id), hash);
    return recorder_of(seal->secret, hash,
        person->name ? person->name : person->id, seal->made);
}

/* --- Making --------------------------------------------------------------- */

/* Those for whoever walks round a vehicle. */
static int
is_check(enum keyring_kind kind)
{
    return kind == KEYRING_DRIVER || kind == KEYRING_VEHICLE;
}

/* A page changes by the minute, and whoever has recorded wants the new one. */
static struct resource *
make(const char *html, size_t len, const struct served_page *page)
{
    const struct resource_facts facts = {
        .type = "text/html; charset=utf-8",
        .cache = "private, no-cache",
        .policy = is_check(page->kind) ? check_page_policy : page_policy,
        .referrer = page->has_forms ? "same-origin" : NULL,
    };

    return resource_new(&facts, html, len);
}

static int
print(const struct page_making *making, struct workshop *w,
    struct served_page *page, struct fault *f)
{
    struct buf *out = buf_new();

    if (out == NULL)
        return no_memory(f);
    w->notice = making->notice;
    page->has_forms = w->recorder != NULL;
    int rc = workshop_page(making->run, making->snapshot, w, out, f);
    if (rc == 0) {
        page->fresh = make(buf_str(out), buf_len(out), page);
        rc = page->fresh ? 0 : no_memory(f);
    }
    buf_free(out);
    return rc;
}

int
pages_check_key(const struct fleet *fleet, enum keyring_kind kind,
    const char *name, struct walk_round_key *out)
{
    return kind == KEYRING_VEHICLE  ? walk_round_vehicle(fleet, name, out)
           : kind == KEYRING_DRIVER ? walk_round_driver(fleet, name, out)
                                    : -1;
}

/* A notice goes where that of an old page would. */
static int
print_check(
    struct page_making *making, struct served_page *page, struct fault *f)
{
    struct walk_round_key key;
    struct buf *out = buf_new();
    struct buf *noticed = buf_new();
    int rc = -1;

    page->has_forms = 1;
    if (making->checks == NULL)
        making->checks = walk_round_begin(making->run, f);
    if (out == NULL || noticed == NULL)
        (void)no_memory(f);
    else if (making->checks != NULL && pages_check_key(run_fleet(making->run),
                                           page->kind, page->name, &key) == 0)
        rc = walk_round_front(making->checks, &key, out, f);
    const struct buf *html = out;
    if (rc == 0 && making->notice != NULL) {
        html = noticed;
        if (page_add_notice(
                buf_str(out), buf_len(out), making->notice, noticed))
            rc = no_memory(f);
    }
    if (rc == 0) {
        page->fresh = make(buf_str(html), buf_len(html), page);
        rc = page->fresh ? 0 : no_memory(f);
    }
    buf_free(noticed);
    buf_free(out);
    return rc;
}

static int
print_depot(const struct page_making *making, const struct depot *depot,
    struct served_page *page, struct fault *f)
{
    const struct scope scope = {SCOPE_DEPOT, depot};
    struct workshop w = {.scopes = &scope, .n_scopes = 1, .part = depot->title};

    return print(making, &w, page, f);
}

static int
print_person(const struct page_making *making, const struct person *person,
    struct served_page *page, struct fault *f)
{
    struct recorder d = pages_recorder(making->seal, person);
    struct workshop w = {.recorder = &d.page};

    return print(making, &w, page, f);
}

static int
print_page(struct page_making *making, size_t nth, struct served_page *page,
    struct fault *f)
{
    const struct fleet *fleet = run_fleet(making->run);
    struct workshop whole = {0};

    if (is_check(page->kind))
        return print_check(making, page, f);
    if (page->kind == KEYRING_DEPOT)
        return print_depot(making, &fleet->depots[nth], page, f);
    if (page->kind == KEYRING_PERSON)
        return print_person(making, &fleet->persons[nth], page, f);
    return print(making, &whole, page, f);
}

static const char *
path_of(struct arena *a, enum keyring_kind kind, const char *name)
{
    struct buf *b = buf_new();

    if (b == NULL)
        return NULL;
    url_path(kind, "*", name, b);
    const char *path =
        buf_failed(b) ? NULL : arena_text(a, buf_str(b), buf_len(b));
    buf_free(b);
    return path;
}

/* The name by which the fleet has what such a key opens, or NULL. */
static const char *
check_name(const struct fleet *fleet, const struct keyring_key *key)
{
    struct walk_round_key k;

    if (pages_check_key(fleet, key->kind, key->name, &k))
        return NULL;
    return k.vehicle ? k.vehicle->id : key->name;
}

/* Add the page that @key opens, unless it is there, or nothing in the fleet. */
static int
add(struct pages *g, struct page_making *making, const struct keyring_key *key,
    struct fault *f)
{
    const struct fleet *fleet = run_fleet(making->run);
    const char *name;
    size_t nth = 0;

    if (find(g, key->kind, key->name) != NULL)
        return 0;
    if (is_check(key->kind))
        name = check_name(fleet, key);
    else
        while ((name = url_path_name(fleet, key->kind, nth)) != NULL &&
               strcasecmp(name, key->name) != 0)
            nth++;
    if (name == NULL)
        return 0;
    struct served_page *page = &g->list[g->n++];
    page->kind = key->kind;
    page->name = arena_text(g->arena, name, strlen(name));
    page->path = path_of(g->arena, key->kind, name);
    if (page->name == NULL || page->path == NULL)
        return no_memory(f);
    return print_page(making, nth, page, f);
}

static int
is_wanted(const struct keyring_key *key)
{
    return key->kind != KEYRING_FEED && key->revoked == 0;
}

static size_t
count_wanted(const struct keyring_key *keys, size_t n)
{
    size_t wanted = 0;

    for (size_t i = 0; i < n; i++)
        wanted += (size_t)is_wanted(&keys[i]);
    return wanted;
}

/* Said of a page when there is no newer one, when nothing can be made anew. */
static const char *
old_notice(struct arena *a, const struct run_context *p)
{
    char words[CLOCK_WORDS];

    return arena_print(a,
        "This page could not be brought up to date since %s: what was recorded "
        "after that is not on it. The log of ostlerd says why.",
        clock_words(run_fleet(p)->site.time_zone, run_moment(p).now, words));
}

static int
print_all(struct pages *g, struct page_making *making,
    const struct keyring_key *keys, size_t n, struct fault *f)
{
    int rc = 0;

    making->snapshot = dues_of_run(making->run, f);
    if (making->snapshot == NULL)
        return -1;
    for (size_t i = 0; i < n && rc == 0; i++)
        if (is_wanted(&keys[i]))
            rc = add(g, making, &keys[i], f);
    walk_round_end(making->checks);
    return rc;
}

struct pages *
pages_make(const struct run_context *p, const struct keyring_key *keys,
    size_t n, struct pages_seal *seal, const char *notice, struct fault *f)
{
    struct pages *g = calloc(1, sizeof *g);
    size_t wanted = count_wanted(keys, n);
    struct page_making making = {.run = p, .seal = seal, .notice = notice};

    if (g == NULL || (g->arena = arena_new()) == NULL)
        goto no_memory;
    g->list = arena_take(g->arena, (wanted + 1) * sizeof *g->list);
    g->old_notice = old_notice(g->arena, p);
    if (g->list == NULL || g->old_notice == NULL)
        goto no_memory;
    /* With a fixed day, or within a second, the clock does not go on. */
    seal->made =
        run_moment(p).now > seal->made ? run_moment(p).now : seal->made + 1;
    if (wanted > 0 && print_all(g, &making, keys, n, f))
        goto err;
    return g;
no_memory:
    no_memory(f);
err:
    pages_free(g);
    return NULL;
}

void
pages_free(struct pages *g)
{
    if (g == NULL)
        return;
    for (size_t i = 0; i < g->n; i++) {
        resource_drop(g->list[i].fresh);
        resource_drop(g->list[i].old);
    }
    arena_free(g->arena);
    free(g);
}

/* --- Showing -------------------------------------------------------------- */

const char *
pages_path(const struct pages *g, enum keyring_kind kind, const char *name)
{
    const struct served_page *page = find(g, kind, name);

    return page ? page->path : NULL;
}

const char *
pages_signer(const struct pages *g, const char *path, enum keyring_kind *kind)
{
    for (size_t i = 0; g != NULL && i < g->n; i++)
        if (g->list[i].has_forms && strcmp(g->list[i].path, path) == 0) {
            *kind = g->list[i].kind;
            return g->list[i].name;
        }
    return NULL;
}

/* The page with the notice that it is old. */
static struct resource *
make_old(const struct served_page *page, const char *notice)
{
    struct buf *out = buf_new();
    struct resource *r = NULL;
    size_t len;

    if (out == NULL)
        return NULL;
    const char *html = resource_bytes(page->fresh, &len);
    if (page_add_notice(html, len, notice, out) == 0)
        r = make(buf_str(out), buf_len(out), page);
    buf_free(out);
    return r;
}

/* Without memory for a notice, the page still says of when it is. */
static struct resource *
choose(const struct pages *g, struct served_page *page, int are_old)
{
    if (!are_old)
        return page->fresh;
    if (page->old == NULL)
        page->old = make_old(page, g->old_notice);
    return page->old ? page->old : page->fresh;
}

int
pages_put(struct pages *g, int are_old, struct routes *s)
{
    int rc = 0;

    for (size_t i = 0; g != NULL && i < g->n && rc == 0; i++) {
        struct served_page *page = &g->list[i];
        rc = routes_add(s, page->path, choose(g, page, are_old));
        if (rc == 0 && page->has_forms)
            rc = routes_accept(s, page->path);
    }
    return rc;
}
