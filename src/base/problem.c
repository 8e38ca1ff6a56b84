#include "problem.h"

#include "arena.h"
#include "buf.h"

#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

struct problem {
    enum problem_level level;
    struct place where;
    size_t order; /* of arrival, to keep the sort stable */
    char *text;
};

struct problems {
    struct arena *arena;
    struct problem *list;
    size_t n;
    size_t size;
    char **files;
    int n_files;
    int lost; /* memory ran out: something is missing from the list */
};

struct problems *
problems_new(void)
{
    struct problems *ps = calloc(1, sizeof *ps);

    if (ps == NULL)
        return NULL;
    ps->arena = arena_new();
    if (ps->arena == NULL) {
        free(ps);
        return NULL;
    }
    return ps;
}

void
problems_free(struct problems *ps)
{
    if (ps == NULL)
        return;
    arena_free(ps->arena);
    free(ps);
}

int
problems_file(struct problems *ps, const char *name)
{
    for (int i = 0; i < ps->n_files; i++)
        if (strcmp(ps->files[i], name) == 0)
            return i;
    size_t had = (size_t)ps->n_files;
    char **files =
        arena_grow(ps->arena, ps->files, had, had + 1, sizeof *files);
    if (files == NULL)
        return -1;
    ps->files = files;
    files[had] = arena_text(ps->arena, name, strlen(name));
    if (files[had] == NULL)
        return -1;
    return ps->n_files++;
}

const char *
problems_name(const struct problems *ps, int file)
{
    return file >= 0 && file < ps->n_files ? ps->files[file] : "";
}

static struct problem *
next_slot(struct problems *ps)
{
    if (ps->n == ps->size) {
        size_t size = ps->size ? ps->size * 2 : 16;
        void *list =
            arena_grow(ps->arena, ps->list, ps->n, size, sizeof *ps->list);
        if (list == NULL)
            return NULL;
        ps->list = list;
        ps->size = size;
    }
    return &ps->list[ps->n];
}

/* A problem that cannot be kept must not pass for none, so that it was lost is
 * noted. */
void
problems_add(struct problems *ps, enum problem_level level, struct place where,
    const char *format, ...)
{
    char text[1024];
    va_list args;

    va_start(args, format);
    vsnprintf(text, sizeof text, format, args);
    va_end(args);
    struct problem *p = next_slot(ps);
    char *copy = arena_text(ps->arena, text, strlen(text));
    if (p == NULL || copy == NULL) {
        ps->lost = 1;
        return;
    }
    *p = (struct problem){level, where, ps->n++, copy};
}

size_t
problems_count(const struct problems *ps, enum problem_level level)
{
    size_t count = level == PROBLEM_ERROR && ps->lost;

    for (size_t i = 0; i < ps->n; i++)
        count += ps->list[i].level == level;
    return count;
}

static int
by_place(const void *left, const void *right)
{
    const struct problem *a = left;
    const struct problem *b = right;

    if (a->where.file != b->where.file)
        return a->where.file < b->where.file ? -1 : 1;
    if (a->where.line != b->where.line)
        return a->where.line < b->where.line ? -1 : 1;
    return a->order < b->order ? -1 : 1;
}

/* In the order of the files and lines, in which people mend them, and not in
 * that of the checks. */
void
problems_print(struct problems *ps, int warnings, struct buf *out)
{
    if (ps->n > 1)
        qsort(ps->list, ps->n, sizeof *ps->list, by_place);
    for (size_t i = 0; i < ps->n; i++) {
        const struct problem *p = &ps->list[i];
        if (p->level == PROBLEM_WARNING && !warnings)
            continue;
        buf_text(out, problems_name(ps, p->where.file));
        if (p->where.line > 0)
            buf_print(out, ":%d", p->where.line);
        buf_print(out, ": %s: %s\n",
            p->level == PROBLEM_ERROR ? "error" : "warning", p->text);
    }
    if (ps->lost)
        buf_text(out, "error: out of memory: some problems are not listed\n");
}
