#include "health.h"

#include "arena.h"
#include "health_checks.h"
#include "outbox.h"
#include "resource.h"
#include "timing.h"
#include "troubles.h"

#include <stdio.h>
#include <sysexits.h>

static void
count(const struct run_context *p, const struct outbox_message *m,
    struct waiting *out)
{
    int64_t now = run_moment(p).now;
    /* One tried in the future was tried by a clock that was wrong. */
    int64_t next = m->tried > now ? now : m->next_try;

    if (m->gave_up != 0) {
        out->given_up++;
        return;
    }
    out->waiting++;
    out->late += now - m->created >= HEALTH_MAIL_WAITING;
    if (run_fleet(p)->site.mail.from != NULL && next < out->next)
        out->next = next;
}

int
waiting_look(const struct run_context *p, struct waiting *out, struct fault *f)
{
    struct arena *a = arena_new();
    struct outbox_message *open = NULL;
    size_t n = 0;

    if (a == NULL)
        return fault_set(f, EX_OSERR, "out of memory");
    int rc = outbox_open(run_ledger(p), a, &open, &n, f);
    if (rc == 0)
        *out = (struct waiting){.next = TIMING_NEVER};
    for (size_t i = 0; i < n && rc == 0; i++)
        count(p, &open[i], out);
    arena_free(a);
    return rc;
}

struct health
health_by(const struct troubles *t, const struct waiting *mail)
{
    return (struct health){
        .pass = !troubles_with(t, TROUBLE_ROUND),
        .fleet = !troubles_with(t, TROUBLE_FLEET),
        .feeds = !troubles_with(t, TROUBLE_FEEDS),
        .reminders = !troubles_with(t, TROUBLE_REMINDERS),
        .sending = !troubles_with(t, TROUBLE_SENDING) && mail->late == 0,
        .waiting = mail->waiting,
        .given_up = mail->given_up,
    };
}

/* Nonzero when nothing needs anybody. */
static int
is_well(const struct health *h)
{
    return h->pass && h->fleet && h->feeds && h->reminders && h->sending &&
           h->given_up == 0;
}

static const char *
word(int yes)
{
    return yes ? "true" : "false";
}

struct resource *
health_page(const struct health *h)
{
    const struct resource_facts facts = {
        .status = is_well(h) ? 200 : 503,
        .type = "application/json",
        .cache = "no-store",
    };
    char day[DAY_TEXT];
    char text[400];
    int second = (int)(h->passed % 86400);

    int n = snprintf(text, sizeof text,
        "{\"schema\": 1, \"well\": %s, \"last_pass\": "
        "\"%sT%02d:%02d:%02dZ\",\n \"pass\": %s, \"fleet\": %s, \"feeds\": "
        "%s, \"reminders\": %s,\n \"sending\": %s, "
        "\"mail\": {\"waiting\": %lld, "
        "\"given_up\": %lld}}\n",
        word(is_well(h)), day_text((day_t)(h->passed / 86400), day),
        second / 3600, second / 60 % 60, second % 60, word(h->pass),
        word(h->fleet), word(h->feeds), word(h->reminders), word(h->sending),
        (long long)h->waiting, (long long)h->given_up);
    return resource_new(&facts, text, (size_t)n);
}
