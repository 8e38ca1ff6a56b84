#include "page_parts.h"
#include "page_sections.h"

#include "html.h"
#include "isoweek.h"
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
            html_print(out, "<p>%s</p>\n", intro);
        else if (s != row)
            html_print(out, "</ul></div>\n");
        if (s != row) {
            html_print(out, "<div class=\"card\"><h3>");
            page_plate(s, out);
            html_print(out, "%s</h3><ul>\n",
                s->title ? s->title : fleet_kind_word(s->kind));
        }
        row = s;
        rc |= page_item(p, list.dues[i], 0, out);
    }
    if (row != NULL)
        html_print(out, "</ul></div>\n");
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

    html_print(out, "<div class=\"card off\"><h3>");
    page_plate(s, out);
    html_print(out, "%s</h3><p>Off the road since %s, ",
        s->title ? s->title : fleet_kind_word(s->kind),
        wording_date(r->day, day));
    if (r->until == DAY_NONE)
        html_print(out, "no return on record");
    else
        html_print(out, "up to and on %s", wording_date(r->until, day));
    if (r->note != NULL)
        html_print(out, ": <bdi>%s</bdi>", r->note);
    html_print(out, "</p>\n");
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
            html_print(out, "<p>Before it returns:</p><ul class=\"brief\">\n");
        rc |= page_item(p, parked->dues[i], 0, out);
    }
    if (begun)
        html_print(out, "</ul>");
    return rc;
}

/* The spell off the road of a row that stands still today, or NULL. */
static const struct record *
stands_still(const struct page *p, const struct subject *s)
{
    day_t today = snapshot_today(p->dues->of);
    const struct record *r =
        s->carrier == NULL ? page_spell(p, s, today, today) : NULL;

    return r != NULL && has_row(p, s) ? r : NULL;
}

static size_t
count_off_road(const struct page *p)
{
    const struct fleet *f = snapshot_fleet(p->dues->of);
    size_t n = 0;

    for (size_t i = 0; i < f->n_subjects; i++)
        n += stands_still(p, &f->subjects[i]) != NULL;
    return n;
}

/* What stands still today, each with what is to be done before it returns. */
static int
add_off_road(const struct page *p, struct buf *out)
{
    const struct fleet *f = snapshot_fleet(p->dues->of);
    struct page_list parked;
    int rc = 0;

    if (page_choose(p, is_parked, 1, &parked))
        return -1;
    for (size_t i = 0; i < f->n_subjects; i++) {
        const struct subject *s = &f->subjects[i];
        const struct record *r = stands_still(p, s);
        if (r == NULL)
            continue;
        add_spell(s, r, out);
        rc |= add_parked(p, &parked, s, out);
        html_print(out, "</div>\n");
    }
    free(parked.dues);
    return rc;
}

/* The head of a part, whose id is also its class, and what stands there when
 * there is nothing in it. */
static void
add_head(const char *id, const char *title, size_t n, const char *nothing,
    struct buf *out)
{
    html_print(out,
        "<section class=\"%s\" aria-labelledby=\"%s\"><h2 id=\"%s\">%s "
        "<span class=\"n\">%zu</span></h2>\n",
        id, id, id, title, n);
    if (n == 0)
        html_print(out, "<p class=\"none\">%s</p>\n", nothing);
}

int
page_has_failed(const struct page *p)
{
    return count(p, is_failed) > 0;
}

int
page_has_unknown(const struct page *p)
{
    return count(p, is_unknown) > 0;
}

/*
 * Whether a vehicle may be driven is not ours to say: the sentence above the
 * list says whose rule it is, and who decides.
 */
static int
add_stop(const struct page *p, struct buf *out)
{
    size_t n = count(p, is_law_overdue) + count_off_road(p);

    add_head("stop", "Not for use", n,
        page_has_failed(p) ? "Nothing more is on record than what failed."
                           : "Nothing on record keeps a vehicle off the road.",
        out);
    int rc = add_rows(p, is_law_overdue,
        "Overdue by a rule that the fleet file calls law: leave it standing "
        "until the job is done and recorded, or whoever is answerable says "
        "otherwise.",
        out);
    rc |= add_off_road(p, out);
    html_print(out, "</section>\n");
    return rc;
}

