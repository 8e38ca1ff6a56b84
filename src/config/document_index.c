#include "document.h"

#include "suggest.h"

#include <stdlib.h>
#include <string.h>
#include <strings.h>

static int
compare_ids(const struct section *a, const struct section *b)
{
    enum section_kind ga = section_group(a->kind);
    enum section_kind gb = section_group(b->kind);

    return ga == gb ? strcasecmp(a->id, b->id) : (int)ga - (int)gb;
}

static int
by_id(const void *left, const void *right)
{
    const struct section *a = *(struct section *const *)left;
    const struct section *b = *(struct section *const *)right;
    int compared = compare_ids(a, b);

    return compared ? compared : (a->order > b->order) - (a->order < b->order);
}

static void
refuse_again(struct document *d, const char *what, const char *name,
    struct place again, struct place first)
{
    problems_add(d->problems, PROBLEM_ERROR, again,
        "%s%s%s again; it stands at %s:%d already", what, name, what,
        problems_name(d->problems, first.file), first.line);
}

/* Sorted by id and then by order, so that of several with one id the first is
 * kept and each other is told where that stands. */
static void
seal_sections(struct document *d)
{
    struct section *first = NULL;
    size_t n = 0;

    d->by_id =
        arena_take(d->arena, (d->n_sections + 1) * sizeof(struct section *));
    if (d->by_id == NULL) {
        d->out_of_memory = 1;
        return;
    }
    for (struct section *s = d->sections; s != NULL; s = s->next)
        d->by_id[n++] = s;
    qsort(d->by_id, n, sizeof(struct section *), by_id);
    for (size_t i = 0; i < n; i++) {
        struct section *s = d->by_id[i];
        s->again = first != NULL && compare_ids(first, s) == 0;
        if (!s->again)
            first = s;
        else if (s->kind == first->kind)
            refuse_again(d, "", s->title, s->place, first->place);
        else
            refuse_again(d, "'", s->id, s->place, first->place);
    }
}

static int
by_key(const void *left, const void *right)
{
    const struct entry *a = *(struct entry *const *)left;
    const struct entry *b = *(struct entry *const *)right;
    int compared = strcasecmp(a->key, b->key);

    return compared ? compared : a->place.line - b->place.line;
}

/* The same for the keys of a section.  Sorting keeps it fast for a section of
 * thousands of keys. */
static void
seal_entries(struct document *d, const struct section *s)
{
    struct entry *first = NULL;
    size_t n = 0;

    for (struct entry *e = s->entries; e != NULL; e = e->next)
        n++;
    struct entry **sorted =
        arena_take(d->arena, (n + 1) * sizeof(struct entry *));
    if (sorted == NULL) {
        d->out_of_memory = 1;
        return;
    }
    n = 0;
    for (struct entry *e = s->entries; e != NULL; e = e->next)
        sorted[n++] = e;
    qsort(sorted, n, sizeof(struct entry *), by_key);
    for (size_t i = 0; i < n; i++) {
        struct entry *e = sorted[i];
        e->again = first != NULL && strcasecmp(first->key, e->key) == 0;
        if (e->again)
            refuse_again(d, "'", e->key, e->place, first->place);
        else
            first = e;
    }
}

/* The problems that know the names of the files are gone when the fleet is
 * explained. */
static void
keep_names(struct document *d)
{
    int most = 0;

    for (const struct section *s = d->sections; s != NULL; s = s->next)
        if (s->place.file > most)
            most = s->place.file;
    const char **files =
        arena_take(d->arena, ((size_t)most + 1) * sizeof *files);
    d->out_of_memory |= files == NULL;
    for (int i = 0; files != NULL && i <= most; i++) {
        const char *name = problems_name(d->problems, i);
        files[i] = arena_text(d->arena, name, strlen(name));
        d->out_of_memory |= files[i] == NULL;
    }
    d->files = files;
}

void
document_seal(struct document *d)
{
    seal_sections(d);
    keep_names(d);
    for (struct section *s = d->sections; s != NULL; s = s->next)
        seal_entries(d, s);
}

/* A binary search for the first of its id; any others were refused. */
struct section *
document_find(const struct document *d, enum section_kind kind, const char *id)
{
    struct section key = {.kind = kind, .id = id};
    size_t low = 0;
    size_t high = d->by_id ? d->n_sections : 0;

    /* The first of several: later ones were refused. */
    while (low < high) {
        size_t middle = (low + high) / 2;
        if (compare_ids(d->by_id[middle], &key) < 0)
            low = middle + 1;
        else
            high = middle;
    }
    if (d->by_id && low < d->n_sections &&
        compare_ids(d->by_id[low], &key) == 0)
        return d->by_id[low];
    return NULL;
}

const char *
document_nearest(
    const struct document *d, enum section_kind kind, const char *id)
{
    struct suggest near = suggest_start(id);

    for (const struct section *s = d->sections; s != NULL; s = s->next)
        if (section_group(s->kind) == section_group(kind))
            suggest_offer(&near, s->id);
    return suggest_best(&near);
}

struct entry *
section_entry(const struct section *s, const char *key)
{
    for (struct entry *e = s->entries; e != NULL; e = e->next)
        if (!e->again && strcasecmp(e->key, key) == 0)
            return e;
    return NULL;
}

struct entry *
section_job_entry(const struct section *s, const char *job, const char *key)
{
    size_t len = strlen(job);

    if (s == NULL || s->kind == SECTION_JOB)
        return s ? section_entry(s, key) : NULL;
    for (struct entry *e = s->entries; e != NULL; e = e->next)
        if (!e->again && strncasecmp(e->key, job, len) == 0 &&
            e->key[len] == '.' && strcasecmp(e->key + len + 1, key) == 0)
            return e;
    return NULL;
}
