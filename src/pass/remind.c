#include "remind.h"

#include "arena.h"
#include "buf.h"
#include "clean.h"
#include "message.h"
#include "outbox.h"
#include "select.h"
#include "stage.h"
#include "view.h"
#include "wording.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sysexits.h>

/* One person's message while it is put together. */
struct digest {
    const struct pass *pass;
    const struct person *person;
    struct selection news; /* dues whose stage is new to the person */
    struct told *told;     /* one for each of them */
    struct stage *stages;
    char (*cycles)[CYCLE_TEXT];
    struct buf *moved; /* a line for each deadline that moved */
};

/*
 * A person who is not written to on Saturday hears on Friday of what the
 * weekend would bring: the last day before their next one.
 */
static day_t
tell_until(const struct person *person, day_t today)
{
    day_t day = today;

    if (!(person->days >> day_weekday(today) & 1))
        return DAY_NONE;
    while (day < DAY_LAST && !(person->days >> day_weekday(day + 1) & 1))
        day++;
    return day;
}

static int
in_scopes(const struct person *person, const struct due *d)
{
    for (size_t i = 0; i < person->n_told; i++)
        if (select_in_scope(&person->told[i], d))
            return 1;
    return 0;
}

/* Say that the deadline is not the one the person was last told: 1 when it
 * moved, 0 when not, -1 on failure. */
static int
note_move(struct digest *g, const struct due *d, const struct told *told,
    struct fault *f)
{
    day_t before;
    char old[DAY_WORDS];
    char new[DAY_WORDS];

    if (told_last_deadline(pass_ledger(g->pass), told, &before, f))
        return -1;
    if (before == DAY_NONE || before == d->deadline)
        return 0;
    buf_print(g->moved, "%s %s: the deadline moved from %s to %s\n",
        d->task->subject->id, d->task->job->title, day_words(before, old),
        d->deadline == DAY_NONE ? "none" : day_words(d->deadline, new));
    return 1;
}

/* A stage already told is told again under the name of this day, once: 0 when
 * that is still to be done. */
static int
tell_again(const struct digest *g, const struct told *told, struct stage *stage,
    struct fault *f)
{
    size_t len = strlen(stage->name);
    char day[DAY_TEXT];

    snprintf(stage->name + len, sizeof stage->name - len, "@%s",
        day_text(pass_moment(g->pass).today, day));
    return told_has(pass_ledger(g->pass), told, f);
}

/* Add @d to the digest when its stage, or a moved deadline, is news. */
static int
consider(struct digest *g, const struct due *d, day_t until, struct fault *f)
{
    size_t n = g->news.n;
    struct stage *stage = &g->stages[n];

    if (d->cycle.ahead > 0 || !in_scopes(g->person, d) ||
        !stage_reached(d, until, stage) || !stage_concerns(stage, d, g->person))
        return 0;
    g->told[n] = (struct told){
        .subject = d->task->subject->id,
        .job = d->task->job->id,
        .cycle = due_cycle_text(&d->cycle, g->cycles[n]),
        .stage = stage->name,
        .person = g->person->id,
        .deadline = d->deadline,
    };
    int moved = note_move(g, d, &g->told[n], f);
    int had = told_has(pass_ledger(g->pass), &g->told[n], f);
    if (had > 0 && moved > 0)
        had = tell_again(g, &g->told[n], stage, f);
    if (moved < 0 || had < 0)
        return -1;
    if (!had)
        g->news.dues[g->news.n++] = d;
    return 0;
}

static void
compose_subject(const struct digest *g, struct buf *out)
{
    const struct due *worst = g->news.dues[0];

    buf_print(out, "%s: %s %s", wording_state(worst->state),
        worst->task->subject->id, worst->task->job->title);
    if (g->news.n > 1)
        buf_print(out, " and %zu more", g->news.n - 1);
}

static int
compose_text(const struct digest *g, struct buf *out)
{
    if (buf_len(g->moved) > 0)
        buf_print(out, "%s\n", buf_str(g->moved));
    return view_digest.render(&g->news, out) || buf_failed(g->moved);
}

/* What mail refuses in a text must not keep the rest from being told. */
static int
clean_into(struct buf *clean, enum clean how, const struct buf *raw)
{
    buf_clear(clean);
    clean_add(clean, how, buf_str(raw), buf_len(raw));
    return buf_failed(clean) || buf_failed(raw);
}

