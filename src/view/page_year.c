#include "page_form.h"
#include "page_parts.h"
#include "page_sections.h"

#include "buf.h"
#include "html.h"
#include "isoweek.h"
#include "wording.h"

#include <stdio.h>
#include <stdlib.h>

/* The column of what has no week of its own: failed, overdue, unknown, parked.
 */
#define NOW (-1)

static const char months[12][4] = {"Jan", "Feb", "Mar", "Apr", "May", "Jun",
    "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"};

static day_t
first_monday(const struct page *p)
{
    return isoweek_first(snapshot_today(p->dues->of));
}

day_t
page_until(day_t today)
{
    return day_earlier(
        step_days(isoweek_first(today), 7 * PAGE_WEEKS - 1), DAY_LAST);
}

/* How many weeks from @monday on are shown: the last that we know is in 2199.
 */
static int
weeks_from(day_t monday)
{
    int left = (DAY_LAST - monday) / 7 + 1;

    return left < PAGE_WEEKS ? left : PAGE_WEEKS;
}

/* The month of the week of @monday. */
static struct ymd
month_of_week(day_t monday)
{
    return day_ymd(day_earlier(monday + 3, DAY_LAST));
}

/* The column of a due: what should have been done already stands in this
 * week. */
static int
column(const struct page *p, const struct due *d)
{
    day_t monday = first_monday(p);

    if (page_look(d) > LOOK_LATER)
        return NOW;
    return select_day(d) < monday ? 0 : (select_day(d) - monday) / 7;
}

static int
is_shown(const struct page *p, const struct due *d)
{
    if (page_look(d) > LOOK_LATER)
        return d->cycle.ahead == 0;
    return select_day(d) != DAY_NONE &&
           select_day(d) <= page_until(snapshot_today(p->dues->of));
}

/* The heads of the columns: months above, weeks below.  A week belongs to the
 * month of its Thursday, as to its year (ISO 8601). */
static void
add_heads(const struct page *p, struct buf *out)
{
    day_t monday = first_monday(p);
    int weeks = weeks_from(monday);
    char day[WORDING_DATE];

    html_print(out, "<thead><tr><td></td><td></td>");
    for (int w = 0, n; w < weeks; w += n) {
        struct ymd date = month_of_week(monday + 7 * w);
        for (n = 1; w + n < weeks &&
                    month_of_week(monday + 7 * (w + n)).month == date.month;)
            n++;
        /* One week at the end is too narrow for a name that is seen. */
        html_print(out, "<th scope=\"colgroup\" colspan=\"%d\">", n);
        if (n > 1)
            html_print(out, "<span>%s</span>", months[date.month - 1]);
        else
            html_print(
                out, "<span class=\"v\">%s</span>", months[date.month - 1]);
        if (n > 3 && (date.month == 1 || w == 0))
            html_print(out, " %d", date.year);
        html_print(out, "</th>");
    }
    html_print(out, "</tr>\n<tr><th scope=\"col\">Week</th>"
                    "<th scope=\"col\">now</th>");
    for (int w = 0; w < weeks; w++)
        html_print(out,
            "<th scope=\"col\">%d<span class=\"v\"> from %s</span></th>",
            isoweek_of(monday + 7 * w).week,
            wording_short_date(monday + 7 * w, day));
    html_print(out, "</tr></thead>\n");
}

/* "Annual test (law), Thu 24 Dec" for the mark's words. */
static void
say_due(const struct due *d, struct buf *text)
{
    const struct subject *s = d->task->subject;
    char day[WORDING_DATE];

    if (buf_len(text) > 0)
        buf_text(text, "; ");
    if (s->carrier != NULL)
        buf_print(text, "%s ", s->id);
    buf_print(text, "%s (%s)", d->task->job->title,
        fleet_class_word(d->task->job->class));
    if (page_look(d) > LOOK_LATER)
        buf_print(text, ", %s", wording_of(d->state)->heading);
    else
        buf_print(text, ", %s", wording_short_date(select_day(d), day));
}

