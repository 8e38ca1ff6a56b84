#include "page_parts.h"

#include "buf.h"
#include "isoweek.h"
#include "wording.h"

#include <stdlib.h>

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
    int at_once = d->cycle.ahead == 0 && due_at_once(d);

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

    buf_print(out,
        "<div class=\"day%s\"><h3><time datetime=\"%s\">%s</time>%s</h3><ul>\n",
        day == today  ? " today"
        : day < today ? " gone"
                      : "",
        day_text(day, (char[DAY_TEXT]){0}), wording_short_date(day, text),
        day == today  ? " <span>today</span>"
        : day < today ? " <span>its day has passed</span>"
                      : "");
}

static int
add_week(const struct page *p, page_wanted *wanted, const char *title,
    day_t monday, struct buf *out)
{
    struct page_list list;
    day_t today = snapshot_today(p->dues->of);
    day_t day = DAY_NONE;
    struct isoweek w = isoweek_of(monday);
    const char *id = monday > today ? "next" : "this";

    if (page_choose(p, wanted, 0, &list))
        return -1;
    buf_print(out,
        "<section class=\"week\" aria-labelledby=\"%s\"><h2 id=\"%s\">%s "
        "<span class=\"wk\">week %d</span> <span class=\"n\">%zu</span></h2>\n",
        id, id, title, w.week, list.n);
    if (list.n == 0)
        buf_text(out, "<p class=\"none\">Nothing is planned.</p>\n");
    int rc = 0;
    for (size_t i = 0; i < list.n; i++) {
        if (select_day(list.dues[i]) != day) {
            buf_text(out, day == DAY_NONE ? "" : "</ul></div>\n");
            day = select_day(list.dues[i]);
            begin_day(day, today, out);
        }
        rc |= page_item(p, list.dues[i], 1, out);
    }
    buf_text(out, day == DAY_NONE ? "" : "</ul></div>\n");
    buf_text(out, "</section>\n");
    free(list.dues);
    return rc;
}

int
page_weeks(const struct page *p, struct buf *out)
{
    day_t monday = isoweek_first(snapshot_today(p->dues->of));

    if (add_week(p, is_this_week, "This week", monday, out))
        return -1;
    return day_valid(monday + 7)
               ? add_week(p, is_next_week, "Next week", monday + 7, out)
               : 0;
}
