#include "choose.h"

#include "step.h"

static int
is_free(const struct schedule *t, const struct item *item, day_t d)
{
    return load_check(t->load, item->work, d).limit == PLAN_FREE;
}

day_t
choose_from(const struct schedule *t, const struct item *item)
{
    return day_later(item_opens(item), t->problem->today);
}

static int
in_window(const struct schedule *t, const struct item *item, day_t d)
{
    return d != DAY_NONE && d >= choose_from(t, item) && d <= item->call.to;
}

day_t
choose_together(const struct schedule *t, long i, day_t but)
{
    const struct item *item = &t->items[i];
    day_t best = DAY_NONE;

    for (long k = t->of[item->work->unit]; k >= 0;) {
        const struct item *other = &t->items[k];
        day_t d = other->day;
        k = other->akin;
        if (other == item || other->work->place != item->work->place)
            continue;
        if (in_window(t, item, d) && d != but && day_later(best, d) == d &&
            is_free(t, item, d))
            best = d;
    }
    return best;
}

/* The least busy free day of the seven up to @last; of equals the last. */
static day_t
choose_in_week(
    const struct schedule *t, const struct item *item, day_t first, day_t last)
{
    day_t best = DAY_NONE;
    long least = 0;

    for (day_t d = last; d >= first && d > last - 7; d--) {
        if (!is_free(t, item, d))
            continue;
        long weight = load_weight(t->load, item->work, d);
        if (best == DAY_NONE || weight < least) {
            best = d;
            least = weight;
        }
    }
    return best;
}

static day_t
choose_alone(const struct schedule *t, const struct item *item)
{
    day_t first = choose_from(t, item);

    for (day_t d = item->call.to; d >= first; d--)
        if (is_free(t, item, d))
            return choose_in_week(t, item, first, d);
    return DAY_NONE;
}

day_t
choose_kept(const struct schedule *t, long i)
{
    const struct item *item = &t->items[i];
    day_t d = schedule_held(t, item);

    return in_window(t, item, d) && is_free(t, item, d) ? d : DAY_NONE;
}

day_t
choose_kept_late(const struct schedule *t, long i)
{
    const struct item *item = &t->items[i];
    day_t d = schedule_held(t, item);

    return d > item->call.to && d >= choose_from(t, item) && is_free(t, item, d)
               ? d
               : DAY_NONE;
}

day_t
choose_day(const struct schedule *t, long i)
{
    const struct item *item = &t->items[i];
    day_t planned = choose_kept(t, i);

    if (item->call.fixed != DAY_NONE)
        return item->call.fixed;
    if (planned != DAY_NONE)
        return planned;
    day_t together = choose_together(t, i, DAY_NONE);
    return together != DAY_NONE ? together : choose_alone(t, item);
}

day_t
choose_sooner(const struct schedule *t, long i)
{
    const struct item *item = &t->items[i];
    day_t first =
        day_later(item->call.from - item->call.sooner, t->problem->today);
    day_t d = day_earlier(item->call.from - 1, item->call.to);

    for (; d >= first; d--)
        if (is_free(t, item, d))
            return d;
    return DAY_NONE;
}

day_t
choose_late(const struct schedule *t, long i)
{
    const struct item *item = &t->items[i];
    day_t d = day_later(step_days(item->call.to, 1), choose_from(t, item));

    for (; d <= t->last; d++)
        if (is_free(t, item, d))
            return d;
    return DAY_NONE;
}
