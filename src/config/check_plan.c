#include "check.h"

/* What cannot be planned, however much room there is. */

/* Once for each job and place; the first subject to have it so is named. */
static int
is_said(const struct load_context *r, size_t at)
{
    const struct task *t = &r->fleet->tasks[at];

    for (size_t i = 0; i < at; i++) {
        const struct task *other = &r->fleet->tasks[i];
        if (other->job == t->job && other->rule->takes == t->rule->takes &&
            fleet_workplace(other) == fleet_workplace(t))
            return 1;
    }
    return 0;
}

/* Work that is longer than the day of its place would never find a day. */
static void
check_work(struct load_context *r, size_t at)
{
    const struct task *t = &r->fleet->tasks[at];
    const struct workplace *place = fleet_workplace(t);

    if (place == NULL || place->minutes == 0 ||
        t->rule->takes <= place->minutes || is_said(r, at))
        return;
    context_error(r, r->defs[t->subject->index].section->place,
        "%s has '%s', which takes %lld minutes, and '%s' has %lld minutes a "
        "day; correct 'takes' or 'hours-a-day'",
        r->defs[t->subject->index].section->title, t->job->id,
        (long long)t->rule->takes, place->id, (long long)place->minutes);
}

void
check_works(struct load_context *r)
{
    for (size_t i = 0; i < r->fleet->n_tasks; i++)
        check_work(r, i);
}

void
check_limit(
    struct load_context *r, const struct section *s, const struct away_limit *l)
{
    const struct entry *of = section_entry(s, "of");
    const struct entry *away = section_entry(s, "away");

    if (of == NULL || of->refused || away == NULL || away->refused)
        return;
    if ((size_t)l->away >= l->n_of)
        context_warning(r, away->place,
            "'away': all %zu of its vehicles may be away, so this limits "
            "nothing",
            l->n_of);
}
