#include "remind.h"

#include "buf.h"
#include "digest.h"
#include "select.h"
#include "work_calendar.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sysexits.h>

/* The longest time without a day to write to somebody that is looked over
 * beforehand, in days: a summer's closure. */
#define QUIET_MOST 100

static int
is_written_to(const struct person *person, day_t day)
{
    return (person->days >> day_weekday(day) & 1) &&
           (person->calendar == NULL ||
               work_calendar_is_open(person->calendar, day));
}

/*
 * A person who is not written to on Saturday hears on Friday of what the
 * weekend would bring: the last day before their next one.
 */
static day_t
tell_until(const struct person *person, day_t today)
{
    day_t day = today;

    if (!is_written_to(person, today))
        return DAY_NONE;
    while (day < DAY_LAST && day - today < QUIET_MOST &&
           !is_written_to(person, day + 1))
        day++;
    return day;
}

/* The day by whose stages @d is judged: nothing is called overdue that is not,
 * however long the quiet days to come are. */
static day_t
look_ahead(const struct digest *g, const struct due *d)
{
    day_t today = run_moment(g->run).today;

    if (g->until == DAY_NONE || d->deadline == DAY_NONE)
        return today;
    return d->deadline < today ? g->until : day_earlier(d->deadline, g->until);
}

static int
in_scopes(const struct person *person, const struct due *d)
{
    for (size_t i = 0; i < person->n_told; i++)
        if (select_in_scope(&person->told[i], d))
            return 1;
    return 0;
}

/* On a quiet day only that gets through which may not wait. */
static int
is_let_through(const struct digest *g, const struct due *d)
{
    if (g->until != DAY_NONE)
        return 1;
    return g->person->urgent == URGENT_LAW_OVERDUE &&
           d->task->job->class == CLASS_LAW && d->besides == DUE_OVERDUE;
}

/* Whether the deadline is another than the person was last told. */
static int
find_move(const struct digest *g, struct digest_item *item, struct fault *f)
{
    struct sent_reminder told = digest_told(g, item, &item->stage);
    day_t before;

    if (sent_reminder_last_deadline(run_ledger(g->run), &told, &before, f))
        return -1;
    item->moved_from = before != item->due->deadline ? before : DAY_NONE;
    return 0;
}

/* Leave @stage, one of those of @item, without a name when it was told. */
static int
drop_told(const struct digest *g, const struct digest_item *item,
    struct stage *stage, struct fault *f)
{
    struct sent_reminder told = digest_told(g, item, stage);
    int had = 0;

    if (stage->name[0] != '\0')
        had = sent_reminder_has(run_ledger(g->run), &told, f);
    if (had > 0)
        stage->name[0] = '\0';
    return had < 0 ? -1 : 0;
}

/*
 * Leave the stage of the deadline without a name when it was told and nothing
 * has moved.  It was told when it was so of this very deadline: what was said
 * of another does not keep this one from being told.  What has that name
 * already is told under the name of today, and so is a move: once a day.
 */
static int
name_stage(const struct digest *g, struct digest_item *item, struct fault *f)
{
    char *name = item->stage.name;
    size_t len = strlen(name);
    struct sent_reminder told = digest_told(g, item, &item->stage);
    char day[DAY_TEXT];
    int known =
        len > 0 ? sent_reminder_of_deadline(run_ledger(g->run), &told, f) : 1;
    int had = known ? known : sent_reminder_has(run_ledger(g->run), &told, f);

    if (had <= 0)
        return had;
    if (known && item->moved_from == DAY_NONE) {
        name[0] = '\0';
        return 0;
    }
    snprintf(name + len, sizeof item->stage.name - len, "%s@%s",
        len > 0 ? "" : "moved", day_text(run_moment(g->run).today, day));
    return drop_told(g, item, &item->stage, f);
}

/* Nonzero when the first message can do without saying more of @item than its
 * name: its stage was reached before today, and nothing has to be done now. */
static int
is_old(const struct digest *g, const struct digest_item *item)
{
    const struct due *d = item->due;
    struct stage before = {.day = DAY_NONE};

    if (d->state != DUE_AHEAD ||
        d->warnings & (WARN_BOOK_NOW | WARN_DONE_LATER))
        return 0;
    return stage_reached(d, step_days(run_moment(g->run).today, -1), &before) &&
           strcmp(before.name, item->stage.name) == 0;
}

/* Find the stages of @item that its person is to hear of.  A week that lacks
 * something is the present one, however far ahead is looked otherwise. */
static void
find_stages(const struct digest *g, struct digest_item *item)
{
    const struct due *d = item->due;
    day_t look = look_ahead(g, d);
    day_t today = run_moment(g->run).today;

    if (!stage_reached(d, look, &item->stage) ||
        !stage_concerns(&item->stage, d, look, g->person))
        item->stage.name[0] = '\0';
    if (!stage_missing(d, today, &item->missing) ||
        !stage_concerns(&item->missing, d, today, g->person))
        item->missing.name[0] = '\0';
}