/* A part with a list of cards under a sentence. */
static int
add_part(const struct page *p, const char *id, const char *title,
    page_wanted *wanted, const char *intro, struct buf *out)
{
    add_head(id, title, count(p, wanted), "Nothing.", out);
    int rc = add_rows(p, wanted, intro, out);
    html_print(out, "</section>\n");
    return rc;
}

/* What is neither overdue nor without a day. */
static int
is_planned(const struct due *d)
{
    return (d->state == DUE_NOW || d->state == DUE_AHEAD) &&
           select_day(d) != DAY_NONE;
}

/* What was last done on a day to come has to be seen now, whatever its day. */
static int
is_this_week(const struct page *p, const struct due *d)
{
    day_t last = isoweek_end(snapshot_today(p->dues->of));
    int at_once = d->cycle.ahead == 0 && d->warnings & WARN_DONE_LATER;

    return is_planned(d) && (select_day(d) <= last || at_once);
}

static int
is_next_week(const struct page *p, const struct due *d)
{
    day_t last = isoweek_end(snapshot_today(p->dues->of));

    return is_planned(d) && !is_this_week(p, d) && select_day(d) <= last + 7;
}

/* A leaf of a calendar, with the items of its day. */
static void
begin_day(day_t day, day_t today, struct buf *out)
{
    char text[WORDING_DATE];

    html_print(out, "<div class=\"day%s\"><h3><time datetime=\"%s\">%s</time>",
        day == today  ? " today"
        : day < today ? " gone"
                      : "",
        day_text(day, (char[DAY_TEXT]){0}), wording_short_date(day, text));
    if (day <= today)
        html_print(out, " <span>%s</span>",
            day == today ? "today" : "its day has passed");
    html_print(out, "</h3><ul>\n");
}

static int
add_week(const struct page *p, page_wanted *wanted, const char *title,
    day_t monday, struct buf *out)
{
    struct page_list list;
    day_t today = snapshot_today(p->dues->of);
    day_t day = DAY_NONE;
    const char *id = monday > today ? "next" : "this";
    int rc = 0;

    if (page_choose(p, wanted, 0, &list))
        return -1;
    html_print(out,
        "<section class=\"week\" aria-labelledby=\"%s\"><h2 id=\"%s\">%s "
        "<span class=\"wk\">week %d</span> <span class=\"n\">%zu</span></h2>\n",
        id, id, title, isoweek_of(monday).week, list.n);
    if (list.n == 0)
        html_print(out, "<p class=\"none\">Nothing is planned.</p>\n");
    for (size_t i = 0; i < list.n; i++) {
        if (select_day(list.dues[i]) != day) {
            if (day != DAY_NONE)
                html_print(out, "</ul></div>\n");
            day = select_day(list.dues[i]);
            begin_day(day, today, out);
        }
        rc |= page_item(p, list.dues[i], 1, out);
    }
    if (day != DAY_NONE)
        html_print(out, "</ul></div>\n");
    html_print(out, "</section>\n");
    free(list.dues);
    return rc;
}

/* The parts in the order of their weight: what failed, what is not for use,
 * what else is late, what nobody knows; then the work of two weeks. */
int
page_board(const struct page *p, struct buf *out)
{
    day_t monday = isoweek_first(snapshot_today(p->dues->of));
    int rc = 0;

    if (page_has_failed(p))
        rc |= add_part(p, "failed", wording_of(DUE_FAILED)->heading, is_failed,
            "Tried and not passed, nor done since: whoever is answerable says "
            "whether it may be used until then.",
            out);
    rc |= add_stop(p, out);
    rc |= add_part(p, "late",
        count(p, is_law_overdue) ? "Also overdue"
                                 : wording_of(DUE_OVERDUE)->heading,
        is_other_overdue,
        "Past the deadline by the maker, a recommendation or a rule of "
        "your own.",
        out);
    if (page_has_unknown(p))
        rc |= add_part(p, "open", "Not known", is_unknown,
            "Nobody can tell when it is due until it is recorded, or the "
            "meter read.",
            out);
    rc |= add_week(p, is_this_week, "This week", monday, out);
    if (day_valid(monday + 7))
        rc |= add_week(p, is_next_week, "Next week", monday + 7, out);
    return rc ? -1 : 0;
}
