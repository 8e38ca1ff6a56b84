#include "digest.h"

#include "digest_calendar.h"
#include "mailing.h"
#include "reminder_mail.h"
#include "select.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sysexits.h>

/* How far an outlook looks, in days. */
#define OUTLOOK_DAYS 28

/* A digest sorted into the lists that a letter and a calendar want. */
struct lists {
    struct reminder_item *items; /* told in full */
    const struct due **old;
    const struct due **coming;
    const struct due **events; /* the dues of the first and the last */
    size_t n_events;
    struct reminder_mail letter;
};

struct sent_reminder
digest_told(const struct digest *g, const struct digest_item *item,
    const struct stage *stage)
{
    return (struct sent_reminder){
        .subject = item->due->task->subject->id,
        .job = item->due->task->job->id,
        .cycle = item->cycle,
        .stage = stage->name,
        .person = g->person->id,
        .deadline = item->due->deadline,
    };
}

struct sent_reminder
digest_outlook(const struct person *person, day_t day, char stage[STAGE_TEXT])
{
    char text[DAY_TEXT];

    snprintf(stage, STAGE_TEXT, "outlook-%s", day_text(day, text));
    return (struct sent_reminder){.subject = "-",
        .job = "-",
        .cycle = "-",
        .stage = stage,
        .person = person->id,
        .deadline = DAY_NONE};
}

int
digest_says(const struct digest *g)
{
    return g->n > 0 || g->outlook != DAY_NONE;
}

static void
free_lists(struct lists *l)
{
    free(l->items);
    free(l->old);
    free(l->coming);
    free(l->events);
}

static int
is_coming(const struct digest *g, const struct due *d, day_t until)
{
    if (d->cycle.ahead > 0)
        return 0;
    for (size_t i = 0; i < g->person->n_told; i++)
        if (select_in_scope(&g->person->told[i], d))
            return d->state < DUE_NOW || select_day(d) <= until;
    return 0;
}

/* Sort every due of the snapshot, whose order the items have too. */
static void
sort_dues(const struct digest *g, struct lists *l)
{
    size_t n;
    const struct due *dues = snapshot_dues(g->of, &n);
    const struct digest_item *item = g->items;
    const struct digest_item *end = item + g->n;

    for (const struct due *d = dues; d < dues + n; d++) {
        int is_event = 0;
        if (item < end && item->due == d) {
            if (item->is_old)
                l->old[l->letter.n_under_way++] = d;
            else
                l->items[l->letter.n++] =
                    (struct reminder_item){d, item->moved_from};
            is_event = !item->is_old;
            item++;
        }
        if (!is_event && g->outlook != DAY_NONE &&
            is_coming(g, d, l->letter.outlook)) {
            l->coming[l->letter.n_coming++] = d;
            is_event = 1;
        }
        if (is_event)
            l->events[l->n_events++] = d;
    }
}

static int
make_lists(const struct digest *g, struct lists *l, struct fault *f)
{
    size_t n;

    (void)snapshot_dues(g->of, &n);
    *l = (struct lists){
        .items = calloc(n + 1, sizeof *l->items),
        .old = calloc(n + 1, sizeof(void *)),
        .coming = calloc(n + 1, sizeof(void *)),
        .events = calloc(n + 1, sizeof(void *)),
        .letter =
            {
                .site = run_fleet(g->run)->site.name,
                .today = run_moment(g->run).today,
                .outlook = step_days(g->outlook, OUTLOOK_DAYS),
            },
    };
    if (!l->items || !l->old || !l->coming || !l->events)
        return fault_set(f, EX_OSERR, "out of memory");
    sort_dues(g, l);
    l->letter.items = l->items;
    l->letter.under_way = l->old;
    l->letter.coming = l->coming;
    return 0;
}

/* The parts of a message, each in its own buffer. */
struct digest_parts {
    struct buf *subject;
    struct buf *text;
    struct buf *html;
    struct buf *calendar;
    struct buf *seed; /* of its name: all that it tells */
};

static int
write_parts(const struct digest *g, const struct lists *l,
    const struct digest_parts *m, struct fault *f)
{
    if (reminder_subject(&l->letter, m->subject) ||
        reminder_text(&l->letter, m->text) ||
        reminder_html(&l->letter, m->html))
        return fault_set(f, EX_OSERR, "out of memory");
    return digest_calendar(g->run, l->events, l->n_events, m->calendar, f);
}

