#include "waiting.h"

#include "arena.h"
#include "health_checks.h"
#include "outbox.h"
#include "timing.h"

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
