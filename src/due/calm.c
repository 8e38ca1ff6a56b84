#include "calm.h"

#include "arena.h"
#include "list.h"

#include <stdlib.h>
#include <string.h>
#include <strings.h>

struct calm {
    struct span length;
    enum calm_use use;
    struct arena *arena; /* of the texts */
    LIST(struct held) held;
    LIST(struct held) changes;
    int sorted; /* nonzero once held is in order */
    int failed;
};

struct calm *
calm_new(struct span length, enum calm_use use)
{
    struct calm *c = calloc(1, sizeof *c);

    if (c == NULL)
        return NULL;
    c->length = length;
    c->use = use;
    c->arena = arena_new();
    if (c->arena != NULL)
        return c;
    free(c);
    return NULL;
}

void
calm_free(struct calm *c)
{
    if (c == NULL)
        return;
    arena_free(c->arena);
    free(c->held.at);
    free(c->changes.at);
    free(c);
}

static const char *
copy(struct calm *c, const char *text)
{
    return arena_text(c->arena, text, strlen(text));
}

/* A copy whose texts are ours. */
static struct held
copy_of(struct calm *c, const struct held *h)
{
    struct held own = {copy(c, h->subject), copy(c, h->job), copy(c, h->cycle),
        h->meter, h->forecast};

    if (own.subject == NULL || own.job == NULL || own.cycle == NULL)
        c->failed = 1;
    return own;
}

void
calm_add(struct calm *c, const struct held *h)
{
    struct held own = copy_of(c, h);

    if (!c->failed && LIST_ADD(c->held, own))
        c->failed = 1;
    c->sorted = 0;
}

static int
by_name(const void *left, const void *right)
{
    const struct held *a = left;
    const struct held *b = right;
    int order = strcasecmp(a->subject, b->subject);

    if (order == 0)
        order = strcasecmp(a->job, b->job);
    if (order == 0)
        order = strcmp(a->cycle, b->cycle);
    return order != 0 ? order : (int)a->meter - (int)b->meter;
}

/* What is held under the name of @h, or NULL. */
static struct held *
find(struct calm *c, const struct held *h)
{
    if (c->held.n == 0 || c->failed)
        return NULL;
    if (!c->sorted)
        qsort(c->held.at, c->held.n, sizeof *c->held.at, by_name);
    c->sorted = 1;
    return bsearch(h, c->held.at, c->held.n, sizeof *c->held.at, by_name);
}

/* Nonzero for what may move to and fro. */
static int
is_forecast(const struct forecast *f)
{
    return f->basis != FORECAST_NONE && f->basis != FORECAST_REACHED;
}

static int
is_same(const struct forecast *a, const struct forecast *b)
{
    return a->basis == b->basis && a->early == b->early &&
           a->likely == b->likely && a->late == b->late;
}

/* To an earlier day at once: a calendar is never later than the forecast. */
static int
has_moved(const struct calm *c, enum forecast_day which,
    const struct forecast *from, const struct forecast *to)
{
    day_t before = due_forecast_day(which, from);
    day_t now = due_forecast_day(which, to);

    if (is_same(from, to))
        return 0;
    if (from->basis != to->basis || before == DAY_NONE || now == DAY_NONE)
        return 1;
    return now < before ||
           now >= step_span(before, c->length, 1, MONTH_END_CLAMP);
}

/* A limit is worked out twice where it is explained: what was noted of the same
 * just before, or NULL. */
static struct held *
noted(const struct calm *c, const struct held *h)
{
    size_t n = c->changes.n;

    for (size_t i = n > RULE_INTERVALS ? n - RULE_INTERVALS : 0; i < n; i++)
        if (by_name(&c->changes.at[i], h) == 0)
            return &c->changes.at[i];
    return NULL;
}

static void
note(struct calm *c, const struct held *h)
{
    struct held *before = noted(c, h);

    if (before != NULL) {
        before->forecast = h->forecast;
        return;
    }
    struct held own = copy_of(c, h);
    if (!c->failed && LIST_ADD(c->changes, own))
        c->failed = 1;
}

/* Held back while it has moved too little; otherwise it is what calendars show
 * from now on. */
void
calm_settle(struct calm *c, enum forecast_day which, struct held *h)
{
    struct held *before = find(c, h);

    if (!calm_settles(c) || !is_forecast(&h->forecast))
        return;
    if (before != NULL && !has_moved(c, which, &before->forecast, &h->forecast))
        h->forecast = before->forecast;
    else {
        note(c, h);
        if (before != NULL)
            before->forecast = h->forecast;
    }
}

day_t
calm_kept(struct calm *c, enum forecast_day which, const struct held *h)
{
    const struct held *held = find(c, h);

    if (held == NULL || !is_forecast(&h->forecast) ||
        has_moved(c, which, &held->forecast, &h->forecast))
        return DAY_NONE;
    day_t day = due_forecast_day(which, &held->forecast);
    return day == due_forecast_day(which, &h->forecast) ? DAY_NONE : day;
}

const struct held *
calm_changes(const struct calm *c, size_t *n)
{
    *n = c->changes.n;
    return c->changes.at;
}

int
calm_settles(const struct calm *c)
{
    return c != NULL && c->use == CALM_SETTLE;
}

struct span
calm_length(const struct calm *c)
{
    return c->length;
}

int
calm_failed(const struct calm *c)
{
    return c->failed;
}
