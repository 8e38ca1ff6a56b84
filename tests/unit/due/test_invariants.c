/*
 * What must hold whatever a fleet looks like, and that no calculator is needed
 * to see: what one more record may do to a due, and what it may not.
 *
 * SEED=n takes other fleets, FLEETS=n so many.  A failure shows the smallest
 * fleet found that still breaks the rule.
 */
#include "fixture.h"
#include "random_fleet.h"
#include "shown_fleet.h"
#include "test.h"

#define TODAY day_of(2026, 1, 1)
#define EXTRAS 12       /* records tried on each fleet */
#define EXTRA_ID 100000 /* entered after all others */

/* What is to be seen of a due. */
struct seen {
    int there;
    int no_return;
    enum due_state state;
    day_t deadline;
    day_t plan_day;
    day_t book_by;
    day_t last_done;
    int64_t record;
    day_t start;
};

/* A fleet, one record more, and for some rules another day for it. */
struct trial {
    struct random_fleet *fleet;
    struct record extra;
    day_t other_day;
    char broken[200]; /* what does not hold, and of which task */
};

/* Nonzero when it holds; else says in @broken what does not. */
typedef int invariant(struct trial *t);

static int
breaks(
    struct trial *t, size_t task, const char *what, day_t before, day_t after)
{
    const struct task *of = &t->fleet->w->tasks[task];

    snprintf(t->broken, sizeof t->broken, "%s %s: %s, %s before, %s after",
        of->subject->id, of->job->id, what,
        day_text(before, (char[DAY_TEXT]){0}),
        day_text(after, (char[DAY_TEXT]){0}));
    return 0;
}

/* Every due as things stand, by its task. */
static void
look(struct world *w, struct seen *out)
{
    size_t n;

    world_snapshot_to(w, TODAY, DAY_NONE);
    const struct due *dues = snapshot_dues(w->snapshot, &n);
    for (size_t i = 0; i < w->n_tasks; i++)
        out[i] = (struct seen){.deadline = DAY_NONE,
            .plan_day = DAY_NONE,
            .book_by = DAY_NONE,
            .last_done = DAY_NONE};
    for (size_t i = 0; i < n; i++) {
        const struct due *d = &dues[i];
        out[d->task - w->grouped] =
            (struct seen){1, d->no_return, d->state, d->deadline, d->plan_day,
                d->book_by, d->last_done, d->cycle.record, d->cycle.start};
    }
}

/* The same with that record as well. */
static void
look_with(struct world *w, const struct record *extra, struct seen *out)
{
    assert_true(w->n_records < WORLD_RECORDS);
    w->records[w->n_records++] = *extra;
    look(w, out);
    w->n_records--;
}

/* What the words of the manual say of two jobs: not the program's own table. */
static int
covers(const struct job *wide, const struct job *narrow)
{
    if (wide == narrow)
        return 1;
    for (size_t i = 0; i < wide->n_covers; i++)
        if (covers(wide->covers[i], narrow))
            return 1;
    return 0;
}

static int
calls_for(const struct job *done, const struct job *job)
{
    for (size_t i = 0; i < job->n_follows; i++)
        if (covers(done, job->follows[i]))
            return 1;
    return 0;
}

static int
goes_by_meter(const struct task *t)
{
    return has_meter(t->rule, METER_DISTANCE) ||
           has_meter(t->rule, METER_HOURS);
}

static int
is_done(const struct record *k)
{
    return k->kind == RECORD_COMPLETED;
}

/* Nonzero when @k is work that is done of @t. */
static int
does(const struct record *k, const struct task *t)
{
    return is_done(k) && k->subject == t->subject && covers(k->job, t->job);
}

/* Nonzero when @k bears on the days of @t in any way. */
static int
bears_on(const struct record *k, const struct task *t)
{
    const struct job *also = t->job->also_counts.job;

    switch (k->kind) {
    case RECORD_COMPLETED:
        return k->subject == t->subject &&
               (covers(k->job, t->job) || calls_for(k->job, t->job) ||
                   (also != NULL && covers(k->job, also)));
    case RECORD_FAILED: /* what is not called for is due since it failed */
        return k->subject == t->subject && k->job == t->job &&
               (t->job->n_follows > 0 || kind_never_due(t->rule));
    case RECORD_READING:
    case RECORD_REPLACED:
        return k->subject == t->subject && goes_by_meter(t);
    case RECORD_OFF_ROAD:
        return k->subject == t->subject || t->subject->carrier != NULL;
    case RECORD_MOVED:
        return k->subject == t->subject;
    default:
        break;
    }
    return 1;
}

