#include "plan_problem.h"

#include "cover.h"
#include "step.h"

#include <stdlib.h>
#include <string.h>

/* More than the planner itself allows. */
#define AFTER 200

/* The last day on which anything may still be placed: some months after the
 * plan's own end. */
static day_t
horizon(const struct fleet_plan *a)
{
    return day_earlier(step_days(a->options.until, AFTER), DAY_LAST);
}

const struct subject *
plan_problem_root(const struct subject *s)
{
    while (s->carrier != NULL)
        s = s->carrier;
    return s;
}

static int
is_sold(const struct fleet_plan *a, const struct subject *s)
{
    for (; s != NULL; s = s->carrier)
        for (size_t i = 0; i < a->options.n_changes; i++)
            if (a->options.changes[i].kind == CHANGE_SOLD &&
                a->options.changes[i].subject == s)
                return 1;
    return 0;
}

/* Places, subjects, limits: each begins with its id. */
static int
by_id(const void *left, const void *right)
{
    const char *const *a = *(const char *const *const *)left;
    const char *const *b = *(const char *const *const *)right;

    return strcmp(*a, *b);
}

/* The @n places, subjects or limits at @list, of @each bytes, by their ids: no
 * plan goes by the order of the file.  NULL when memory is out. */
static const void **
in_order(struct fleet_plan *a, const void *list, size_t n, size_t each)
{
    const void **order = arena_take(a->arena, (n + 1) * sizeof *order);

    if (order == NULL)
        return NULL;
    for (size_t i = 0; i < n; i++)
        order[i] = (const char *)list + i * each;
    qsort(order, n, sizeof *order, by_id);
    return order;
}

/* The last of the changes to one place wins. */
static void
change_place(const struct fleet_plan *a, const struct workplace *of,
    struct plan_place *p)
{
    for (size_t i = 0; i < a->options.n_changes; i++) {
        const struct change *c = &a->options.changes[i];
        if (c->place != of)
            continue;
        if (c->kind == CHANGE_VEHICLES)
            p->vehicles = c->amount;
        else if (c->kind == CHANGE_MINUTES)
            p->minutes = c->amount;
    }
}

/* The fleet's places, and one more for work that names none. */
static int
make_places(struct fleet_plan *a)
{
    const struct fleet *f = a->facts->fleet;
    struct plan_place *places =
        arena_take(a->arena, (f->n_workplaces + 1) * sizeof *places);
    const void **order =
        in_order(a, f->workplaces, f->n_workplaces, sizeof *f->workplaces);

    a->place_of =
        arena_take(a->arena, (f->n_workplaces + 1) * sizeof *a->place_of);
    if (places == NULL || order == NULL || a->place_of == NULL)
        return -1;
    for (size_t i = 0; i < f->n_workplaces; i++) {
        const struct workplace *w = order[i];
        a->place_of[w - f->workplaces] = i;
        places[i] =
            (struct plan_place){w->title, (int)w->vehicles, (int)w->minutes};
        change_place(a, w, &places[i]);
    }
    places[f->n_workplaces] = (struct plan_place){"anywhere", 0, 0};
    a->problem.places = places;
    a->problem.n_places = f->n_workplaces + 1;
    return 0;
}

/* A unit for each subject that something comes for. */
static int
make_units(struct fleet_plan *a, size_t *unit_of)
{
    const struct fleet *f = a->facts->fleet;
    struct plan_unit *units =
        arena_take(a->arena, (f->n_subjects + 1) * sizeof *units);
    const void **order =
        in_order(a, f->subjects, f->n_subjects, sizeof *f->subjects);

    a->subjects =
        arena_take(a->arena, (f->n_subjects + 1) * sizeof *a->subjects);
    if (units == NULL || order == NULL || a->subjects == NULL)
        return -1;
    for (size_t i = 0; i < f->n_subjects; i++) {
        const struct subject *s = order[i];
        if (s->carrier != NULL)
            continue;
        unit_of[s->index] = a->problem.n_units;
        a->subjects[a->problem.n_units] = s;
        units[a->problem.n_units++] = (struct plan_unit){.name = s->id};
    }
    a->problem.units = a->units = units;
    return 0;
}

/* Days on which work cannot be done, over and above its calendar. */

/* What is due before the return is done in the spell, and so is what is
 * overdue; nothing else is. */
