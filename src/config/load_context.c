#include "load_context.h"

#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#define TEXT 900

void
context_error(
    struct load_context *r, struct place place, const char *format, ...)
{
    char text[TEXT];
    va_list args;

    va_start(args, format);
    vsnprintf(text, sizeof text, format, args);
    va_end(args);
    problems_add(r->problems, PROBLEM_ERROR, place, "%s", text);
}

void
context_warning(
    struct load_context *r, struct place place, const char *format, ...)
{
    char text[TEXT];
    va_list args;

    va_start(args, format);
    vsnprintf(text, sizeof text, format, args);
    va_end(args);
    problems_add(r->problems, PROBLEM_WARNING, place, "%s", text);
}

int
context_refuse(struct load_context *r, struct entry *e, struct place place,
    const char *format, ...)
{
    char text[TEXT];
    va_list args;

    va_start(args, format);
    vsnprintf(text, sizeof text, format, args);
    va_end(args);
    problems_add(r->problems, PROBLEM_ERROR, place, "'%s': %s", e->key, text);
    e->refused = 1;
    return -1;
}

void *
context_take(struct load_context *r, size_t size)
{
    void *taken = arena_take(r->arena, size);

    if (taken == NULL)
        r->document->out_of_memory = 1;
    return taken;
}

/* A value may go on over lines, for people; most values are one text. */
const char *
context_text(struct load_context *r, struct entry *e)
{
    size_t size = 1;

    for (const struct value_line *l = e->lines; l != NULL; l = l->next)
        size += strlen(l->text) + 1;
    char *text = context_take(r, size);
    char *at = text;
    if (text == NULL)
        return NULL;
    for (const struct value_line *l = e->lines; l != NULL; l = l->next) {
        if (l != e->lines)
            *at++ = ' ';
        at = stpcpy(at, l->text);
    }
    return text;
}

char *
context_copy(struct load_context *r, const char *text, size_t len)
{
    char *taken = arena_text(r->arena, text, len);

    if (taken == NULL)
        r->document->out_of_memory = 1;
    return taken;
}

void
context_add_holiday(
    struct load_context *r, struct holidays *h, day_t day, const char *name)
{
    size_t n = h->set.n_added;

    if (n == h->size_added) {
        size_t size = n ? n * 2 : 16;
        void *added = arena_grow(r->arena, h->added, n, size, sizeof *h->added);
        if (added == NULL) {
            r->document->out_of_memory = 1;
            return;
        }
        h->set.added = h->added = added;
        h->size_added = size;
    }
    h->added[h->set.n_added++] = (struct named_day){day, name};
}

int
context_is_kept(const struct load_context *r, const struct holidays *h)
{
    for (const struct section *s = r->document->sections; s; s = s->next) {
        const struct calendar *c = s->object;
        for (size_t i = 0;
             s->kind == SECTION_CALENDAR && i < c->plan.n_holidays; i++)
            if (c->plan.holidays[i] == &h->set)
                return 1;
    }
    return 0;
}

/* A calendar is not in the arena, so it is listed to be freed with the
 * fleet. */
struct work_calendar *
context_keep(struct load_context *r, struct work_calendar *c,
    const struct work_calendar *a, const struct work_calendar *b)
{
    struct made_calendar *kept = context_take(r, sizeof *kept);

    if (c == NULL || kept == NULL) {
        r->document->out_of_memory = 1;
        work_calendar_free(c);
        return NULL;
    }
    *kept = (struct made_calendar){c, a, b, r->calendars};
    r->calendars = kept;
    return c;
}

static const char *
group_words(enum section_kind kind)
{
    return section_group(kind) == SECTION_VEHICLE
               ? "vehicle, equipment or driver"
               : section_word(kind);
}

struct section *
context_find(struct load_context *r, struct entry *e, struct place place,
    enum section_kind kind, const char *id)
{
    struct section *found = document_find(r->document, kind, id);

    if (found != NULL)
        return found;
    const char *near = document_nearest(r->document, kind, id);
    if (near != NULL)
        context_refuse(r, e, place, "there is no %s '%s'; did you mean '%s'?",
            group_words(kind), id, near);
    else
        context_refuse(r, e, place,
            "there is no %s '%s'; correct it or add its section",
            group_words(kind), id);
    return NULL;
}