/* The newest day on which @t was done, by a record or by the fleet file. */
static day_t
newest_done(const struct world *w, const struct task *t)
{
    day_t day = DAY_NONE;

    for (size_t i = 0; i < w->n_records; i++)
        if (does(&w->records[i], t))
            day = day_later(day, w->records[i].day);
    for (size_t i = 0; i < w->n_tasks; i++)
        if (w->tasks[i].subject == t->subject &&
            covers(w->tasks[i].job, t->job))
            day = day_later(day, w->tasks[i].baseline.last);
    return day;
}

/* Nonzero when something called for @t after @day. */
static int
called_after(const struct world *w, const struct task *t, day_t day)
{
    for (size_t i = 0; i < w->n_records; i++) {
        const struct record *k = &w->records[i];
        if (is_done(k) && k->subject == t->subject && k->day > day &&
            calls_for(k->job, t->job) && !covers(k->job, t->job))
            return 1;
    }
    return 0;
}

static int
is_later(day_t before, day_t after)
{
    return before != DAY_NONE && (after == DAY_NONE || after > before);
}

/*
 * 1. No open obligation disappears but by its own completion, and that ends
 *    only what was called for by then.
 */
static int
nothing_open_disappears(struct trial *t)
{
    struct world *w = t->fleet->w;
    struct seen before[WORLD_TASKS];
    struct seen after[WORLD_TASKS];

    look(w, before);
    look_with(w, &t->extra, after);
    for (size_t i = 0; i < w->n_tasks; i++) {
        const struct task *of = &w->tasks[i];
        if (!before[i].there || after[i].there)
            continue;
        int once = of->job->n_follows > 0 || kind_never_due(of->rule);
        if (!once || !does(&t->extra, of))
            return breaks(
                t, i, "the due is gone", before[i].deadline, DAY_NONE);
        if (called_after(w, of, t->extra.day))
            return breaks(t, i, "done before it was called for",
                before[i].deadline, DAY_NONE);
    }
    return 1;
}

/* 2. What has nothing to do with a due changes none of its days. */
static int
the_unrelated_changes_nothing(struct trial *t)
{
    struct world *w = t->fleet->w;
    struct seen before[WORLD_TASKS];
    struct seen after[WORLD_TASKS];

    look(w, before);
    look_with(w, &t->extra, after);
    for (size_t i = 0; i < w->n_tasks; i++) {
        const struct seen *a = &before[i];
        const struct seen *b = &after[i];
        if (bears_on(&t->extra, &w->tasks[i]) || !a->there || !b->there)
            continue;
        if (a->deadline != b->deadline)
            return breaks(t, i, "deadline", a->deadline, b->deadline);
        if (a->plan_day != b->plan_day)
            return breaks(t, i, "plan day", a->plan_day, b->plan_day);
        if (a->book_by != b->book_by)
            return breaks(t, i, "book-by day", a->book_by, b->book_by);
        if (a->last_done != b->last_done)
            return breaks(t, i, "last done", a->last_done, b->last_done);
        if (a->record != b->record || a->start != b->start)
            return breaks(t, i, "cycle", a->start, b->start);
    }
    return 1;
}

/* 3. Calling once more for what is open makes it no later. */
static int
a_second_trigger_makes_nothing_later(struct trial *t)
{
    struct world *w = t->fleet->w;
    struct seen before[WORLD_TASKS];
    struct seen after[WORLD_TASKS];

    if (!is_done(&t->extra))
        return 1;
    look(w, before);
    look_with(w, &t->extra, after);
    for (size_t i = 0; i < w->n_tasks; i++) {
        const struct task *of = &w->tasks[i];
        if (before[i].there && calls_for(t->extra.job, of->job) &&
            !does(&t->extra, of) && !goes_by_meter(of) &&
            is_later(before[i].deadline, after[i].deadline))
            return breaks(
                t, i, "deadline", before[i].deadline, after[i].deadline);
    }
    return 1;
}

/* Nonzero when only the newest completion counts. */
static int
runs_from_newest(const struct rule *r)
{
    for (int i = 0; i < r->n_every; i++)
        if (kind_is_calendar_rule(&r->every[i]) ||
            kind_looks_back(&r->every[i]))
            return 0;
    return r->runs_from == FROM_COMPLETION;
}