static int
waits_for_return(struct fleet_plan *a, size_t at)
{
    struct forward_call c;

    return forward_call(a->forward, at, NULL, 0, &c) == 1 &&
           c.state != DUE_BEFORE_RETURN &&
           (c.deadline == DAY_NONE || c.deadline >= a->options.today);
}

static int
is_changed_shut(const struct fleet_plan *a, const struct workplace *p, day_t d)
{
    for (size_t i = 0; i < a->options.n_changes; i++) {
        const struct change *c = &a->options.changes[i];
        int applies = c->kind == CHANGE_HOLIDAY ||
                      (c->kind == CHANGE_SHUT && c->place == p);
        if (applies && c->from <= d && d <= c->to)
            return 1;
    }
    return 0;
}

/* The days to take out of the calendar of a task, into @out: how many.  Sets
 * @by_road when some of them are for being off the road. */
static size_t
find_closed(
    struct fleet_plan *a, size_t at, struct named_day *out, int *by_road)
{
    const struct task *t = &a->facts->fleet->tasks[at];
    const struct workplace *place = fleet_workplace(t);
    int waits = waits_for_return(a, at);
    size_t n = 0;

    *by_road = 0;
    for (day_t d = a->options.today; d <= horizon(a); d++) {
        int road = waits && forward_is_off_road(a->forward, at, d);
        if (!work_calendar_is_open(t->calendar, d) ||
            !(road || is_changed_shut(a, place, d)))
            continue;
        out[n++] = (struct named_day){d, "off the road, or shut"};
        *by_road |= road;
    }
    return n;
}

static struct work_calendar *
find_cut(const struct fleet_plan *a, const struct cut_calendar *key)
{
    for (const struct cut_calendar *c = a->cut; c != NULL; c = c->next)
        if (c->of == key->of && c->place == key->place && c->root == key->root)
            return c->made;
    return NULL;
}

/* Keep @c, which may be NULL, with the plan. */
static struct work_calendar *
keep(struct fleet_plan *a, struct work_calendar *c, struct cut_calendar key)
{
    struct cut_calendar *kept = arena_take(a->arena, sizeof *kept);

    if (c == NULL || kept == NULL) {
        work_calendar_free(c);
        return NULL;
    }
    *kept = key;
    kept->made = c;
    kept->next = a->cut;
    a->cut = kept;
    return c;
}

static struct work_calendar *
without(
    const struct work_calendar *of, const struct named_day *closed, size_t n)
{
    struct work_calendar *others =
        work_calendar_new(&(struct work_calendar_plan){
            .works = WEEKDAYS_ALL, .closed = closed, .n_closed = n});
    struct work_calendar *both = others ? work_calendar_both(of, others) : NULL;

    work_calendar_free(others);
    return both;
}

/* The calendar of the task at @at of the fleet without the days that facts and
 * changes take out of it; NULL when memory is out. */
static const struct work_calendar *
calendar(struct fleet_plan *a, size_t at)
{
    const struct task *t = &a->facts->fleet->tasks[at];

    if (a->options.n_changes == 0 && !forward_has_spells(a->forward, at))
        return t->calendar;
    size_t days = (size_t)(horizon(a) - a->options.today) + 1;
    struct named_day *closed = malloc(days * sizeof *closed);
    int by_road;

    if (closed == NULL)
        return NULL;
    size_t n = find_closed(a, at, closed, &by_road);
    struct cut_calendar key = {.of = t->calendar,
        .place = fleet_workplace(t),
        .root = by_road ? plan_problem_root(t->subject) : NULL};
    const struct work_calendar *found = n ? find_cut(a, &key) : t->calendar;
    if (found == NULL)
        found = keep(a, without(t->calendar, closed, n), key);
    free(closed);
    return found;
}

/*
 * A vehicle off the road is away already: on those days the rest may be fewer,
 * and what is done on it meanwhile costs nobody.  A limit is therefore posed
 * once for each run of days on which the same vehicles are off.
 */
struct away_run {
    day_t from;
    day_t to;
    unsigned char *off; /* for each vehicle of the limit */
    int n_off;
};

static int
find_off(struct fleet_plan *a, const struct away_limit *l, day_t d,
    unsigned char *off)
{
    int n = 0;

    for (size_t i = 0; i < l->n_of; i++) {
        const struct subject *s = l->of[i];
        off[i] =
            s->n_tasks > 0 && forward_is_off_road(a->forward, s->first_task, d);
        n += off[i];
    }
    return n;
}

