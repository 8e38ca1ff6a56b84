#include "page_parts.h"
#include "page_sections.h"

#include "buf.h"
#include "condition.h"
#include "html.h"
#include "isoweek.h"
#include "wording.h"

#include <stdlib.h>

/* Nonzero when @d is one of the reasons why a vehicle of the page is not to be
 * driven, and stands with them. */
static int
is_stop(const struct page *p, const struct due *d)
{
    if (d->cycle.ahead != 0 ||
        (d->state != DUE_FAILED && d->state != DUE_OVERDUE))
        return 0;
    const struct vehicle_condition *v =
        conditions_of(p->conditions, page_carrier(d->task->subject));
    if (v == NULL || !select_vehicle(p->filter, v->vehicle))
        return 0;
    for (size_t i = 0; i < v->n_stops; i++)
        if (v->stops[i].makes == CONDITION_NOT_TO_BE_DRIVEN &&
            v->stops[i].due == d)
            return 1;
    return 0;
}

/* The current cycle alone counts here, as below. */
static int
is_failed(const struct page *p, const struct due *d)
{
    return d->cycle.ahead == 0 && d->state == DUE_FAILED && !is_stop(p, d);
}

/* Of a driver, say, or of what no vehicle carries: it stops none.  What failed
 * is named here as well, for this list says what is not to be used. */
static int
is_law_overdue(const struct page *p, const struct due *d)
{
    return d->besides == DUE_OVERDUE && d->cycle.ahead == 0 &&
           d->task->job->overdue == OVERDUE_STOPS && !is_stop(p, d);
}

static int
is_other_overdue(const struct page *p, const struct due *d)
{
    return d->state == DUE_OVERDUE && d->cycle.ahead == 0 &&
           !is_law_overdue(p, d) && !is_stop(p, d);
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
            html_print(
                out, "%s ", s->title ? s->title : fleet_kind_word(s->kind));
            page_condition(p, s, out);
            html_print(out, "</h3><ul>\n");
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

/* "Off the road since Mon 2 Mar 2026, no return on record: winter". */
static void
add_spell(const struct record *r, struct buf *out)
{
    char day[WORDING_DATE];

    html_print(out, "<p>Off the road since %s, ", wording_date(r->day, day));
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

/* The spell off the road of a row that stands still today, or NULL; a vehicle
 * stands with those that are not to be driven. */
static const struct record *
stands_still(const struct page *p, const struct subject *s)
{
    day_t today = snapshot_today(p->dues->of);
    const struct record *r =
        s->carrier == NULL ? page_spell(p, s, today, today) : NULL;

    if (r != NULL && s->kind == SUBJECT_VEHICLE && select_vehicle(p->filter, s))
        return NULL;
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
        html_print(out, "<div class=\"card off\"><h3>");
        page_plate(s, out);
        html_print(
            out, "%s</h3>", s->title ? s->title : fleet_kind_word(s->kind));
        add_spell(r, out);
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
page_has_hold(const struct page *p)
{
    return count(p, is_law_overdue) + count_off_road(p) > 0;
}

int
page_has_unknown(const struct page *p)
{
    return count(p, is_unknown) > 0;
}

/* One reason, with its note, and who can lift it; a job with the form to record
 * it, a spell with what is to be done before the return. */
static int
add_reason(const struct page *p, const struct page_list *parked,
    const struct stop *s, struct buf *out)
{
    struct buf *text = buf_new();
    const char *note = stop_note(s);
    int rc = text == NULL ? -1 : 0;

    if (s->due != NULL) {
        html_print(out, "<ul>\n");
        rc |= page_item(p, s->due, 0, out);
        html_print(out, "</ul>\n");
    } else if (s->kind == STOP_OFF_ROAD) {
        add_spell(s->record, out);
        rc |= add_parked(p, parked, s->subject, out);
    } else if (text != NULL) {
        stop_say(s, text);
        html_print(out, "<p><bdi>%s%s%s</bdi></p>\n", buf_str(text),
            note ? ": " : "", note ? note : "");
    }
    html_print(
        out, "<p class=\"lift\">Lifted by %s</p>\n", stop_lifted_by(s->kind));
    buf_free(text);
    return rc;
}

static int
is_shown_as_stopped(const struct page *p, const struct vehicle_condition *v)
{
    return v->condition == CONDITION_NOT_TO_BE_DRIVEN &&
           select_vehicle(p->filter, v->vehicle);
}

/* Each vehicle that is not to be driven, with all that says so. */
static int
add_stopped(const struct page *p, struct buf *out)
{
    size_t n;
    const struct vehicle_condition *v = conditions_all(p->conditions, &n);
    struct page_list parked;
    size_t stopped = 0;
    int rc = 0;

    if (page_choose(p, is_parked, 1, &parked))
        return -1;
    for (size_t i = 0; i < n; i++)
        stopped += (size_t)is_shown_as_stopped(p, &v[i]);
    add_head("stop", "Not to be driven", stopped,
        page_has_failed(p) ? "Nothing on record stops one."
                           : "Nothing on record keeps a vehicle off the road.",
        out);
    for (size_t i = 0; i < n; i++) {
        if (!is_shown_as_stopped(p, &v[i]))
            continue;
        const struct subject *s = v[i].vehicle;
        html_print(out, "<div class=\"card\"><h3>");
        page_plate(s, out);
        html_print(out, "%s ", s->title ? s->title : fleet_kind_word(s->kind));
        page_condition(p, s, out);
        html_print(out, "</h3>\n");
        for (size_t k = 0; k < v[i].n_stops; k++)
            if (v[i].stops[k].makes == CONDITION_NOT_TO_BE_DRIVEN)
                rc |= add_reason(p, &parked, &v[i].stops[k], out);
        html_print(out, "</div>\n");
    }
    html_print(out, "</section>\n");
    free(parked.dues);
    return rc;
}

/* What is not to be used and is no vehicle, such as a driver's card: whose rule
 * that is, and who decides, stands above the list. */
static int
add_hold(const struct page *p, struct buf *out)
{
    if (!page_has_hold(p))
        return 0;
    add_head("hold", "Not for use",
        count(p, is_law_overdue) + count_off_road(p), "", out);
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

/* The parts in the order of their weight: what is not to be driven, what failed
 * besides, what is not for use, what else is late, what nobody knows; then the
 * work of two weeks. */
int
page_board(const struct page *p, struct buf *out)
{
    day_t monday = isoweek_first(snapshot_today(p->dues->of));
    int rc = add_stopped(p, out);

    if (page_has_failed(p))
        rc |= add_part(p, "failed", wording_of(DUE_FAILED)->heading, is_failed,
            "Tried and not passed, nor done since: whoever is answerable says "
            "whether it may be used until then.",
            out);
    rc |= add_hold(p, out);
    rc |= add_part(p, "late",
        page_has_hold(p) || count(p, is_stop)
            ? "Also overdue"
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
