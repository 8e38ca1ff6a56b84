#include "contents.h"

#include "fitness.h"
#include "people.h"
#include "select.h"

#include <nettle/sha2.h>
#include <stdlib.h>
#include <string.h>
#include <sysexits.h>

static int
compare_ids(const struct task *a, const struct task *b)
{
    int order = strcmp(a->subject->id, b->subject->id);

    return order ? order : strcmp(a->job->id, b->job->id);
}

/* Two dues of a task on one day are of different cycles, so this leaves nothing
 * to chance. */
static int
by_day(const void *left, const void *right)
{
    const struct due *a = *(const struct due *const *)left;
    const struct due *b = *(const struct due *const *)right;
    day_t x = ical_due_day(a);
    day_t y = ical_due_day(b);

    if (x != y)
        return x < y ? -1 : 1;
    int order = compare_ids(a->task, b->task);
    return order ? order : a->cycle.ahead - b->cycle.ahead;
}

/* However full the feed is. */
static int
must_be_shown(const struct due *d)
{
    return d->state == DUE_FAILED || d->state == DUE_OVERDUE ||
           ical_due_day(d) == DAY_NONE;
}

static int
choose_dues(
    const struct run_context *p, const struct snapshot *s, struct contents *c)
{
    day_t today = run_moment(p).today;
    struct filter filter = {
        .scopes = c->feed->shows,
        .n_scopes = c->feed->n_shows,
        .until = step_span(today, c->feed->horizon, 1, MONTH_END_CLAMP),
        .projected = 1,
        .from = today,
    };
    struct selection chosen;

    if (select_dues(s, &filter, &chosen))
        return -1;
    c->dues = chosen.dues;
    c->n_dues = chosen.n;
    qsort(c->dues, c->n_dues, sizeof *c->dues, by_day);
    for (size_t i = 0; i < c->n_dues; i++)
        if (must_be_shown(c->dues[i]))
            c->n_must = i + 1;
    return 0;
}

static int
shows_task(const struct feed *feed, const struct task *t)
{
    const struct due d = {.task = t};

    for (size_t i = 0; i < feed->n_shows; i++)
        if (select_in_scope(&feed->shows[i], &d))
            return 1;
    return 0;
}

/* What was done is worked out of those alone of whom something is shown: else
 * a feed of one vehicle took as long as one of all. */
static int
shows_subject(
    const struct feed *feed, const struct fleet *f, const struct subject *s)
{
    for (size_t i = 0; i < s->n_tasks; i++)
        if (shows_task(feed, &f->tasks[s->first_task + i]))
            return 1;
    return 0;
}

static int
add_done(struct contents *c, const struct evidence *e)
{
    size_t n;
    const struct proof *proofs = evidence_proofs(e, &n);
    void *done = realloc(c->done, (c->n_done + n + 1) * sizeof *c->done);

    if (done == NULL)
        return -1;
    c->done = done;
    for (size_t i = 0; i < n; i++)
        if (proofs[i].done != DAY_NONE && !proofs[i].failed &&
            shows_task(c->feed, proofs[i].task))
            c->done[c->n_done++] = &proofs[i];
    return 0;
}

/* Of what was done twice on a day, or answered several calls, the earliest
 * deadline comes first. */
static int
newest_first(const void *left, const void *right)
{
    const struct proof *a = *(const struct proof *const *)left;
    const struct proof *b = *(const struct proof *const *)right;

    if (a->done != b->done)
        return a->done > b->done ? -1 : 1;
    int order = compare_ids(a->task, b->task);
    if (order != 0 || a->deadline == b->deadline)
        return order;
    return day_earlier(a->deadline, b->deadline) == a->deadline ? -1 : 1;
}

/* What was done twice on a day is one event, and late if one of them was. */
static void
drop_repeated(struct contents *c)
{
    size_t n = 0;

    for (size_t i = 0; i < c->n_done; i++)
        if (n == 0 || c->done[n - 1]->task != c->done[i]->task ||
            c->done[n - 1]->done != c->done[i]->done)
            c->done[n++] = c->done[i];
    c->n_done = n;
}

static int
choose_done(const struct run_context *p, struct contents *c)
{
    const struct fleet *fleet = run_fleet(p);
    day_t today = run_moment(p).today;
    day_t from = step_span(today, c->feed->history, -1, MONTH_END_CLAMP);

    if (c->feed->history.n == 0)
        return 0;
    if (from == DAY_NONE)
        from = DAY_FIRST;
    c->evidence = calloc(fleet->n_subjects + 1, sizeof(struct evidence *));
    if (c->evidence == NULL)
        return -1;
    for (size_t i = 0; i < fleet->n_subjects; i++) {
        const struct subject *s = &fleet->subjects[i];
        if (!shows_subject(c->feed, fleet, s))
            continue;
        struct evidence *e = evidence_new(run_facts(p), s, from, today, today);
        if (e == NULL)
            return -1;
        c->evidence[c->n_evidence++] = e;
        if (add_done(c, e))
            return -1;
    }
    if (c->n_done > 0)
        qsort(c->done, c->n_done, sizeof *c->done, newest_first);
    drop_repeated(c);
    return 0;
}

/* Defects are of subjects, so a scope that is a job has none. */
static int
shows_defects_of(const struct scope *scope, const struct subject *s)
{
    const struct person *person = scope->which;

    switch (scope->kind) {
    case SCOPE_ALL:
        return 1;
    case SCOPE_DEPOT:
        return fleet_depot(s) == scope->which;
    case SCOPE_SUBJECT:
        return s == scope->which ||
               (s->carrier != NULL && s->carrier == scope->which);
    case SCOPE_PERSON:
        return person->n_told > 0 && people_may(person, 0, s);
    case SCOPE_JOB:
        break;
    }
    return 0;
}

