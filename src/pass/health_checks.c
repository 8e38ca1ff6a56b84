#include "health_checks.h"

#include "arena.h"
#include "kind.h"
#include "outbox.h"
#include "wording.h"
#include "work_calendar.h"

#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sysexits.h>

/* These are our own policy. */
#define HOLIDAYS_LEFT 56  /* days */
#define READINGS_QUIET 28 /* days */

struct health_checks {
    struct arena *arena;
    struct trouble *found;
    size_t n;
    int failed;
};

struct health_checks *
health_checks_new(void)
{
    struct health_checks *w = calloc(1, sizeof *w);

    if (w == NULL || (w->arena = arena_new()) != NULL)
        return w;
    free(w);
    return NULL;
}

void
health_checks_free(struct health_checks *w)
{
    if (w == NULL)
        return;
    arena_free(w->arena);
    free(w);
}

static int
is_found(const struct health_checks *w, const char *about)
{
    for (size_t i = 0; i < w->n; i++)
        if (strcmp(w->found[i].about, about) == 0)
            return 1;
    return 0;
}

void
health_checks_add(
    struct health_checks *w, const char *about, const char *format, ...)
{
    char says[600];
    va_list args;

    if (is_found(w, about))
        return;
    va_start(args, format);
    vsnprintf(says, sizeof says, format, args);
    va_end(args);
    w->found = arena_one_more(w->arena, w->found, w->n, sizeof *w->found);
    struct trouble t = {
        .about = arena_text(w->arena, about, strlen(about)),
        .says = arena_text(w->arena, says, strlen(says)),
    };
    if (w->found == NULL || t.about == NULL || t.says == NULL)
        w->failed = 1;
    else
        w->found[w->n++] = t;
}

const struct trouble *
health_checks_found(const struct health_checks *w, size_t *n)
{
    static const struct trouble nothing;

    *n = w->n;
    if (w->failed)
        return NULL;
    return w->n > 0 ? w->found : &nothing;
}

static void
look_at_calendar(struct health_checks *w, const char *kind, const char *name,
    const struct work_calendar *calendar, day_t today)
{
    day_t until = work_calendar_known_until(calendar);
    char about[160];
    char day[WORDING_DATE];

    if (until == DAY_NONE || until - today >= HOLIDAYS_LEFT)
        return;
    snprintf(about, sizeof about, "the holidays of %s%s", kind, name);
    health_checks_add(w, about,
        "%s are known until %s only: fetch a newer file, or add what is "
        "published since and move 'known-until'",
        about, wording_date(until, day));
}

static void
look_at_holidays(struct health_checks *w, const struct run_context *p)
{
    const struct fleet *fleet = run_fleet(p);
    day_t today = run_moment(p).today;

    for (size_t i = 0; i < fleet->n_depots; i++)
        look_at_calendar(
            w, "depot ", fleet->depots[i].id, fleet->depots[i].calendar, today);
    for (size_t i = 0; i < fleet->n_tasks; i++)
        if (fleet->tasks[i].rule->calendar != NULL)
            look_at_calendar(w, "", fleet->tasks[i].rule->place,
                fleet->tasks[i].rule->calendar, today);
}

/* The first written of those that were given up, or of those that have waited
 * for long; NULL for none. */
static const struct outbox_message *
first_of(const struct outbox_message *m, size_t n, int gave_up, int64_t now)
{
    for (size_t i = 0; i < n; i++)
        if (gave_up ? m[i].gave_up != 0
                    : m[i].gave_up == 0 &&
                          now - m[i].created >= HEALTH_MAIL_WAITING)
            return &m[i];
    return NULL;
}

static int
look_at_mail(
    struct health_checks *w, const struct run_context *p, struct fault *f)
{
    int64_t now = run_moment(p).now;
    struct outbox_message *open;
    const struct outbox_message *m;
    size_t n;
    char when[CLOCK_WORDS];

    if (outbox_open(run_ledger(p), w->arena, &open, &n, f))
        return -1;
    if ((m = first_of(open, n, 0, now)) != NULL)
        health_checks_add(w, "the mail",
            "message %lld to %s, written %s, is not sent yet, and is tried "
            "again each time",
            (long long)m->id, m->recipient,
            clock_words(run_fleet(p)->site.time_zone, m->created, when));
    if ((m = first_of(open, n, 1, now)) != NULL)
        health_checks_add(w, "mail that was given up",
            "message %lld to %s was given up: see ostler outbox, and then "
            "retry or drop it",
            (long long)m->id, m->recipient);
    return 0;
}

/* Nonzero when some work goes by a meter. */
static int
any_metered(const struct snapshot *s)
{
    size_t n;
    const struct due *dues = snapshot_dues(s, &n);

    for (size_t i = 0; i < n; i++) {
        const struct rule *rule = dues[i].task->rule;
        for (int k = 0; k < rule->n_every; k++)
            if (kind_meter(&rule->every[k]) != METER_NONE)
                return 1;
    }
    return 0;
}

static void
look_at_readings(struct health_checks *w, const struct run_context *p,
    const struct snapshot *s)
{
    const struct facts *facts = run_facts(p);
    size_t n = facts->first[facts->fleet->n_subjects];
    day_t newest = DAY_NONE;
    char day[WORDING_DATE];

    for (size_t i = 0; i < n; i++)
        if (facts->records[i].reading >= 0)
            newest = day_later(newest, facts->records[i].day);
    if (newest != DAY_NONE && any_metered(s) &&
        run_moment(p).today - newest >= READINGS_QUIET)
        health_checks_add(w, "the readings",
            "no reading of any vehicle is on record since %s",
            wording_date(newest, day));
}

int
health_checks_look(struct health_checks *w, const struct run_context *p,
    const struct snapshot *s, struct fault *f)
{
    look_at_holidays(w, p);
    look_at_readings(w, p, s);
    return look_at_mail(w, p, f);
}