static int
away_of(const struct fleet_plan *a, const struct away_limit *l)
{
    int away = (int)l->away;

    for (size_t i = 0; i < a->options.n_changes; i++)
        if (a->options.changes[i].kind == CHANGE_AWAY &&
            a->options.changes[i].limit == l)
            away = a->options.changes[i].amount;
    return away;
}

/* Open on all days from @from to @to and no others. */
static struct work_calendar *
span_of_days(day_t from, day_t to)
{
    size_t n = (size_t)(to - from) + 1;
    day_t *open = malloc(n * sizeof *open);

    if (open == NULL)
        return NULL;
    for (size_t i = 0; i < n; i++)
        open[i] = from + (day_t)i;
    struct work_calendar *c = work_calendar_new(
        &(struct work_calendar_plan){.open = open, .n_open = n});
    free(open);
    return c;
}

/* The days of a run on which the limit holds; a whole plan's needs no calendar
 * of its own. */
static int
set_days(struct fleet_plan *a, const struct away_limit *l,
    const struct away_run *run, const struct work_calendar **on)
{
    const struct work_calendar *of = l->on ? l->on->calendar : NULL;
    struct cut_calendar key = {NULL, NULL, NULL, NULL, NULL};

    *on = of;
    if (run->from == a->options.today && run->to == horizon(a))
        return 0;
    struct work_calendar *days = span_of_days(run->from, run->to);
    if (days != NULL && of != NULL) {
        struct work_calendar *both = work_calendar_both(of, days);
        work_calendar_free(days);
        days = both;
    }
    *on = keep(a, days, key);
    return *on ? 0 : -1;
}

static struct plan_unit *
unit_named(struct fleet_plan *a, const struct subject *s)
{
    for (size_t i = 0; i < a->problem.n_units; i++)
        if (a->subjects[i] == s)
            return &a->units[i];
    return NULL;
}

static int
join(struct fleet_plan *a, struct plan_unit *u, size_t group)
{
    size_t *groups = arena_grow(
        a->arena, u->groups, u->n_groups, u->n_groups + 1, sizeof *groups);

    if (groups == NULL)
        return -1;
    groups[u->n_groups++] = group;
    u->groups = groups;
    return 0;
}

static int
pose(struct fleet_plan *a, const struct away_limit *l,
    const struct away_run *run)
{
    size_t n = a->problem.n_groups;
    struct plan_group *groups =
        arena_grow(a->arena, a->groups, n, n + 1, sizeof *groups);
    int away = away_of(a, l) - run->n_off;

    if (groups == NULL)
        return -1;
    groups[n] = (struct plan_group){l->title, NULL, away > 0 ? away : 0};
    if (set_days(a, l, run, &groups[n].on))
        return -1;
    a->problem.groups = a->groups = groups;
    a->problem.n_groups++;
    for (size_t i = 0; i < l->n_of; i++) {
        struct plan_unit *u = run->off[i] ? NULL : unit_named(a, l->of[i]);
        if (u != NULL && join(a, u, n))
            return -1;
    }
    return 0;
}

static int
pose_limit(struct fleet_plan *a, const struct away_limit *l)
{
    day_t last = horizon(a);
    unsigned char *off = arena_take(a->arena, 2 * l->n_of + 1);
    struct away_run run = {.from = a->options.today};

    if (off == NULL)
        return -1;
    run.off = off + l->n_of;
    run.n_off = find_off(a, l, run.from, run.off);
    for (day_t d = run.from + 1; d <= last; d++) {
        int n = find_off(a, l, d, off);
        if (memcmp(off, run.off, l->n_of) == 0)
            continue;
        run.to = d - 1;
        if (pose(a, l, &run))
            return -1;
        memcpy(run.off, off, l->n_of);
        run.n_off = n;
        run.from = d;
    }
    run.to = last;
    return pose(a, l, &run);
}

int
limits(struct fleet_plan *a)
{
    const struct fleet *f = a->facts->fleet;

    const void **order = in_order(a, f->limits, f->n_limits, sizeof *f->limits);

    if (order == NULL)
        return -1;
    for (size_t i = 0; i < f->n_limits; i++)
        if (pose_limit(a, order[i]))
            return -1;
    return 0;
}