/* 4. Where the last completion decides, an older one changes nothing. */
static int
older_work_changes_nothing(struct trial *t)
{
    struct world *w = t->fleet->w;
    struct seen before[WORLD_TASKS];
    struct seen after[WORLD_TASKS];

    look(w, before);
    look_with(w, &t->extra, after);
    for (size_t i = 0; i < w->n_tasks; i++) {
        const struct task *of = &w->tasks[i];
        day_t newest = newest_done(w, of);
        if (of->job->n_follows > 0 || !does(&t->extra, of) ||
            newest == DAY_NONE || t->extra.day >= newest ||
            !runs_from_newest(of->rule) || goes_by_meter(of))
            continue;
        if (before[i].deadline != after[i].deadline)
            return breaks(
                t, i, "deadline", before[i].deadline, after[i].deadline);
    }
    return 1;
}

/* The longest time that work on @t may count for, in days. */
static int
reach(const struct task *t)
{
    int most = 0;

    for (int i = 0; i < t->rule->n_every; i++) {
        int days = kind_is_calendar_rule(&t->rule->every[i])
                       ? 366
                       : span_days(t->rule->every[i].span);
        most = days > most ? days : most;
    }
    return most;
}

/* 5. Work from before the time that a stated deadline ends makes the deadline
 *    no later, whatever the rule: work by the day it was last done, as stated,
 * or more than the interval before while nothing newer than that was done.  Not
 * where so many are asked for in a time: there older work counts. */
static int
history_keeps_a_stated_deadline(struct trial *t)
{
    struct world *w = t->fleet->w;
    struct seen before[WORLD_TASKS];
    struct seen after[WORLD_TASKS];

    look(w, before);
    look_with(w, &t->extra, after);
    for (size_t i = 0; i < w->n_tasks; i++) {
        const struct task *of = &w->tasks[i];
        const struct baseline *b = &of->baseline;
        day_t stated = b->deadline;
        if (stated == DAY_NONE && of->rule->first.origin == ORIGIN_ON &&
            b->last == DAY_NONE)
            stated = of->rule->first.on;
        day_t until = b->last;
        if (b->last == DAY_NONE || newest_done(w, of) <= b->last)
            until = day_later(until, stated - reach(of) - 7);
        if (stated == DAY_NONE || !does(&t->extra, of) || goes_by_meter(of) ||
            looks_back(of->rule) || t->extra.day > until)
            continue;
        if (is_later(before[i].deadline, after[i].deadline))
            return breaks(
                t, i, "deadline", before[i].deadline, after[i].deadline);
    }
    return 1;
}

/* 6. What is entered twice counts once. */
static int
entered_twice_counts_once(struct trial *t)
{
    struct world *w = t->fleet->w;
    struct seen once[WORLD_TASKS];
    struct seen twice[WORLD_TASKS];

    if (!is_done(&t->extra))
        return 1;
    w->records[w->n_records++] = t->extra;
    look(w, once);
    t->extra.id++;
    look_with(w, &t->extra, twice);
    t->extra.id--;
    w->n_records--;
    for (size_t i = 0; i < w->n_tasks; i++) {
        if (once[i].there != twice[i].there)
            return breaks(t, i, "the due", once[i].deadline, twice[i].deadline);
        if (once[i].deadline != twice[i].deadline)
            return breaks(
                t, i, "deadline", once[i].deadline, twice[i].deadline);
    }
    return 1;
}

/*
 * 7. The newest work on an earlier day never makes the next deadline later.
 *
 * Not where a meter reads something else on another day; nor where days off
 * the road are left out, for of two completions in one month the later has
 * fewer of them after it and may run to the same month's end; nor where so many
 * are asked for and another job of the later day counts as well, or the earlier
 * day is before a stated deadline is counted for; nor where NEAREST rolls a
 * Monday forwards and the Tuesday after it back.  What another job follows is
 * called for on another day.
 */
