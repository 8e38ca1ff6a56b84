#ifndef KIND_H
#define KIND_H

#include "rule.h"

#include <stddef.h>

struct arena;
struct buf;
struct scan;

/*
 * Read one interval, as "12 months", "20000 km" or "yearly on 1 nov", up to
 * the next "or" or the end.  Texts are taken from @a.  Returns 0; -1 when no
 * kind knows the words, and then kind_form() says what there is; or
 * KIND_NO_MEMORY.
 */
#define KIND_NO_MEMORY (-2)
int kind_parse(struct scan *s, struct arena *a, struct interval *out);

/* How the kind at @i of the table is spelled, "N days|weeks|months|years", for
 * a message or a manual; NULL past the last. */
const char *kind_form(size_t i);

/* Append @i as it was understood: "12 months", "4 within 12 months". */
void kind_print(const struct interval *i, struct buf *out);

/* Nonzero for a length of time, also one with a count. */
int kind_is_length(const struct interval *i);

/* Nonzero when the work of @rule is only recorded when it happens, and so when
 * it has no interval at all. */
int kind_never_due(const struct rule *rule);

/* Nonzero when this interval names its deadlines itself (a yearly date, a
 * recurrence), so that nothing is said of what it runs from. */
int kind_is_calendar_rule(const struct interval *i);

/* Nonzero when the deadline after a completion depends on the deadline before
 * it, and so on each completion that there ever was. */
int kind_runs_on(const struct interval *i, enum runs_from runs_from);

/* Nonzero when it depends on so many completions before it: a count. */
int kind_looks_back(const struct interval *i);

/* The meter that this interval is measured by, METER_NONE for the calendar. */
enum meter kind_meter(const struct interval *i);

#endif