/* Where the days of task @t begin in a list in their order; sets @n. */
static size_t
days_of(const struct fleet_plan_day *days, size_t n_days, const struct task *t,
    size_t *n)
{
    size_t first = 0;
    size_t end = n_days;

    while (first < end) {
        size_t middle = first + (end - first) / 2;
        if (days[middle].task < t)
            first = middle + 1;
        else
            end = middle;
    }
    *n = 0;
    while (first + *n < n_days && days[first + *n].task == t)
        ++*n;
    return first;
}

/* The same of what somebody booked, which is little. */
static size_t
fixed_of(const struct fleet_plan *a, const struct task *t, size_t *n)
{
    size_t first = 0;

    while (first < a->options.n_fixed && a->fixed[first].task < t)
        first++;
    *n = 0;
    while (first + *n < a->options.n_fixed && a->fixed[first + *n].task == t)
        ++*n;
    return first;
}

/* Work that somebody booked a day for waits for no other. */
static int
is_booked_now(const struct fleet_plan *a, const struct plan_task *w)
{
    for (size_t i = w->first_fixed; i < w->first_fixed + w->n_fixed; i++)
        if (a->fixed_for[i] == 0)
            return 1;
    return 0;
}

/* Nonzero when the wider job @t, to be done by @to and from @from on, comes
 * before the one that @w has. */
static int
is_sooner(const struct plan_task *w, const struct task *t, day_t from, day_t to)
{
    if (w->wider == NULL || to != w->wide_to)
        return w->wider == NULL || to < w->wide_to;
    if (from != w->wide_from)
        return from < w->wide_from;
    return strcmp(t->job->id, w->wider->job->id) < 0;
}

/* The first call of a wider job of the subject completes @w as well. */
static int
find_wider(struct fleet_plan *a, const struct cover *cover, struct plan_task *w)
{
    const struct fleet *f = a->facts->fleet;
    const unsigned char *by = cover_by(cover, w->task->job);
    const struct subject *s = w->task->subject;

    w->wide_from = w->wide_to = DAY_NONE;
    if (is_booked_now(a, w))
        return 0;
    for (size_t i = s->first_task; i < s->first_task + s->n_tasks; i++) {
        struct forward_call c;
        if (i == w->at || !by[f->tasks[i].job->index])
            continue;
        int rc = forward_call(a->forward, i, NULL, 0, &c);
        if (rc < 0)
            return -1;
        if (rc == 0 || c.no_return || c.deadline == DAY_NONE ||
            c.deadline > a->options.until)
            continue;
        day_t from = day_later(c.from, a->options.today);
        day_t to = day_later(c.deadline, a->options.today);
        if (!is_sooner(w, &f->tasks[i], from, to))
            continue;
        w->wide_from = from;
        w->wide_to = to;
        w->wider = &f->tasks[i];
    }
    return 0;
}

/* For which cycle each of the days is that somebody booked. */
static void
resolve_fixed(struct fleet_plan *a, const struct plan_task *w)
{
    for (size_t i = w->first_fixed; i < w->first_fixed + w->n_fixed; i++)
        a->fixed_for[i] = forward_booked(a->forward, w->at, &a->fixed[i]);
}

/* A day that was said for the present call @c and has passed: the booked one,
 * else the first that an earlier plan had for it. */
static day_t
passed_day(const struct fleet_plan *a, const struct plan_task *w,
    const struct forward_call *c)
{
    day_t today = a->options.today;

    for (size_t i = w->first_fixed + w->n_fixed; i > w->first_fixed; i--)
        if (a->fixed_for[i - 1] == 0)
            return a->fixed[i - 1].day < today ? a->fixed[i - 1].day : DAY_NONE;
    for (size_t i = w->first_kept; i < w->first_kept + w->n_kept; i++) {
        day_t d = a->kept[i].day;
        if (d < today && d >= c->from && d <= c->deadline)
            return d;
    }
    return DAY_NONE;
}

/* What failed is then said of the call that the wider job completes, not of the
 * first one with a booking, which is the next. */
static int
note_covered(
    struct fleet_plan *a, struct plan_task *w, const struct forward_call *c)
{
    int covered = plan_problem_is_covered(a, w, c);

    if (covered != 1)
        return covered;
    a->covered[a->n_covered++] =
        (struct fleet_plan_covered){w->task, w->wider, c->deadline, w->failed};
    w->failed = DAY_NONE;
    return 0;
}

static int
note_undated(
    struct fleet_plan *a, const struct task *t, const struct forward_call *c)
{
    if (!c->no_return && c->deadline != DAY_NONE)
        return 0;
    a->undated[a->n_undated++] =
        (struct fleet_plan_undated){t, c->state, c->no_return, c->failed};
    return 1;
}