static int
done_earlier_is_never_due_later(struct trial *t)
{
    struct world *w = t->fleet->w;
    struct seen late[WORLD_TASKS];
    struct seen early[WORLD_TASKS];
    struct record other = t->extra;

    if (!is_done(&t->extra))
        return 1;
    other.day = t->other_day;
    look_with(w, &t->extra, late);
    look_with(w, &other, early);
    for (size_t i = 0; i < w->n_tasks; i++) {
        const struct task *of = &w->tasks[i];
        day_t newest = newest_done(w, of);
        if (of->job->n_follows > 0 || !does(&t->extra, of) ||
            (newest != DAY_NONE && newest >= t->other_day) ||
            goes_by_meter(of) || of->rule->off_road == OFF_ROAD_WAITS ||
            of->rule->roll == ROLL_NEAREST ||
            (looks_back(of->rule) && (of->job->also_counts.job != NULL ||
                                         of->baseline.deadline != DAY_NONE ||
                                         of->rule->first.origin == ORIGIN_ON)))
            continue;
        if (is_later(late[i].deadline, early[i].deadline))
            return breaks(t, i, "deadline when earlier", late[i].deadline,
                early[i].deadline);
    }
    return 1;
}

/* The last day of the closed spells on and around @day as they join, of @s and
 * its first carrier; DAY_NONE when it is on the road, or for good off it. */
static day_t
return_after(const struct world *w, const struct subject *s, day_t day)
{
    day_t at = day;
    int found = 1;

    while (found) {
        found = 0;
        for (size_t i = 0; i < w->n_records; i++) {
            const struct record *k = &w->records[i];
            if (k->kind != RECORD_OFF_ROAD || k->subject != s || k->day > at)
                continue;
            if (k->until == DAY_NONE)
                return DAY_NONE;
            if (k->until >= at) {
                at = k->until + 1;
                found = 1;
            }
        }
    }
    return at > day ? at - 1 : DAY_NONE;
}

/*
 * 8. No deadline passes a return: one that falls in a spell off the road is
 *    due by its last day.  The deadline to fall in it is the one that the rule
 *    has without rolling and, where the interval runs on, without spells.
 */
static int
no_deadline_passes_a_return(struct trial *t)
{
    struct world *w = t->fleet->w;
    struct seen seen[WORLD_TASKS];
    struct seen plain[WORLD_TASKS];
    struct record kept[WORLD_RECORDS];
    enum roll rolls[WORLD_JOBS];
    size_t n = w->n_records;

    look(w, seen);
    memcpy(kept, w->records, sizeof kept);
    w->n_records = 0;
    for (size_t i = 0; i < n; i++)
        if (kept[i].kind != RECORD_OFF_ROAD)
            w->records[w->n_records++] = kept[i];
    for (size_t i = 0; i < w->n_jobs; i++) {
        rolls[i] = w->jobs[i].rule.roll;
        w->jobs[i].rule.roll = ROLL_PRECEDING;
    }
    look(w, plain);
    for (size_t i = 0; i < w->n_jobs; i++)
        w->jobs[i].rule.roll = rolls[i];
    memcpy(w->records, kept, sizeof kept);
    w->n_records = n;
    for (size_t i = 0; i < w->n_tasks; i++) {
        const struct task *of = &w->tasks[i];
        day_t day = of->rule->off_road == OFF_ROAD_WAITS ? seen[i].deadline
                                                         : plain[i].deadline;
        if (day == DAY_NONE || of->subject->carrier != NULL ||
            goes_by_meter(of))
            continue;
        day_t back = return_after(w, of->subject, day);
        if (back != DAY_NONE && !seen[i].no_return &&
            (seen[i].deadline == DAY_NONE || seen[i].deadline > back))
            return breaks(
                t, i, "deadline past the return", back, seen[i].deadline);
    }
    return 1;
}

/* Nonzero when @day lies in some spell off the road. */
static int
is_off_road(const struct world *w, day_t day)
{
    for (size_t i = 0; i < w->n_records; i++) {
        const struct record *k = &w->records[i];
        if (k->kind == RECORD_OFF_ROAD && k->day <= day &&
            (k->until == DAY_NONE || k->until >= day))
            return 1;
    }
    return 0;
}

/* 9. However often it was done, the next is due within one interval of the
 *    last, or of the deadline that stood; with what a window, the end of a
 * month and days off the road add. */
