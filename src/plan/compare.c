#include "compare.h"

#include "plan_problem.h"

#include <stdlib.h>

/* Walking two plans side by side. */
struct walk {
    const struct fleet_plan *of;
    const struct plan_booking *const *at;
    size_t left;
};

int
compare_is_late(const struct plan_booking *b)
{
    return b != NULL && plan_is_late(b);
}

static struct walk
walk_of(const struct fleet_plan *a)
{
    size_t n;
    const struct plan_booking *const *at = fleet_plan_by_task(a, &n);

    return (struct walk){a, at, n};
}

static const struct plan_booking *
take(struct walk *w)
{
    w->left--;
    return *w->at++;
}

/* Below 0 when the next of @a comes first, above when that of @b does. */
static int
order(const struct walk *a, const struct walk *b)
{
    if (a->left == 0 || b->left == 0)
        return a->left == 0 ? 1 : -1;
    const struct task *left = fleet_plan_task(a->of, (*a->at)->work);
    const struct task *right = fleet_plan_task(b->of, (*b->at)->work);
    if (left != right)
        return plan_problem_order(left, right);
    if ((*a->at)->cycle != (*b->at)->cycle)
        return (*a->at)->cycle < (*b->at)->cycle ? -1 : 1;
    return 0;
}

static void
count(struct comparison *c, const struct difference *d)
{
    int before = compare_is_late(d->before);
    int after = compare_is_late(d->after);

    c->late_before += (size_t)before;
    c->late_after += (size_t)after;
    c->newly_late += after && !before;
    if (d->before == NULL)
        c->added++;
    else if (d->after == NULL)
        c->gone++;
    else if (d->before->day != d->after->day)
        c->moved++;
    else
        return;
    c->list[c->n++] = *d;
}

int
compare_plans(const struct fleet_plan *before, const struct fleet_plan *after,
    struct comparison *out)
{
    struct walk a = walk_of(before);
    struct walk b = walk_of(after);

    *out = (struct comparison){
        .list = malloc((a.left + b.left + 1) * sizeof *out->list)};
    if (out->list == NULL)
        return -1;
    while (a.left > 0 || b.left > 0) {
        int first = order(&a, &b);
        struct difference d = {NULL, NULL, NULL};
        if (first <= 0) {
            d.before = take(&a);
            d.task = fleet_plan_task(before, d.before->work);
        }
        if (first >= 0) {
            d.after = take(&b);
            d.task = fleet_plan_task(after, d.after->work);
        }
        count(out, &d);
    }
    return 0;
}
