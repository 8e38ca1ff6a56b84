#include "page_parts.h"

#include "buf.h"
#include "html.h"
#include "wording.h"

#include <stdlib.h>

/* The current cycle alone counts here, as below. */
static int
is_failed(const struct page *p, const struct due *d)
{
    (void)p;
    return d->cycle.ahead == 0 && d->state == DUE_FAILED;
}

/* What failed is named here as well, for this list says what is not to be
 * used. */
static int
is_law_overdue(const struct page *p, const struct due *d)
{
    (void)p;
    return d->besides == DUE_OVERDUE && d->cycle.ahead == 0 &&
           d->task->job->class == CLASS_LAW;
}

static int
is_other_overdue(const struct page *p, const struct due *d)
{
    return d->state == DUE_OVERDUE && d->cycle.ahead == 0 &&
           !is_law_overdue(p, d);
}

static int
is_unknown(const struct page *p, const struct due *d)
{
    (void)p;
    return d->cycle.ahead == 0 && page_look(d) == LOOK_UNKNOWN;
}

/* What is to be done before a vehicle returns stands with it. */
static int
is_parked(const struct page *p, const struct due *d)
{
    (void)p;
    return d->cycle.ahead == 0 && d->besides == DUE_BEFORE_RETURN;
}

/* A list under a sentence; each row of the picture is named once. */
static int
add_rows(const struct page *p, page_wanted *wanted, const char *intro,
    struct buf *out)
{
    struct page_list list;
    const struct subject *row = NULL;
    int rc = 0;

    if (page_choose(p, wanted, 1, &list))
        return -1;
    for (size_t i = 0; i < list.n; i++) {
        const struct subject *s = page_carrier(list.dues[i]->task->subject);
        if (row == NULL)
            buf_print(out, "<p>%s</p>\n", intro);
        if (s != row) {
            buf_text(out, row ? "</ul></div>\n<div class=\"card\"><h3>"
                              : "<div class=\"card\"><h3>");
            page_plate(s, out);
            html_add(s->title ? s->title : fleet_kind_word(s->kind), out);
            buf_text(out, "</h3><ul>\n");
        }
        row = s;
        rc |= page_item(p, list.dues[i], 0, out);
    }
    buf_text(out, row ? "</ul></div>\n" : "");
    free(list.dues);
    return rc;
}

static size_t
count(const struct page *p, page_wanted *wanted)
{
    size_t n = 0;

    for (size_t i = 0; i < p->dues->n; i++)
        n += (size_t)(wanted(p, p->dues->dues[i]) != 0);
    return n;
}

/* Nonzero when some due of the page is of @s itself or of what it carries. */
static int
has_row(const struct page *p, const struct subject *s)
{
    for (size_t i = 0; i < p->dues->n; i++)
        if (page_carrier(p->dues->dues[i]->task->subject) == s)
            return 1;
    return 0;
}

static void
add_spell(const struct subject *s, const struct record *r, struct buf *out)
{
    char day[WORDING_DATE];

    buf_text(out, "<div class=\"card off\"><h3>");
    page_plate(s, out);
    html_add(s->title ? s->title : fleet_kind_word(s->kind), out);
    buf_print(
        out, "</h3><p>Off the road since %s, ", wording_date(r->day, day));
    if (r->until == DAY_NONE)
        buf_text(out, "no return on record");
    else
        buf_print(out, "up to and on %s", wording_date(r->until, day));
    if (r->note != NULL) {
        buf_text(out, ": <bdi>");
        html_add(r->note, out);
        buf_text(out, "</bdi>");
    }
    buf_text(out, "</p>\n");
}

static int
add_parked(const struct page *p, const struct page_list *parked,
    const struct subject *s, struct buf *out)
{
    int begun = 0;
    int rc = 0;

    for (size_t i = 0; i < parked->n; i++) {
        if (page_carrier(parked->dues[i]->task->subject) != s)
            continue;
        if (!begun++)
            buf_text(out, "<p>Before it returns:</p><ul class=\"brief\">\n");
        rc |= page_item(p, parked->dues[i], 0, out);
    }
    buf_text(out, begun ? "</ul>" : "");
    return rc;
}