static int
one_completion_buys_one_interval(struct trial *t)
{
    struct world *w = t->fleet->w;
    struct seen before[WORLD_TASKS];
    struct seen after[WORLD_TASKS];

    look(w, before);
    look_with(w, &t->extra, after);
    for (size_t i = 0; i < w->n_tasks; i++) {
        const struct task *of = &w->tasks[i];
        const struct rule *r = of->rule;
        if (!does(&t->extra, of) || goes_by_meter(of) ||
            r->off_road == OFF_ROAD_WAITS || after[i].no_return ||
            is_off_road(w, after[i].deadline) || of->job->n_follows > 0)
            continue;
        int slack = 31 + 7 + span_days(r->window) + span_days(r->shortest);
        day_t from = day_later(before[i].deadline, t->extra.day);
        if (after[i].deadline > from + reach(of) + slack)
            return breaks(
                t, i, "deadline", before[i].deadline, after[i].deadline);
    }
    return 1;
}

/* Finding the smallest fleet that breaks it. */

static int
fails(invariant *holds, struct trial *t)
{
    return !holds(t);
}

#define DROP(list, n, i)                                                       \
    memmove(&(list)[i], &(list)[(i) + 1], (--(n) - (i)) * sizeof *(list))

static int
drop_records(invariant *holds, struct trial *t)
{
    struct world *w = t->fleet->w;
    int dropped = 0;

    for (size_t i = w->n_records; i-- > 0;) {
        struct record kept[WORLD_RECORDS];
        memcpy(kept, w->records, sizeof kept);
        DROP(w->records, w->n_records, i);
        if (fails(holds, t)) {
            dropped = 1;
        } else {
            memcpy(w->records, kept, sizeof kept);
            w->n_records++;
        }
    }
    return dropped;
}

static int
drop_tasks(invariant *holds, struct trial *t)
{
    struct world *w = t->fleet->w;
    int dropped = 0;

    for (size_t i = w->n_tasks; i-- > 0;) {
        struct task kept[WORLD_TASKS];
        memcpy(kept, w->tasks, sizeof kept);
        DROP(w->tasks, w->n_tasks, i);
        if (fails(holds, t)) {
            dropped = 1;
        } else {
            memcpy(w->tasks, kept, sizeof kept);
            w->n_tasks++;
        }
    }
    return dropped;
}

/* One simplification of a job and what its tasks state. */
static void
simplify(struct world *w, struct job *j, int how)
{
    struct rule *r = &j->rule;

    switch (how) {
    case 0:
        r->n_every = r->n_every > 1 ? 1 : r->n_every;
        break;
    case 1:
        r->ends = r->first_ends = ENDS_SAME_DAY;
        break;
    case 2:
        r->month_end = MONTH_END_CLAMP;
        break;
    case 3:
        r->runs_from = FROM_COMPLETION;
        r->window.n = 0;
        break;
    case 4:
        r->window_opens = WINDOW_SAFER;
        break;
    case 5:
        r->late = LATE_RESTARTS;
        r->shortest.n = 0;
        break;
    case 6:
        r->first.origin = ORIGIN_NONE;
        break;
    case 7:
        r->n_ages = 0;
        break;
    case 8:
        r->off_road = OFF_ROAD_RUNS_ON;
        break;
    case 9:
        r->roll = ROLL_PRECEDING;
        break;
    case 10:
        r->lead.span.n = 0;
        break;
    case 11:
        j->n_covers = 0;
        break;
    case 12:
        j->also_counts.job = NULL;
        break;
    case 13:
        r->window.n = r->runs_from == KEEPS_DATE ? r->window.n : 0;
        break;
    case 14:
        j->n_follows = j->n_follows > 1 ? 1 : j->n_follows;
        break;
    case 15:
        r->every[0] = r->every[r->n_every - 1];
        break;
    case 16:
    case 17:
        for (size_t i = 0; i < w->n_tasks; i++)
            if (w->tasks[i].job == j && how == 16)
                w->tasks[i].baseline.last = DAY_NONE;
            else if (w->tasks[i].job == j)
                w->tasks[i].baseline.deadline = DAY_NONE;
        break;
    }
}

#define SIMPLER 18

static void
make_simpler(invariant *holds, struct trial *t)
{
    struct world *w = t->fleet->w;

    for (size_t i = 0; i < w->n_jobs; i++)
        for (int how = 0; how < SIMPLER; how++) {
            struct job job = w->jobs[i];
            struct task tasks[WORLD_TASKS];
            memcpy(tasks, w->tasks, sizeof tasks);
            simplify(w, &w->jobs[i], how);
            if (!fails(holds, t)) {
                w->jobs[i] = job;
                memcpy(w->tasks, tasks, sizeof tasks);
            }
        }
}