/* The gravest of a cell gives the mark: by how it stands, then by its class. */
static int
is_graver(const struct due *a, const struct due *b)
{
    static const int weight[] = {1, 0, 5, 4, 3, 2};

    if (page_look(a) != page_look(b))
        return weight[page_look(a)] > weight[page_look(b)];
    return a->task->job->class < b->task->job->class;
}

/* One cell, of the dues at the front of @list that lie in it: how many. */
static size_t
add_cell(const struct page *p, const struct page_list *list, size_t from,
    int week, struct buf *text, struct buf *out)
{
    const struct due *gravest = NULL;
    const struct subject *row =
        from < list->n ? page_carrier(list->dues[from]->task->subject) : NULL;
    size_t n = 0;

    buf_clear(text);
    for (size_t i = from; i < list->n; i++) {
        const struct due *d = list->dues[i];
        if (page_carrier(d->task->subject) != row)
            break;
        if (column(p, d) != week)
            continue;
        say_due(d, text);
        if (gravest == NULL || is_graver(d, gravest))
            gravest = d;
        n++;
    }
    if (gravest != NULL)
        page_mark(
            gravest->task->job->class, page_look(gravest), buf_str(text), out);
    if (n > 1)
        html_print(out, "<b class=\"many\" aria-hidden=\"true\">%zu</b>", n);
    return n;
}

/* The row of the dues from @from on; returns how many those are. */
static size_t
add_row(const struct page *p, const struct page_list *list, size_t from,
    struct buf *text, struct buf *out)
{
    const struct subject *s = page_carrier(list->dues[from]->task->subject);
    day_t today = snapshot_today(p->dues->of);
    day_t monday = first_monday(p);
    size_t n = 0;

    while (from + n < list->n &&
           page_carrier(list->dues[from + n]->task->subject) == s)
        n++;
    html_print(out, "<tr><th scope=\"row\"><bdi>%s</bdi>", s->id);
    if (page_spell(p, s, today, today))
        html_print(out, "<span class=\"v\"> off the road today</span>");
    html_print(out, "</th>");
    for (int w = NOW; w < weeks_from(monday); w++) {
        day_t day = monday + 7 * w;
        int off = w != NOW && page_spell(p, s, day, day + 6) != NULL;
        int starts =
            w > 0 && month_of_week(day).month != month_of_week(day - 7).month;
        if (off || starts)
            html_print(out, "<td class=\"%s\">",
                off && starts ? "off s"
                : off         ? "off"
                              : "s");
        else
            html_print(out, "<td>");
        add_cell(p, list, from, w, text, out);
        html_print(out, "</td>");
    }
    html_print(out, "</tr>\n");
    return n;
}

static void
add_key(enum job_class class, enum page_look look, const char *words,
    struct buf *out)
{
    html_print(out, "<li>");
    page_mark(class, look, NULL, out);
    html_print(out, "%s</li>", words);
}

/* The shape says whose rule it is, its letter and filling how it stands. */
static void
add_legend(struct buf *out)
{
    static const char *const looks[] = {"the next time",
        "a later time, if the one before is done on its day", "failed",
        "overdue", "no record, or needs a reading",
        "before it returns to the road"};

    html_print(out, "<ul class=\"legend\"><li><b>Whose rule</b></li>");
    for (int c = 0; c <= CLASS_OWN; c++)
        add_key((enum job_class)c, LOOK_NEXT,
            fleet_class_word((enum job_class)c), out);
    html_print(
        out, "</ul>\n<ul class=\"legend\"><li><b>How it stands</b></li>");
    for (int k = LOOK_NEXT; k <= LOOK_PARKED; k++)
        add_key(CLASS_LAW, (enum page_look)k, looks[k], out);
    html_print(out,
        "<li><span class=\"m off\"></span>off the road</li>"
        "<li><b class=\"many\">2</b>so many that week, and the mark "
        "of the gravest</li></ul>\n");
}

