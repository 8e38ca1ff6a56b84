#include "fitness.h"

#include "defect_events.h"
#include "dues.h"
#include "records.h"

#include <string.h>
#include <sysexits.h>

/* The facts, and what dues do not follow from but conditions do.  NULL with @f
 * set. */
static struct record *
gather(const struct run_context *p, size_t *n, struct fault *f)
{
    const struct facts *facts = run_facts(p);
    size_t n_facts = facts->first[facts->fleet->n_subjects];
    struct record *left;
    struct record *checks;
    size_t n_left;
    size_t n_checks;

    if (records_of_kinds(run_ledger(p), run_fleet(p), RECORD_BIT(RECORD_LEFT),
            run_arena(p), &left, &n_left, f) ||
        records_newest_checks(
            run_ledger(p), run_fleet(p), run_arena(p), &checks, &n_checks, f))
        return NULL;
    *n = n_facts + n_left + n_checks;
    struct record *all = arena_take(run_arena(p), (*n + 1) * sizeof *all);
    if (all == NULL) {
        fault_fill(f, EX_OSERR, "out of memory");
        return NULL;
    }
    if (n_facts > 0)
        memcpy(all, facts->records, n_facts * sizeof *all);
    if (n_left > 0)
        memcpy(all + n_facts, left, n_left * sizeof *all);
    if (n_checks > 0)
        memcpy(all + n_facts + n_left, checks, n_checks * sizeof *all);
    return all;
}

struct conditions *
fitness_make(const struct run_context *p, const struct snapshot *s,
    const struct defects *ds, struct fault *f)
{
    size_t n;
    struct record *records = gather(p, &n, f);

    if (records == NULL)
        return NULL;
    struct conditions *c = conditions_new(s, ds, records, n);
    if (c == NULL)
        fault_fill(f, EX_OSERR, "out of memory");
    return c;
}

const struct conditions *
fitness_of_run(const struct run_context *p, struct fault *f)
{
    struct run_made *m = run_made(p);

    if (m->conditions != NULL)
        return m->conditions;
    const struct snapshot *s = dues_of_run(p, f);
    if (s != NULL && m->defects == NULL)
        m->defects = defect_events_fold(p, f);
    if (s != NULL && m->defects != NULL)
        m->conditions = fitness_make(p, s, m->defects, f);
    return m->conditions;
}

const struct defects *
fitness_defects(const struct run_context *p)
{
    return run_made(p)->defects;
}
