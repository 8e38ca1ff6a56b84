#include "files.h"

#include "items.h"
#include "reader.h"

#include <glob.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

/* The files read so far, by what they are and not by what they are called. */
struct known {
    dev_t device;
    ino_t node;
    const char *path;
    const struct known *next;
};

struct files {
    struct document *document;
    const struct known *known;
};

static int
folder_length(const char *path)
{
    const char *slash = strrchr(path, '/');

    return slash ? (int)(slash - path) + 1 : 0;
}

const char *
files_path(struct document *d, int file, const char *path)
{
    const char *from = problems_name(d->problems, file);
    int folder = path[0] == '/' ? 0 : folder_length(from);
    const char *joined = arena_print(d->arena, "%.*s%s", folder, from, path);

    if (joined == NULL)
        d->out_of_memory = 1;
    return joined;
}

/* The name under which the file was read already, or NULL and now it is. */
static const char *
read_before(struct files *f, const char *path)
{
    struct arena *a = f->document->arena;
    struct known *known = arena_take(a, sizeof *known);
    const char *name = arena_text(a, path, strlen(path));
    struct stat st;

    if (known == NULL || name == NULL)
        f->document->out_of_memory = 1;
    else if (stat(path, &st) == 0) { /* else the reader says what is wrong */
        for (const struct known *k = f->known; k != NULL; k = k->next)
            if (k->device == st.st_dev && k->node == st.st_ino)
                return k->path;
        *known = (struct known){st.st_dev, st.st_ino, name, f->known};
        f->known = known;
    }
    return NULL;
}

static int
read_one(struct files *f, const char *path)
{
    int file = problems_file(f->document->problems, path);

    if (file < 0)
        f->document->out_of_memory = 1;
    return file < 0 ? -1 : reader_read(f->document, file);
}

static int
by_bytes(const void *left, const void *right)
{
    return strcmp(*(char *const *)left, *(char *const *)right);
}

static void
read_found(struct files *f, const char *key, const struct items *item,
    char **paths, size_t n)
{
    struct problems *ps = f->document->problems;

    /* Not in the order of the locale: that differs between machines. */
    qsort(paths, n, sizeof *paths, by_bytes);
    for (size_t i = 0; i < n; i++) {
        const char *before = read_before(f, paths[i]);
        if (before != NULL)
            problems_add(ps, PROBLEM_ERROR, item->place,
                "'%s': '%s' finds %s, which is read already; "
                "name each file once",
                key, item->text, before);
        else
            read_one(f, paths[i]);
    }
}

/* The folder's name is no pattern, whatever letters it has. */
static const char *
pattern_of(struct document *d, int file, const char *text)
{
    const char *from = problems_name(d->problems, file);
    int folder = text[0] == '/' ? 0 : folder_length(from);
    char *pattern = arena_take(d->arena, (size_t)folder * 2 + strlen(text) + 1);
    char *out = pattern;

    if (pattern == NULL) {
        d->out_of_memory = 1;
        return NULL;
    }
    for (int i = 0; i < folder; i++) {
        if (strchr("*?[]\\", from[i]))
            *out++ = '\\';
        *out++ = from[i];
    }
    memcpy(out, text, strlen(text) + 1);
    return pattern;
}

/* A pattern that finds nothing is most likely misspelt, and a fleet without
 * that file would be silent about its dates. */
static void
read_pattern(struct files *f, const char *key, const struct items *item)
{
    struct document *d = f->document;
    const char *pattern = pattern_of(d, item->place.file, item->text);
    glob_t found = {0};

    if (pattern == NULL)
        return;
    int bad = glob(pattern, GLOB_NOSORT, NULL, &found);
    if (bad == 0)
        read_found(f, key, item, found.gl_pathv, found.gl_pathc);
    else if (bad == GLOB_NOMATCH)
        problems_add(d->problems, PROBLEM_ERROR, item->place,
            "'%s': '%s' finds no file; correct it or take it out", key,
            item->text);
    else
        d->out_of_memory = 1;
    globfree(&found);
}

static const struct section *
site_of(const struct document *d)
{
    for (const struct section *s = d->sections; s != NULL; s = s->next)
        if (s->kind == SECTION_SITE)
            return s;
    return NULL;
}

static void
read_list(struct files *f, const struct section *site, const char *key)
{
    struct entry *e = section_entry(site, key);

    if (e == NULL)
        return;
    struct items item = items_of(e, ITEMS_WORDS);
    while (items_next(&item))
        read_pattern(f, key, &item);
}

/* The presets come last: whatever the fleet's own files say is read first. */
int
files_read(struct document *d, const char *path)
{
    struct files f = {.document = d};

    read_before(&f, path);
    if (read_one(&f, path))
        return -1;
    const struct section *site = site_of(d);
    if (site == NULL)
        return 0;
    read_list(&f, site, "include");
    d->reading_presets = 1;
    read_list(&f, site, "presets");
    return 0;
}
