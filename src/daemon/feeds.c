#include "feeds.h"

#include "arena.h"
#include "file_map.h"
#include "publish.h"
#include "resource.h"
#include "routes.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>
#include <strings.h>
#include <sysexits.h>

/* A feed as it was last read from its file. */
struct shown_feed {
    const char *id;
    const char *path; /* among the routes */
    int64_t size;     /* of that file, */
    int64_t written;  /* and when it was */
    struct resource *page;
};

struct feeds {
    struct arena *arena;
    struct shown_feed *list; /* room for all of the fleet */
    size_t n;
};

static int
no_memory(struct fault *f)
{
    return fault_set(f, EX_OSERR, "out of memory");
}

static const struct shown_feed *
find(const struct feeds *s, const char *id)
{
    for (size_t i = 0; s != NULL && i < s->n; i++)
        if (strcasecmp(s->list[i].id, id) == 0)
            return &s->list[i];
    return NULL;
}

static struct resource *
make_page(const struct run_context *p, const struct feed *feed,
    const struct file_map *file, struct fault *f)
{
    struct resource_facts facts = {.type = "text/calendar; charset=utf-8"};

    if (publish_modified(p, feed, file->bytes, file->len, &facts.modified, f))
        return NULL;
    struct resource *page = resource_new(&facts, file->bytes, file->len);
    if (page == NULL)
        no_memory(f);
    return page;
}

/* Read the feed's file, unless it is the one we have. */
static int
read_file(const struct run_context *p, const struct feed *feed,
    const char *path, struct shown_feed *out, struct fault *f)
{
    struct file_map file;
    int64_t size;
    int64_t written;

    if (file_map_look(path, &size, &written))
        return fault_set(f, EX_NOINPUT, "%s: the feed cannot be read: %s", path,
            strerror(errno));
    if (out->page != NULL && size == out->size && written == out->written)
        return 0;
    if (file_map_open(path, &file))
        return fault_set(f, EX_NOINPUT, "%s: the feed cannot be read: %s", path,
            strerror(errno));
    struct resource *page = make_page(p, feed, &file, f);
    file_map_close(&file);
    if (page == NULL)
        return -1;
    resource_drop(out->page);
    out->page = page;
    out->size = size;
    out->written = written;
    return 0;
}

static int
take_feed(struct feeds *next, const struct feeds *now,
    const struct run_context *p, const struct feed *feed, struct fault *f)
{
    const struct shown_feed *before = find(now, feed->id);
    struct shown_feed *s = &next->list[next->n];
    const char *file = arena_print(
        next->arena, "%s/%s.ics", run_fleet(p)->site.feed_folder, feed->id);

    *s = before ? *before : (struct shown_feed){0};
    if (before != NULL)
        resource_ref(s->page);
    s->id = arena_text(next->arena, feed->id, strlen(feed->id));
    s->path = arena_print(next->arena, "/calendar/*/%s.ics", feed->id);
    if (file == NULL || s->id == NULL || s->path == NULL) {
        resource_drop(s->page);
        return no_memory(f);
    }
    int rc = read_file(p, feed, file, s, f);
    next->n += s->page != NULL;
    return rc;
}

struct feeds *
feeds_new(const struct fleet *fleet, struct fault *f)
{
    struct feeds *s = calloc(1, sizeof *s);

    if (s != NULL && (s->arena = arena_new()) != NULL)
        s->list = arena_take(s->arena, (fleet->n_feeds + 1) * sizeof *s->list);
    if (s != NULL && s->list != NULL)
        return s;
    feeds_free(s);
    no_memory(f);
    return NULL;
}

void
feeds_free(struct feeds *s)
{
    if (s == NULL)
        return;
    for (size_t i = 0; i < s->n; i++)
        resource_drop(s->list[i].page);
    arena_free(s->arena);
    free(s);
}

int
feeds_take(struct feeds *next, const struct feeds *now,
    const struct run_context *p, struct fault *f)
{
    const struct fleet *fleet = run_fleet(p);
    int rc = 0;

    for (size_t i = 0; i < fleet->n_feeds; i++)
        if (take_feed(next, now, p, &fleet->feeds[i], rc ? NULL : f))
            rc = -1;
    return rc;
}

const char *
feeds_path(const struct feeds *s, const char *id)
{
    const struct shown_feed *shown = find(s, id);

    return shown ? shown->path : NULL;
}

int
feeds_put(const struct feeds *feeds, struct routes *s)
{
    int rc = 0;

    for (size_t i = 0; feeds != NULL && i < feeds->n && rc == 0; i++)
        rc = routes_add(s, feeds->list[i].path, feeds->list[i].page);
    return rc;
}
