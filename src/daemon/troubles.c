#include "troubles.h"

#include "log.h"

#include <string.h>
#include <sysexits.h>

/* What its administrator reads trouble is with. */
static const char *
about(enum trouble_with what)
{
    static const char *const names[TROUBLES_KNOWN] = {
        [TROUBLE_ROUND] = "the daemon",
        [TROUBLE_FLEET] = "the fleet file",
        [TROUBLE_SENDING] = "sending mail",
    };

    switch (what) {
    case TROUBLE_FEEDS:
        return parts_about(PART_FEEDS);
    case TROUBLE_REMINDERS:
        return parts_about(PART_REMINDERS);
    case TROUBLE_PLAN:
        return parts_about(PART_PLAN);
    default:
        return names[what];
    }
}

int
troubles_note(struct troubles *t, enum trouble_with what, int failed,
    const struct fault *seen)
{
    struct fault *was = &t->with[what];

    if (!failed && was->code == 0)
        return 0;
    if (!failed) {
        log_line(LOG_INFO, "over: %s", was->text);
        was->code = 0;
        return 1;
    }
    if (was->code != 0 && strcmp(was->text, seen->text) == 0)
        return 0;
    log_line(LOG_ERROR, "%s", seen->text);
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

void
troubles_add(const struct troubles *t, struct health_checks *checks)
{
    for (int i = 0; i < TROUBLES_KNOWN; i++)
        if (t->with[i].code != 0)
            health_checks_add(
                checks, about((enum trouble_with)i), "%s", t->with[i].text);
}