/* Leave in @item what is news of its deadline, and of what it lacks. */
static int
find_news(const struct digest *g, struct digest_item *item, struct fault *f)
{
    find_stages(g, item);
    return find_move(g, item, f) || drop_told(g, item, &item->missing, f) ||
                   name_stage(g, item, f)
               ? -1
               : 0;
}

/* Add @d to the digest when it failed, or a stage or a moved deadline is news.
 * A failure waits for no stage and no day: with it goes what else there is to
 * say of the same due. */
static int
consider(struct digest *g, const struct due *d, int is_first, struct fault *f)
{
    struct digest_item *item = &g->items[g->n];

    if (d->cycle.ahead > 0 || !in_scopes(g->person, d))
        return 0;
    *item = (struct digest_item){.due = d, .moved_from = DAY_NONE};
    due_cycle_text(&d->cycle, item->cycle);
    if (stage_failed(d, &item->failed) && drop_told(g, item, &item->failed, f))
        return -1;
    int failed = item->failed.name[0] != '\0';
    if (g->only_failed && !failed)
        return 0;
    if ((failed || is_let_through(g, d)) && find_news(g, item, f))
        return -1;
    if (failed || item->stage.name[0] != '\0' ||
        item->missing.name[0] != '\0') {
        item->is_old = is_first && is_old(g, item);
        g->n++;
    }
    return 0;
}

/*
 * The outlook is that of the last day for one, up to the next day on which the
 * person is written to, unless they had it: so one that fell on a quiet day or
 * on a missed run is not lost.
 */
static int
find_outlook(struct digest *g, struct fault *f)
{
    day_t day = g->until;
    char stage[STAGE_TEXT];

    g->outlook = DAY_NONE;
    if (day < DAY_FIRST + 7 || g->person->outlook == 0)
        return 0;
    while (!(g->person->outlook >> day_weekday(day) & 1))
        day = step_days(day, -1);
    struct sent_reminder told = digest_outlook(g->person, day, stage);
    int had = sent_reminder_has(run_ledger(g->run), &told, f);
    if (had == 0)
        g->outlook = day;
    return had < 0 ? -1 : 0;
}

/* Fill in @g, whose items then go to free(). */
static int
decide(const struct run_context *p, const struct snapshot *s,
    const struct person *person, int only_failed, struct digest *g,
    struct fault *f)
{
    size_t n;
    const struct due *dues = snapshot_dues(s, &n);
    int known = sent_reminder_any(run_ledger(p), person->id, f);

    *g = (struct digest){.run = p,
        .of = s,
        .person = person,
        .only_failed = only_failed,
        .outlook = DAY_NONE};
    g->until = tell_until(person, run_moment(p).today);
    g->items = calloc(n + 1, sizeof *g->items);
    if (g->items == NULL)
        return fault_set(f, EX_OSERR, "out of memory");
    if (known < 0 || (!only_failed && find_outlook(g, f)))
        return -1;
    for (size_t i = 0; i < n; i++)
        if (consider(g, &dues[i], !known, f))
            return -1;
    return 0;
}

static int
remind_person(const struct run_context *p, const struct snapshot *s,
    const struct person *person, int only_failed, struct fault *f)
{
    struct digest g;
    int rc = decide(p, s, person, only_failed, &g, f);

    if (rc == 0 && digest_says(&g))
        rc = digest_put(&g, f);
    free(g.items);
    return rc;
}

static int
remind(const struct run_context *p, const struct snapshot *s, int only_failed,
    struct fault *f)
{
    const struct fleet *fleet = run_fleet(p);
    int rc = 0;

    if (fleet->site.mail.from == NULL)
        return 0;
    for (size_t i = 0; i < fleet->n_persons; i++)
        if (remind_person(p, s, &fleet->persons[i], only_failed, rc ? NULL : f))
            rc = -1;
    return rc;
}

int
remind_all(
    const struct run_context *p, const struct snapshot *s, struct fault *f)
{
    return remind(p, s, 0, f);
}

int
remind_failed(
    const struct run_context *p, const struct snapshot *s, struct fault *f)
{
    return remind(p, s, 1, f);
}

int
remind_show(const struct run_context *p, const struct snapshot *s,
    struct buf *out, struct fault *f)
{
    const struct fleet *fleet = run_fleet(p);
    int rc = 0;

    for (size_t i = 0; i < fleet->n_persons && rc == 0; i++) {
        struct digest g;
        rc = decide(p, s, &fleet->persons[i], 0, &g, f);
        if (rc == 0)
            rc = digest_show(&g, out, f);
        free(g.items);
    }
    return rc;
}
