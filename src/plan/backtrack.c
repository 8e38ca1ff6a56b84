#include "backtrack.h"

#include "choose.h"

#include <stdlib.h>

/* The most works that are worked out together, the most days that are tried for
 * them, and the most calls that they can have between them. */
#define WORKS_MOST 64
#define TRIES_FIRST 200
#define TRIES_MOST 60000
#define DEPTH_MOST 2000

struct search {
    const struct plan_problem *problem;
    struct schedule *t;
    size_t works[WORKS_MOST];
    long blame[WORKS_MOST]; /* how often each had no day left, and 1 */
    size_t n;
    int tries;   /* left in this round, and */
    long *looks; /* at single days altogether */
    int depth;
};

#define LATE_TOO 3

/* How near a work is to a call. */
struct nearness {
    size_t work;
    int kin;    /* 0 for the same unit, 1 for what shares a limit, 2 for the
                   others, and LATE_TOO, which is left alone */
    day_t away; /* how many days lie between them */
};

static int
shares_group(const struct plan_unit *a, const struct plan_unit *b)
{
    for (size_t i = 0; i < a->n_groups; i++)
        for (size_t k = 0; k < b->n_groups; k++)
            if (a->groups[i] == b->groups[k])
                return 1;
    return 0;
}

static int
kin(const struct plan_problem *p, const struct plan_work *a,
    const struct plan_work *b)
{
    if (a->unit == b->unit)
        return 0;
    return a->place == b->place ||
                   shares_group(&p->units[a->unit], &p->units[b->unit])
               ? 1
               : 2;
}

static int
by_nearness(const void *left, const void *right)
{
    const struct nearness *a = left;
    const struct nearness *b = right;

    if (a->kin != b->kin)
        return a->kin - b->kin;
    if (a->away != b->away)
        return a->away < b->away ? -1 : 1;
    return (a->work > b->work) - (a->work < b->work);
}

static void
note_nearness(
    struct nearness *w, const struct item *item, const struct item *call)
{
    if (item->day == DAY_NONE)
        return;
    if (item->day > item->call.to && item->day != item->call.fixed)
        w->kin = LATE_TOO;
    w->away = day_earlier(w->away, abs(item->day - call->call.to));
}

/* The works in the order of nearness to item @i: the list is the caller's. */
static struct nearness *
rank_works(const struct plan_problem *p, const struct schedule *t, long i)
{
    struct nearness *near = calloc(p->n_works + 1, sizeof *near);
    const struct item *call = &t->items[i];
    const struct item *items = t->items;

    if (near == NULL)
        return NULL;
    for (size_t w = 0; w < p->n_works; w++)
        near[w] =
            (struct nearness){w, kin(p, call->work, &p->works[w]), DAY_LAST};
    for (size_t k = 0; k < t->n; k++)
        note_nearness(&near[items[k].work - p->works], &items[k], call);
    near[call->work - p->works] =
        (struct nearness){(size_t)(call->work - p->works), 0, -1};
    qsort(near, p->n_works, sizeof *near, by_nearness);
    return near;
}

static int
is_free_on(const struct search *s, const struct item *item, day_t d)
{
    return load_check(s->t->load, item->work, d).limit == PLAN_FREE;
}

static int
count_days(struct search *s, const struct item *item)
{
    day_t first = choose_from(s->t, item);
    int n = 0;

    for (day_t d = first; d <= item->call.to; d++)
        n += is_free_on(s, item, d);
    *s->looks -= item->call.to - first + 1;
    return n;
}

/* The waiting item with the fewest days left for how often it failed, as an
 * index of the works; or -1 when none waits. */
static long
scarcest(struct search *s, int *days)
{
    long best = -1;

    for (size_t k = 0; k < s->n; k++) {
        long i = s->t->newest[s->works[k]];
        if (i < 0 || s->t->items[i].day != DAY_NONE)
            continue;
        const struct item *item = &s->t->items[i];
        int n = item->call.fixed == DAY_NONE ? count_days(s, item) : 1;
        if (best >= 0 && n * s->blame[best] >= *days * s->blame[k])
            continue;
        best = (long)k;
        *days = n;
    }
    return best;
}

/* What somebody booked stays, but passes no limit that it did not. */
static int
can_be_booked(const struct search *s, const struct item *item)
{
    struct hindrance h =
        load_check_open(s->t->load, item->work, item->call.fixed);

    return h.limit == PLAN_FREE;
}

static int assign(struct search *s);

static int
try_day(struct search *s, long i, day_t d)
{
    size_t mark = s->t->n_log;
    int rc = 0;

    if (s->depth < DEPTH_MOST && s->tries-- > 0 && *s->looks > 0)
        rc = schedule_put(s->t, i, d);
    s->depth++;
    if (rc == 1)
        rc = assign(s);
    s->depth--;
    if (rc != 1)
        schedule_back(s->t, mark);
    return rc;
}

/* A day for everything that waits: 1, 0 or -1. */
static int
assign(struct search *s)
{
    int days = 0;
    long k = scarcest(s, &days);
    int rc = 0;

    if (k < 0)
        return 1;
    if (days == 0) {
        s->blame[k]++;
        return 0;
    }
    long i = s->t->newest[s->works[k]];
    const struct item item = s->t->items[i];
    if (item.call.fixed != DAY_NONE)
        return can_be_booked(s, &item) ? try_day(s, i, item.call.fixed) : 0;
    day_t best = choose_day(s->t, i);
    rc = try_day(s, i, best);
    for (day_t d = item.call.to; d >= choose_from(s->t, &item) && rc == 0; d--)
        if (d != best && is_free_on(s, &item, d))
            rc = try_day(s, i, d);
    return rc;
}

/* The first call of the work of item @i. */
static long
first_of(const struct schedule *t, long i)
{
    while (t->items[i].previous >= 0)
        i = t->items[i].previous;
    return i;
}

/* Work the works that @s names out anew: 1, or 0 with nothing changed. */
static int
search_in(struct search *s)
{
    size_t mark = s->t->n_log;
    int rc = 0;

    for (size_t k = 0; k < s->n && rc == 0; k++) {
        long i = s->t->newest[s->works[k]];
        if (i >= 0)
            rc = schedule_withdraw(s->t, first_of(s->t, i));
    }
    for (int tries = TRIES_FIRST; tries<TRIES_MOST && * s->looks> 0 && rc == 0;
         tries *= 2) {
        s->tries = tries;
        rc = assign(s);
        if (s->tries > 0)
            break;
    }
    if (rc != 1)
        schedule_back(s->t, mark);
    return rc;
}

int
backtrack_item(
    const struct plan_problem *p, struct schedule *t, long i, long *looks)
{
    struct nearness *near = rank_works(p, t, i);
    struct search s = {.problem = p, .t = t, .looks = looks};
    int rc = 0;

    if (near == NULL)
        return -1;
    for (size_t most = 4; most <= WORKS_MOST && rc == 0; most *= 2) {
        while (s.n < most && s.n < p->n_works && near[s.n].kin != LATE_TOO) {
            s.works[s.n] = near[s.n].work;
            s.blame[s.n++] = 1;
        }
        rc = search_in(&s);
        if (s.n < most)
            break;
    }
    free(near);
    return rc;
}