/* All that the message tells, to be kept with it; sets @n. */
static struct sent_reminder *
list_told(const struct digest *g, char stage[STAGE_TEXT], size_t *n)
{
    struct sent_reminder *told = calloc(3 * g->n + 1, sizeof *told);

    *n = 0;
    for (size_t i = 0; told != NULL && i < g->n; i++) {
        const struct digest_item *item = &g->items[i];
        const struct stage *const stages[] = {
            &item->failed, &item->stage, &item->missing};
        for (size_t k = 0; k < sizeof stages / sizeof *stages; k++)
            if (stages[k]->name[0] != '\0')
                told[(*n)++] = digest_told(g, item, stages[k]);
    }
    if (told != NULL && g->outlook != DAY_NONE)
        told[(*n)++] = digest_outlook(g->person, g->outlook, stage);
    return told;
}

static int
put_parts(const struct digest *g, const struct digest_parts *m, struct fault *f)
{
    char stage[STAGE_TEXT];
    size_t n;
    struct sent_reminder *told = list_told(g, stage, &n);

    if (told == NULL)
        return fault_set(f, EX_OSERR, "out of memory");
    buf_print(m->seed, "%s\n", g->person->id);
    for (size_t i = 0; i < n; i++)
        buf_print(m->seed, "%s %s %s %s\n", told[i].subject, told[i].job,
            told[i].cycle, told[i].stage);
    struct mailing mailing = {
        .person = g->person->id,
        .address = g->person->mail,
        .seed = m->seed,
        .subject = m->subject,
        .text = m->text,
        .html = m->html,
        .calendar = m->calendar,
    };
    int rc = mailing_put(g->run, &mailing, told, n, f);
    free(told);
    return rc;
}

static int
put_lists(const struct digest *g, const struct lists *l, struct fault *f)
{
    struct digest_parts m = {
        buf_new(), buf_new(), buf_new(), buf_new(), buf_new()};
    int rc = -1;

    if (!m.subject || !m.text || !m.html || !m.calendar || !m.seed)
        fault_fill(f, EX_OSERR, "out of memory");
    else if (write_parts(g, l, &m, f) == 0)
        rc = put_parts(g, &m, f);
    buf_free(m.seed);
    buf_free(m.calendar);
    buf_free(m.html);
    buf_free(m.text);
    buf_free(m.subject);
    return rc;
}

int
digest_put(const struct digest *g, struct fault *f)
{
    struct lists l;
    int rc = make_lists(g, &l, f);

    if (rc == 0)
        rc = put_lists(g, &l, f);
    free_lists(&l);
    return rc;
}

/* Why a due is in the message: its stage, and what is special. */
static void
show_item(const struct digest_item *item, struct buf *out)
{
    const struct task *t = item->due->task;
    const char *const stages[] = {
        item->failed.name, item->stage.name, item->missing.name};
    const char *gap = "";
    char day[DAY_TEXT];

    buf_print(out, "  %s %s: ", t->subject->id, t->job->id);
    for (size_t i = 0; i < sizeof stages / sizeof *stages; i++) {
        if (stages[i][0] != '\0')
            buf_print(out, "%s%s", gap, stages[i]);
        gap = stages[i][0] != '\0' ? ", " : gap;
    }
    buf_print(out, ", deadline %s", day_text(item->due->deadline, day));
    if (item->moved_from != DAY_NONE)
        buf_print(out, ", was told %s", day_text(item->moved_from, day));
    buf_text(out, item->is_old ? "; taken as told\n" : "\n");
}

static void
show_lists(const struct digest *g, const struct buf *subject, struct buf *out)
{
    char day[DAY_TEXT];

    buf_print(out, "to %s, %s: %s\n", g->person->id, g->person->mail,
        buf_str(subject));
    for (size_t i = 0; i < g->n; i++)
        show_item(&g->items[i], out);
    if (g->outlook != DAY_NONE)
        buf_print(out, "  the outlook of %s\n", day_text(g->outlook, day));
}

int
digest_show(const struct digest *g, struct buf *out, struct fault *f)
{
    struct lists l;
    struct buf *subject = NULL;

    if (!digest_says(g)) {
        buf_print(out, "to %s: nothing%s\n", g->person->id,
            g->until == DAY_NONE ? ", today is a quiet day" : " new");
        return 0;
    }
    int rc = make_lists(g, &l, f);
    if (rc == 0) {
        subject = buf_new();
        if (subject == NULL || reminder_subject(&l.letter, subject))
            rc = fault_set(f, EX_OSERR, "out of memory");
        else
            show_lists(g, subject, out);
    }
    buf_free(subject);
    free_lists(&l);
    return rc;
}