/* Nonzero for what stands in none of the lists above, and can be done before
 * its time. */
static int
is_beyond(const struct page *p, const struct due *d)
{
    return page_look(d) == LOOK_NEXT && !(d->warnings & WARN_DONE_LATER) &&
           select_day(d) > first_monday(p) + 13;
}

/* The same in words, for those who do not see the picture, and for phones. */
static void
add_list(const struct page *p, const struct page_list *list, struct buf *out)
{
    char day[WORDING_DATE];

    html_print(out,
        "<details class=\"same\"><summary>The next time of each job, as a "
        "list%s</summary>\n",
        p->recorder ? ", to record what is done early" : "");
    html_print(out,
        "<table class=\"list\"><thead><tr><th scope=\"col\">Vehicle</th>"
        "<th scope=\"col\">Day</th><th scope=\"col\">Job</th>"
        "<th scope=\"col\">Rule</th></tr></thead><tbody>\n");
    for (size_t i = 0; i < list->n; i++) {
        const struct due *d = list->dues[i];
        const struct subject *s = d->task->subject;
        if (d->cycle.ahead > 0)
            continue;
        html_print(out,
            "<tr><th scope=\"row\"><bdi>%s</bdi></th><td>%s</td><td>",
            page_carrier(s)->id,
            page_look(d) > LOOK_LATER ? wording_of(d->state)->heading
                                      : wording_date(select_day(d), day));
        if (s->carrier != NULL)
            html_print(out, "%s ", s->id);
        html_print(out, "<bdi>%s</bdi>", d->task->job->title);
        if (is_beyond(p, d))
            page_record(p, d, out);
        html_print(out, "</td><td>%s</td></tr>\n",
            fleet_class_word(d->task->job->class));
    }
    html_print(out, "</tbody></table></details>\n");
}

/* The rows of a depot; @depot NULL for those of none. */
static void
add_depot(const struct page *p, const struct page_list *list,
    const struct depot *depot, struct buf *text, struct buf *out)
{
    int begun = 0;

    for (size_t i = 0; i < list->n;) {
        const struct subject *s = page_carrier(list->dues[i]->task->subject);
        if (fleet_depot(s) != depot) {
            i++;
            continue;
        }
        if (!begun++) {
            html_print(out,
                "<tbody><tr class=\"depot\"><th scope=\"rowgroup\" "
                "colspan=\"%d\"><span><bdi>%s</bdi></span></th></tr>\n",
                PAGE_WEEKS + 2, depot ? depot->title : "No depot");
        }
        i += add_row(p, list, i, text, out);
    }
    if (begun)
        html_print(out, "</tbody>\n");
}

int
page_year(const struct page *p, struct buf *out)
{
    const struct fleet *f = snapshot_fleet(p->dues->of);
    struct buf *text = buf_new();
    struct page_list list = {0};

    if (text == NULL || page_choose(p, is_shown, 1, &list)) {
        buf_free(text);
        return -1;
    }
    html_print(out, "<section class=\"year\" aria-labelledby=\"year\">"
                    "<h2 id=\"year\">The coming year</h2>\n");
    add_legend(out);
    html_print(out, "<div class=\"scroll\" role=\"region\" tabindex=\"0\" "
                    "aria-labelledby=\"year\"><table class=\"grid\">\n");
    add_heads(p, out);
    for (size_t i = 0; i < f->n_depots; i++)
        add_depot(p, &list, &f->depots[i], text, out);
    add_depot(p, &list, NULL, text, out);
    html_print(out, "</table></div>\n");
    add_list(p, &list, out);
    html_print(out, "</section>\n");
    int rc = buf_failed(text) ? -1 : 0;
    buf_free(text);
    free(list.dues);
    return rc;
}
