#include "show.h"

static void
show_number(size_t n, const char *what, struct buf *out)
{
    if (n == 0)
        buf_text(out, "none");
    else
        buf_print(out, "%zu %s%s", n, what, n == 1 ? "" : "s");
}

SHOW_WRITER(show_rules)
{
    show_number(((const struct holidays *)at)->set.n_rules, "rule", out);
}

SHOW_WRITER(show_added)
{
    const struct holidays *h = at;

    show_number(h->set.n_added - h->n_published, "day", out);
}

SHOW_WRITER(show_removed)
{
    show_number(((const struct holidays *)at)->set.n_removed, "day", out);
}

SHOW_WRITER(show_published)
{
    const struct holidays *h = at;

    if (h->file != NULL)
        buf_print(out, "%s: ", h->file);
    show_number(h->n_published, "day", out);
}

/* The sections whose sets the calendar keeps, as it lists them. */
SHOW_WRITER(show_holidays)
{
    const struct workcal_plan *plan = &((const struct calendar *)at)->plan;

    if (plan->n_holidays == 0)
        buf_text(out, "none");
    for (size_t i = 0; i < plan->n_holidays; i++)
        for (const struct section *s = r->document->sections; s; s = s->next)
            if (s->kind == SECTION_HOLIDAYS &&
                &((const struct holidays *)s->object)->set == plan->holidays[i])
                buf_print(out, "%s%s", i > 0 ? " " : "", s->id);
}

SHOW_WRITER(show_closed)
{
    show_number(((const struct calendar *)at)->plan.n_closed, "day", out);
}

SHOW_WRITER(show_open)
{
    show_number(((const struct calendar *)at)->plan.n_open, "day", out);
}
