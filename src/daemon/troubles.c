#include "troubles.h"

#include "journal.h"
#include "keeper.h"

#include <string.h>
#include <sysexits.h>

/* What the keeper reads trouble is with. */
static const char *const names[TROUBLES_KNOWN] = {
    [TROUBLE_ROUND] = "the daemon",
    [TROUBLE_FLEET] = "the fleet file",
    [TROUBLE_FEEDS] = "the feeds",
    [TROUBLE_REMINDERS] = "the reminders",
    [TROUBLE_PLAN] = "the plan",
    [TROUBLE_SENDING] = "sending mail",
};

int
troubles_note(struct troubles *t, enum trouble_with what, int failed,
    const struct fault *seen)
{
    struct fault *was = &t->with[what];

    if (!failed && was->code == 0)
        return 0;
    if (!failed) {
        journal(JOURNAL_INFO, "over: %s", was->text);
        was->code = 0;
        return 1;
    }
    if (was->code != 0 && strcmp(was->text, seen->text) == 0)
        return 0;
    journal(JOURNAL_ERROR, "%s", seen->text);
    *was = *seen;
    return 1;
}

const struct fault *
troubles_with(const struct troubles *t, enum trouble_with what)
{
    return t->with[what].code != 0 ? &t->with[what] : NULL;
}

const struct fault *
troubles_any(const struct troubles *t)
{
    for (int i = 0; i < TROUBLES_KNOWN; i++)
        if (t->with[i].code != 0)
            return &t->with[i];
    return NULL;
}

int
troubles_tell(const struct troubles *t, const struct run_context *p,
    const struct snapshot *s, struct fault *f)
{
    struct watch *w = watch_new();

    if (w == NULL)
        return fault_set(f, EX_OSERR, "out of memory");
    for (int i = 0; i < TROUBLES_KNOWN; i++)
        if (t->with[i].code != 0)
            watch_add(w, names[i], "%s", t->with[i].text);
    int rc = watch_look(w, p, s, f) ? -1 : keeper_tell(p, w, f);
    watch_free(w);
    return rc;
}