static void
show_smallest(invariant *holds, struct trial *t)
{
    int again = 1;

    for (int i = 0; i < 4 && again; i++) {
        again = drop_records(holds, t);
        again |= drop_tasks(holds, t);
        make_simpler(holds, t);
    }
    (void)holds(t);
    show_fleet(t->fleet);
    print_message("#   one more:\n");
    show_record(&t->extra);
    if (t->other_day != DAY_NONE)
        print_message("#   or on %s\n", shown_day(t->other_day));
    print_message("#   %s\n", t->broken);
}

/* One more record, of anything, often beside what is there. */
static struct record
chance_extra(struct chance *c, struct world *w)
{
    const struct task *t = &w->tasks[chance_from(c, 0, (int)w->n_tasks - 1)];
    enum record_kind kind =
        one_in(c, 2) ? RECORD_COMPLETED
                     : (enum record_kind)chance_from(c, 0, RECORD_OFF_ROAD);
    struct record *k = world_record(w, kind, "2020-01-01");
    struct record extra;

    of_subject(k, t->subject, chance_day(c, 2019, 2025));
    if (w->n_records > 1 && one_in(c, 2))
        k->day = w->records[chance_from(c, 0, (int)w->n_records - 2)].day +
                 chance_from(c, -3, 3);
    if (kind == RECORD_COMPLETED || kind == RECORD_FAILED) {
        k->job = one_in(c, 2) ? t->job
                              : &w->jobs[chance_from(c, 0, (int)w->n_jobs - 1)];
        k->job_id = k->job->id;
    } else if (kind == RECORD_READING) {
        k->meter = METER_DISTANCE;
        k->reading = chance_from(c, 1000, 200000);
    } else {
        k->until = k->day + chance_from(c, 0, 60);
    }
    k->id = EXTRA_ID;
    extra = *k;
    w->n_records--;
    return extra;
}

static long
number_from(const char *name, long otherwise)
{
    const char *text = getenv(name);

    return text != NULL && *text != '\0' ? strtol(text, NULL, 10) : otherwise;
}

static void
on_every_fleet(invariant *holds, int extras)
{
    long seed = number_from("SEED", 20261201);
    int fleets = (int)number_from("FLEETS", 500);

    for (int i = 0; i < fleets; i++) {
        struct random_fleet f;
        random_fleet_make(&f, (uint64_t)seed, i);
        struct chance c = chance_of((uint64_t)seed, 9000000 + (uint64_t)i);
        for (int k = 0; k < extras && f.w->n_tasks > 0; k++) {
            struct trial t = {.fleet = &f,
                .extra = chance_extra(&c, f.w),
                .other_day = DAY_NONE};
            t.other_day = t.extra.day - chance_from(&c, 1, 60);
            if (holds(&t))
                continue;
            print_message("# SEED=%ld, fleet %d\n", seed, i);
            show_smallest(holds, &t);
            random_fleet_free(&f);
            fail_msg("%s", t.broken);
        }
        random_fleet_free(&f);
    }
}

#define INVARIANT(name, extras)                                                \
    static void test_##name(void **state)                                      \
    {                                                                          \
        (void)state;                                                           \
        on_every_fleet(name, extras);                                          \
    }

INVARIANT(nothing_open_disappears, EXTRAS)
INVARIANT(the_unrelated_changes_nothing, EXTRAS)
INVARIANT(a_second_trigger_makes_nothing_later, EXTRAS)
INVARIANT(older_work_changes_nothing, EXTRAS)
INVARIANT(history_keeps_a_stated_deadline, EXTRAS)
INVARIANT(entered_twice_counts_once, EXTRAS)
INVARIANT(done_earlier_is_never_due_later, EXTRAS)
INVARIANT(no_deadline_passes_a_return, 1)
INVARIANT(one_completion_buys_one_interval, EXTRAS)

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_nothing_open_disappears),
        cmocka_unit_test(test_the_unrelated_changes_nothing),
        cmocka_unit_test(test_a_second_trigger_makes_nothing_later),
        cmocka_unit_test(test_older_work_changes_nothing),
        cmocka_unit_test(test_history_keeps_a_stated_deadline),
        cmocka_unit_test(test_entered_twice_counts_once),
        cmocka_unit_test(test_done_earlier_is_never_due_later),
        cmocka_unit_test(test_no_deadline_passes_a_return),
        cmocka_unit_test(test_one_completion_buys_one_interval),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
