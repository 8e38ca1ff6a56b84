#include "admin_mail.h"

#include "arena.h"
#include "buf.h"
#include "clean.h"
#include "mailing.h"
#include "wording.h"

#include <string.h>
#include <sysexits.h>

/* After how many days what has not changed is told again. */
#define AGAIN_AFTER 7

/* What is wrong, and what was told of it. */
struct news {
    const struct run_context *run;
    struct arena *arena;
    const struct trouble *now;
    size_t n_now;
    struct trouble *told;
    size_t n_told;
};

static const struct trouble *
find(const struct trouble *list, size_t n, const char *about)
{
    for (size_t i = 0; i < n; i++)
        if (strcmp(list[i].about, about) == 0)
            return &list[i];
    return NULL;
}

/* Whether @t is to be told; a day to come was told by a clock that was wrong.
 */
static int
is_new(const struct news *news, const struct trouble *t)
{
    const struct trouble *before = find(news->told, news->n_told, t->about);
    day_t today = run_moment(news->run).today;

    return before == NULL || strcmp(before->says, t->says) != 0 ||
           today - before->told >= AGAIN_AFTER || today < before->told;
}

static int
is_over(const struct news *news, const struct trouble *t)
{
    return find(news->now, news->n_now, t->about) == NULL;
}

static int
gather(const struct run_context *p, const struct health_checks *w,
    struct news *news, struct fault *f)
{
    *news = (struct news){.run = p, .arena = arena_new()};
    news->now = health_checks_found(w, &news->n_now);
    if (news->arena == NULL || news->now == NULL)
        return fault_set(f, EX_OSERR, "out of memory");
    return trouble_list(
        run_ledger(p), news->arena, &news->told, &news->n_told, f);
}

/* Append the list of what is to be told, a line each, and what the first of
 * them is about to @first; returns how many there are. */
static size_t
add_list(const struct news *news, struct buf *out, struct buf *first)
{
    size_t n = 0;

    for (size_t i = 0; i < news->n_now; i++)
        if (is_new(news, &news->now[i])) {
            buf_print(out, "- %s\n", news->now[i].says);
            if (n++ == 0)
                buf_print(first, "Trouble with %s", news->now[i].about);
        }
    for (size_t i = 0; i < news->n_told; i++)
        if (is_over(news, &news->told[i])) {
            buf_print(out, "- Over: %s\n", news->told[i].says);
            if (n++ == 0)
                buf_print(first, "Over: trouble with %s", news->told[i].about);
        }
    if (n > 1)
        buf_print(first, ", %zu more", n - 1);
    return n;
}

static int
keep(const struct news *news, struct fault *f)
{
    for (size_t i = 0; i < news->n_now; i++) {
        struct trouble t = news->now[i];
        t.told = run_moment(news->run).today;
        if (is_new(news, &t) && trouble_keep(run_ledger(news->run), &t, f))
            return -1;
    }
    for (size_t i = 0; i < news->n_told; i++)
        if (is_over(news, &news->told[i]) &&
            trouble_drop(run_ledger(news->run), news->told[i].about, f))
            return -1;
    return 0;
}

static int
put(const struct news *news, const struct mailing *m, struct fault *f)
{
    struct ledger *l = run_ledger(news->run);

    if (ledger_begin(l, f))
        return -1;
    if (mailing_put(news->run, m, NULL, 0, f) == 0 && keep(news, f) == 0)
        return ledger_commit(l, f);
    ledger_rollback(l);
    return -1;
}

/* A message while it is put together. */
struct admin_letter {
    struct buf *raw_subject;
    struct buf *raw;
    struct buf *subject;
    struct buf *text;
    struct buf *seed;
};

/* Write the letter; returns how many troubles it tells of. */
static size_t
write_letter(const struct news *news, const struct admin_letter *m)
{
    char day[WORDING_DATE];

    buf_print(m->raw, "%s, %s\n\n", run_fleet(news->run)->site.name,
        wording_date(run_moment(news->run).today, day));
    size_t n = add_list(news, m->raw, m->raw_subject);
    buf_text(m->raw, "\nEach is told when it begins, changes or is over, and "
                     "again after a week.\n");
    clean_add(m->text, CLEAN_LINES, buf_str(m->raw), buf_len(m->raw));
    clean_add(m->subject, CLEAN_LINE, buf_str(m->raw_subject),
        buf_len(m->raw_subject));
    /* What begins anew on the same day is another message with the same text.
     */
    buf_print(m->seed, "%lld\n%s", (long long)run_moment(news->run).now,
        buf_str(m->text));
    return n;
}

static int
has_failed(const struct admin_letter *m)
{
    return buf_failed(m->raw_subject) || buf_failed(m->raw) ||
           buf_failed(m->subject) || buf_failed(m->text) || buf_failed(m->seed);
}

/* Put the letter into the outbox, or with @out show it. */
static int
deliver(const struct news *news, const struct admin_letter *m, struct buf *out,
    struct fault *f)
{
    const char *keeper = run_fleet(news->run)->site.mail.keeper;
    size_t n = write_letter(news, m);
    struct mailing mailing = {
        .person = MAILING_ADMIN,
        .address = keeper,
        .seed = m->seed,
        .subject = m->subject,
        .text = m->text,
    };

    if (has_failed(m))
        return fault_set(f, EX_OSERR, "out of memory");
    if (out == NULL)
        return n > 0 ? put(news, &mailing, f) : 0;
    if (n == 0)
        buf_print(out, "to the keeper: nothing new\n");
    else
        buf_print(out, "to the keeper, %s: %s\n", keeper, buf_str(m->subject));
    return 0;
}

static int
tell(const struct news *news, struct buf *out, struct fault *f)
{
    struct admin_letter m = {
        buf_new(), buf_new(), buf_new(), buf_new(), buf_new()};
    int rc = -1;

    if (!m.raw_subject || !m.raw || !m.subject || !m.text || !m.seed)
        fault_fill(f, EX_OSERR, "out of memory");
    else
        rc = deliver(news, &m, out, f);
    buf_free(m.seed);
    buf_free(m.text);
    buf_free(m.subject);
    buf_free(m.raw);
    buf_free(m.raw_subject);
    return rc;
}

static int
gather_and_tell(const struct run_context *p, const struct health_checks *w,
    struct buf *out, struct fault *f)
{
    struct news news;

    if (run_fleet(p)->site.mail.keeper == NULL)
        return 0;
    int rc = gather(p, w, &news, f);
    if (rc == 0)
        rc = tell(&news, out, f);
    arena_free(news.arena);
    return rc;
}

int
admin_mail_tell(
    const struct run_context *p, const struct health_checks *w, struct fault *f)
{
    return gather_and_tell(p, w, NULL, f);
}

int
admin_mail_show(const struct run_context *p, const struct health_checks *w,
    struct buf *out, struct fault *f)
{
    return gather_and_tell(p, w, out, f);
}
