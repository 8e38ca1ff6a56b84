#include "reasons.h"

#include "arena.h"

#include <stdarg.h>
#include <stdio.h>
#include <string.h>

struct reasons {
    struct arena *arena;
    struct reason *list;
    size_t n;
    size_t size;
    int failed;
};

struct reasons *
reasons_new(struct arena *a)
{
    struct reasons *rs = arena_take(a, sizeof *rs);

    if (rs != NULL)
        rs->arena = a;
    return rs;
}

static struct reason *
next_slot(struct reasons *rs)
{
    if (rs->n == rs->size) {
        size_t size = rs->size ? rs->size * 2 : 8;
        void *list =
            arena_grow(rs->arena, rs->list, rs->n, size, sizeof *rs->list);
        if (list == NULL)
            return NULL;
        rs->list = list;
        rs->size = size;
    }
    return &rs->list[rs->n];
}

void
reasons_add(struct reasons *rs, enum reason_step step, day_t before,
    day_t after, const char *format, ...)
{
    char text[512];
    va_list args;

    if (rs == NULL)
        return;
    va_start(args, format);
    vsnprintf(text, sizeof text, format, args);
    va_end(args);
    struct reason *slot = next_slot(rs);
    char *copy = arena_text(rs->arena, text, strlen(text));
    if (slot == NULL || copy == NULL) {
        rs->failed = 1;
        return;
    }
    *slot = (struct reason){step, before, after, copy};
    rs->n++;
}

int
reasons_take(struct reasons *rs, struct due *d)
{
    if (rs == NULL)
        return 0;
    d->reasons = rs->list;
    d->n_reasons = rs->n;
    int failed = rs->failed;
    *rs = (struct reasons){.arena = rs->arena};
    return failed ? -1 : 0;
}

void
reasons_clear(struct reasons *rs)
{
    if (rs != NULL)
        rs->n = 0;
}