struct ical_item
contents_defect(const struct run_context *p, const struct defect *d)
{
    return (struct ical_item){.kind = ICAL_DEFECT,
        .defect = d,
        .stops = defect_stops(d, run_moment(p).today)};
}

/* What stops a vehicle, and what was put off, whose last day is a deadline.
 * What is released is gone. */
static int
choose_defects(const struct run_context *p, struct contents *c, struct fault *f)
{
    size_t n;

    if (fitness_of_run(p, f) == NULL)
        return -1;
    const struct defect *all = defects_all(fitness_defects(p), &n);
    c->defects = calloc(n + 1, sizeof *c->defects);
    if (c->defects == NULL)
        return fault_set(f, EX_OSERR, "out of memory");
    for (const struct defect *d = all; d < all + n; d++) {
        int is_shown = 0;
        if (d->subject == NULL || !defect_is_open(d) ||
            (d->state != DEFECT_UNTIL && !defect_stops(d, run_moment(p).today)))
            continue;
        for (size_t i = 0; i < c->feed->n_shows; i++)
            is_shown |= shows_defects_of(&c->feed->shows[i], d->subject);
        if (is_shown)
            c->defects[c->n_defects++] = d;
    }
    return 0;
}

static void
add_number(struct sha256_ctx *sha, int64_t n)
{
    sha256_update(sha, sizeof n, (const uint8_t *)&n);
}

static void
add_text(struct sha256_ctx *sha, const char *text)
{
    if (text == NULL)
        text = "";
    sha256_update(sha, strlen(text) + 1, (const uint8_t *)text);
}

static void
add_form(struct sha256_ctx *sha, const struct contents *c)
{
    const struct feed *feed = c->feed;
    const int64_t numbers[] = {ICAL_FORM, c->form.form, c->form.alarm.n,
        c->form.alarm.unit, feed->most_events, feed->most_kilobytes,
        (int64_t)c->n_must, (int64_t)c->n_dues};

    add_text(sha, c->form.site);
    add_text(sha, c->form.id);
    add_text(sha, c->form.title);
    add_text(sha, c->form.url);
    for (size_t i = 0; i < sizeof numbers / sizeof *numbers; i++)
        add_number(sha, numbers[i]);
}

static int
add_item(struct sha256_ctx *sha, struct ical *ical,
    const struct ical_item *item, struct buf *outline)
{
    buf_clear(outline);
    if (ical_outline(ical, item, outline))
        return -1;
    sha256_update(sha, buf_len(outline), (const uint8_t *)buf_str(outline));
    return 0;
}

/*
 * By day, dues lie all over the memory, and most of the time that an unchanged
 * feed takes went by in waiting for it: ask for what comes next early.
 */
static void
look_ahead(const struct contents *c, size_t i)
{
    if (i + 12 < c->n_dues)
        __builtin_prefetch(c->dues[i + 12]);
    if (i + 8 < c->n_dues) {
        __builtin_prefetch(c->dues[i + 8]->task);
        __builtin_prefetch(c->dues[i + 8]->reasons);
    }
    if (i + 4 < c->n_dues) {
        const struct due *d = c->dues[i + 4];
        __builtin_prefetch(d->task->subject);
        for (size_t k = 0; k < d->n_reasons; k++)
            __builtin_prefetch(d->reasons[k].text);
    }
}

static int
hash_items(const struct run_context *p, const struct contents *c,
    struct sha256_ctx *sha)
{
    struct ical *ical = ical_new(&c->form);
    struct buf *outline = buf_new();
    int rc = ical && outline ? 0 : -1;

    for (size_t i = 0; i < c->n_defects && rc == 0; i++) {
        struct ical_item item = contents_defect(p, c->defects[i]);
        rc = add_item(sha, ical, &item, outline);
    }
    for (size_t i = 0; i < c->n_dues && rc == 0; i++) {
        look_ahead(c, i);
        rc = add_item(sha, ical,
            &(struct ical_item){.kind = ICAL_DUE, .due = c->dues[i]}, outline);
    }
    for (size_t i = 0; i < c->n_done && rc == 0; i++)
        rc = add_item(sha, ical,
            &(struct ical_item){.kind = ICAL_DONE, .proof = c->done[i]},
            outline);
    buf_free(outline);
    ical_free(ical);
    return rc;
}

int
contents_choose(const struct run_context *p, const struct snapshot *s,
    const struct feed *feed, struct contents *out, struct fault *f)
{
    const struct site *site = &run_fleet(p)->site;
    struct sha256_ctx sha;

    *out = (struct contents){
        .feed = feed,
        .form = {.site = site->name,
            .id = feed->id,
            .title = feed->title ? feed->title : feed->id,
            .url = site->page_url,
            .form = feed->form,
            .alarm = feed->alarm},
    };
    if (choose_dues(p, s, out) || choose_done(p, out))
        return fault_set(f, EX_OSERR, "out of memory");
    if (choose_defects(p, out, f))
        return -1;
    sha256_init(&sha);
    add_form(&sha, out);
    if (hash_items(p, out, &sha))
        return fault_set(f, EX_OSERR, "out of memory");
    sha256_digest(&sha, sizeof out->hash, out->hash);
    return 0;
}

size_t
contents_room(const struct contents *c)
{
    size_t most = (size_t)c->feed->most_events;

    if (c->n_dues <= most)
        return c->n_dues;
    /* One is for the event that says where the feed ends. */
    return c->n_must > most - 1 ? c->n_must : most - 1;
}

void
contents_drop(struct contents *c)
{
    for (size_t i = 0; i < c->n_evidence; i++)
        evidence_free(c->evidence[i]);
    free(c->evidence);
    free(c->done);
    free(c->dues);
    free(c->defects);
}
