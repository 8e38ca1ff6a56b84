#include "kind.h"

#include "arena.h"
#include "calc_context.h"
#include "scan.h"

#include <string.h>

/* Every kind there is, each defined in its own file: to add one, give it a
 * row.  The first that takes the words has them: "4 within 12 months" begins
 * with a number, so the count comes before the length. */
#define KINDS_OF_INTERVAL                                                      \
    ROW(kind_count)                                                            \
    ROW(kind_length)                                                           \
    ROW(kind_distance)                                                         \
    ROW(kind_hours)                                                            \
    ROW(kind_yearly)                                                           \
    ROW(kind_recurrence)                                                       \
    ROW(kind_needed)

#define ROW(kind) extern const struct interval_kind kind;
KINDS_OF_INTERVAL
#undef ROW

#define ROW(kind) &kind,
static const struct interval_kind *const kinds[] = {KINDS_OF_INTERVAL};
#undef ROW

#define KINDS (sizeof kinds / sizeof kinds[0])

int
kind_parse(struct scan *s, struct arena *a, struct interval *out)
{
    for (size_t i = 0; i < KINDS; i++) {
        struct scan attempt = *s;
        struct interval found = {.kind = kinds[i]};
        size_t len;

        const char *text = scan_peek(&attempt, &len);
        int rc = kinds[i]->parse(&attempt, a, &found);
        if (rc == KIND_NO_MEMORY)
            return rc;
        if (rc != 0)
            continue;
        found.text = arena_text(a, text, (size_t)(attempt.at - text));
        if (found.text == NULL)
            return KIND_NO_MEMORY;
        *s = attempt;
        *out = found;
        return 0;
    }
    return -1;
}

const char *
kind_form(size_t i)
{
    return i < KINDS ? kinds[i]->form : NULL;
}

void
kind_print(const struct interval *i, struct buf *out)
{
    i->kind->print(i, out);
}

int
kind_is_length(const struct interval *i)
{
    return i->kind->by_length;
}

int
kind_never_due(const struct rule *rule)
{
    for (int i = 0; i < rule->n_every; i++)
        if (!rule->every[i].kind->never_due)
            return 0;
    return 1;
}

int
kind_is_calendar_rule(const struct interval *i)
{
    return i->kind->date_from != NULL;
}

int
kind_runs_on(const struct interval *i, enum runs_from runs_from)
{
    return i->kind->needs_history &&
           (i->kind->date_from != NULL || runs_from != FROM_COMPLETION);
}

int
kind_looks_back(const struct interval *i)
{
    return i->kind->looks_back;
}

enum meter
kind_meter(const struct interval *i)
{
    return i->kind->meter;
}
