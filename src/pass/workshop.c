#include "workshop.h"

#include "fitness.h"

#include <stdlib.h>
#include <sysexits.h>

int
workshop_page(const struct run_context *p, const struct snapshot *s,
    const struct workshop *w, struct buf *out, struct fault *f)
{
    day_t today = snapshot_today(s);
    const struct filter filter = {
        .scopes = w->scopes,
        .n_scopes = w->n_scopes,
        .projected = 1,
        .from = today,
        .to = page_until(today),
    };
    const struct conditions *conditions = fitness_of_run(p, f);
    char drawn[CLOCK_WORDS];
    struct selection dues;
    const struct page page = {
        .dues = &dues,
        .filter = &filter,
        .conditions = conditions,
        .facts = run_facts(p),
        .part = w->part,
        .drawn =
            clock_words(run_fleet(p)->site.time_zone, run_moment(p).now, drawn),
        .notice = w->notice,
        .recorder = w->recorder,
    };

    if (conditions == NULL)
        return -1;
    if (select_dues(s, &filter, &dues))
        return fault_set(f, EX_OSERR, "out of memory");
    int rc = page_html(&page, out);
    free(dues.dues);
    return rc ? fault_set(f, EX_OSERR, "out of memory") : 0;
}