/* What stands still today, each with what is to be done before it returns. */
static int
add_off_road(const struct page *p, size_t *n, struct buf *out)
{
    const struct fleet *f = snapshot_fleet(p->dues->of);
    day_t today = snapshot_today(p->dues->of);
    struct page_list parked;
    int rc = 0;

    if (page_choose(p, is_parked, 1, &parked))
        return -1;
    for (size_t i = 0; i < f->n_subjects; i++) {
        const struct subject *s = &f->subjects[i];
        const struct record *r =
            s->carrier ? NULL : page_spell(p, s, today, today);
        if (r == NULL || !has_row(p, s))
            continue;
        ++*n;
        add_spell(s, r, out);
        rc |= add_parked(p, &parked, s, out);
        buf_text(out, "</div>\n");
    }
    free(parked.dues);
    return rc;
}

static void
add_head(const char *id, const char *title, size_t n, struct buf *out)
{
    buf_print(out,
        "<section class=\"%s\" aria-labelledby=\"%s\"><h2 id=\"%s\">%s "
        "<span class=\"n\">%zu</span></h2>\n",
        id, id, id, title, n);
}

int
page_has_failed(const struct page *p)
{
    return count(p, is_failed) > 0;
}

/*
 * Whether a vehicle may be driven is not ours to say: the first sentence says
 * whose rule it is, and who decides.
 */
static int
add_stop(const struct page *p, struct buf *out)
{
    struct buf *off = buf_new();
    size_t n = count(p, is_law_overdue);

    if (off == NULL || add_off_road(p, &n, off)) {
        buf_free(off);
        return -1;
    }
    add_head("stop", "Not for use", n, out);
    if (n == 0)
        buf_text(out, page_has_failed(p)
                          ? "<p class=\"none\">Nothing more is on record "
                            "than what failed.</p>\n"
                          : "<p class=\"none\">Nothing on record keeps a "
                            "vehicle off the road.</p>\n");
    int rc = add_rows(p, is_law_overdue,
        "Overdue by a rule that the fleet file calls law: leave it standing "
        "until the job is done and recorded, or whoever is answerable says "
        "otherwise.",
        out);
    buf_add(out, buf_str(off), buf_len(off));
    buf_text(out, "</section>\n");
    rc = rc || buf_failed(off) ? -1 : 0;
    buf_free(off);
    return rc;
}

/* What failed comes before all else. */
static int
add_failed(const struct page *p, struct buf *out)
{
    if (!page_has_failed(p))
        return 0;
    add_head("failed", "Failed", count(p, is_failed), out);
    int rc = add_rows(p, is_failed,
        "Tried and not passed, nor done since: whoever is answerable says "
        "whether it may be used until then.",
        out);
    buf_text(out, "</section>\n");
    return rc;
}

int
page_has_unknown(const struct page *p)
{
    return count(p, is_unknown) > 0;
}

int
page_urgent(const struct page *p, struct buf *out)
{
    size_t n = count(p, is_other_overdue);
    size_t unknown = count(p, is_unknown);

    if (add_failed(p, out) || add_stop(p, out))
        return -1;

    add_head(
        "late", count(p, is_law_overdue) ? "Also overdue" : "Overdue", n, out);
    if (n == 0)
        buf_text(out, "<p class=\"none\">Nothing.</p>\n");
    if (add_rows(p, is_other_overdue,
            "Past the deadline by the maker, a recommendation or a rule of "
            "your own.",
            out))
        return -1;
    buf_text(out, "</section>\n");
    if (unknown == 0)
        return 0;
    add_head("open", "Not known", unknown, out);
    if (add_rows(p, is_unknown,
            "Nobody can tell when it is due until it is recorded, or the "
            "meter read.",
            out))
        return -1;
    buf_text(out, "</section>\n");
    return 0;
}