static size_t
place_of(const struct fleet_plan *a, const struct task *t)
{
    const struct fleet *f = a->facts->fleet;
    const struct workplace *w = fleet_workplace(t);

    return w ? a->place_of[w - f->workplaces] : f->n_workplaces;
}

static int
add_work(
    struct fleet_plan *a, const struct cover *cover, size_t at, size_t unit)
{
    const struct fleet *f = a->facts->fleet;
    const struct task *t = &f->tasks[at];
    struct plan_task *w = &a->works[a->problem.n_works];
    struct forward_call c;
    int rc = forward_call(a->forward, at, NULL, 0, &c);

    if (rc <= 0 || note_undated(a, t, &c))
        return rc < 0 ? -1 : 0;
    *w = (struct plan_task){
        .task = t, .at = at, .now = c.cycle, .failed = c.failed};
    w->first_fixed = fixed_of(a, t, &w->n_fixed);
    resolve_fixed(a, w);
    w->first_kept = days_of(a->kept, a->options.n_kept, t, &w->n_kept);
    w->passed = passed_day(a, w, &c);
    if (find_wider(a, cover, w) || note_covered(a, w, &c))
        return -1;
    a->work_of[at] = a->problem.n_works;
    struct plan_work *work = &a->posed[a->problem.n_works++];
    *work = (struct plan_work){
        .unit = unit,
        .place = place_of(a, t),
        .minutes = (int)t->rule->takes,
        .stays = t->rule->stays == VEHICLE_STAYS ||
                 t->subject->kind == SUBJECT_DRIVER,
        .open = calendar(a, at),
    };
    return work->open ? 0 : -1;
}

int
plan_problem_order(const struct task *a, const struct task *b)
{
    int order = strcmp(a->subject->id, b->subject->id);

    return order ? order : strcmp(a->job->id, b->job->id);
}

static int
by_subject_and_job(const void *left, const void *right)
{
    return plan_problem_order(
        *(const struct task *const *)left, *(const struct task *const *)right);
}

/* A work for each task that is called for, in an order that does not go by that
 * of the file: of days that are as good, the order decides which one it is. */
static int
make_works(
    struct fleet_plan *a, const struct cover *cover, const size_t *unit_of)
{
    const struct fleet *f = a->facts->fleet;
    const struct task **order =
        arena_take(a->arena, (f->n_tasks + 1) * sizeof *order);

    a->work_of = arena_take(a->arena, (f->n_tasks + 1) * sizeof *a->work_of);
    a->works = arena_take(a->arena, (f->n_tasks + 1) * sizeof *a->works);
    a->undated = arena_take(a->arena, (f->n_tasks + 1) * sizeof *a->undated);
    a->covered = arena_take(a->arena, (f->n_tasks + 1) * sizeof *a->covered);
    a->problem.works = a->posed =
        arena_take(a->arena, (f->n_tasks + 1) * sizeof *a->posed);
    if (a->works == NULL || a->undated == NULL || a->covered == NULL ||
        a->posed == NULL || a->work_of == NULL || order == NULL)
        return -1;
    for (size_t i = 0; i < f->n_tasks; i++) {
        order[i] = &f->tasks[i];
        a->work_of[i] = FLEET_PLAN_NO_WORK;
    }
    qsort(order, f->n_tasks, sizeof *order, by_subject_and_job);
    for (size_t i = 0; i < f->n_tasks; i++) {
        const struct subject *s = order[i]->subject;
        if (!is_sold(a, s) && add_work(a, cover, (size_t)(order[i] - f->tasks),
                                  unit_of[plan_problem_root(s)->index]))
            return -1;
    }
    return 0;
}

int
plan_problem_make(struct fleet_plan *a)
{
    const struct fleet *f = a->facts->fleet;
    struct cover *cover = cover_new(f);
    size_t *unit_of =
        arena_take(a->arena, (f->n_subjects + 1) * sizeof *unit_of);
    int rc = -1;

    a->problem.today = a->options.today;
    a->problem.until = a->options.until;
    a->problem.next = plan_problem_next;
    a->problem.with = a;
    if (cover != NULL && unit_of != NULL && make_places(a) == 0 &&
        make_units(a, unit_of) == 0 && limits(a) == 0)
        rc = make_works(a, cover, unit_of);
    cover_free(cover);
    return rc;
}