static int
compose(
    const struct digest *g, const char *id, struct buf *bytes, struct fault *f)
{
    const struct site *site = &pass_fleet(g->pass)->site;
    struct buf *raw = buf_new();
    struct buf *subject = buf_new();
    struct buf *text = buf_new();
    int rc = fault_set(f, EX_OSERR, "out of memory");

    if (raw == NULL || subject == NULL || text == NULL)
        goto out;
    compose_subject(g, raw);
    if (clean_into(subject, CLEAN_LINE, raw))
        goto out;
    buf_clear(raw);
    if (compose_text(g, raw) || clean_into(text, CLEAN_LINES, raw))
        goto out;
    struct mail_message m = {
        .from = site->mail.from,
        .from_name = site->name,
        .to = g->person->mail,
        .reply_to = site->mail.reply_to,
        .subject = buf_str(subject),
        .message_id = id,
        .date = pass_moment(g->pass).now,
        .text = buf_str(text),
    };
    rc = mail_compose(&m, bytes, f);
out:
    buf_free(text);
    buf_free(subject);
    buf_free(raw);
    return rc;
}

/* The name of the message follows from what it tells, so that a run that is
 * repeated cannot make a second one. */
static int
name_message(const struct digest *g, char *id, size_t size)
{
    const struct site *site = &pass_fleet(g->pass)->site;
    struct buf *seed = buf_new();

    if (seed == NULL)
        return -1;
    buf_print(seed, "%s\n%s\n", site->name, g->person->id);
    for (size_t i = 0; i < g->news.n; i++)
        buf_print(seed, "%s %s %s %s\n", g->told[i].subject, g->told[i].job,
            g->told[i].cycle, g->told[i].stage);
    const char *at = strchr(site->mail.from, '@');
    int rc = buf_failed(seed) || at == NULL ||
             mail_message_id(buf_str(seed), at + 1, id, size);
    buf_free(seed);
    return rc ? -1 : 0;
}

static int
put_in_outbox(const struct digest *g, struct fault *f)
{
    char id[160];
    struct buf *bytes = buf_new();
    int rc = -1;

    if (bytes == NULL || name_message(g, id, sizeof id))
        fault_fill(f, EX_OSERR, "cannot name a message");
    else if (compose(g, id, bytes, f) == 0) {
        struct outbox_message m = {
            .person = g->person->id,
            .message_id = id,
            .recipient = g->person->mail,
            .bytes = buf_str(bytes),
            .len = buf_len(bytes),
            .created = pass_moment(g->pass).now,
        };
        rc = outbox_add(pass_ledger(g->pass), &m, g->told, g->news.n, f);
    }
    buf_free(bytes);
    return rc;
}

static int
remind_person(const struct pass *p, const struct snapshot *s,
    const struct person *person, struct fault *f)
{
    size_t n;
    const struct due *dues = snapshot_dues(s, &n);
    day_t until = tell_until(person, pass_moment(p).today);
    struct digest g = {.pass = p, .person = person, .news = {.of = s}};
    int rc = 0;

    if (until == DAY_NONE || n == 0)
        return 0;
    g.news.dues = calloc(n, sizeof *g.news.dues);
    g.told = calloc(n, sizeof *g.told);
    g.stages = calloc(n, sizeof *g.stages);
    g.cycles = calloc(n, sizeof *g.cycles);
    g.moved = buf_new();
    if (!g.news.dues || !g.told || !g.stages || !g.cycles || !g.moved)
        rc = fault_set(f, EX_OSERR, "out of memory");
    for (size_t i = 0; i < n && rc == 0; i++)
        rc = consider(&g, &dues[i], until, f);
    if (rc == 0 && g.news.n > 0)
        rc = put_in_outbox(&g, f);
    buf_free(g.moved);
    free(g.cycles);
    free(g.stages);
    free(g.told);
    free(g.news.dues);
    return rc;
}

int
remind_all(const struct pass *p, const struct snapshot *s, struct fault *f)
{
    const struct fleet *fleet = pass_fleet(p);
    int rc = 0;

    if (fleet->site.mail.from == NULL)
        return 0;
    for (size_t i = 0; i < fleet->n_persons; i++)
        if (remind_person(p, s, &fleet->persons[i], rc ? NULL : f))
            rc = -1;
    return rc;
}
