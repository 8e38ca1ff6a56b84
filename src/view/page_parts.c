#include "page_parts.h"

#include "buf.h"
#include "condition.h"
#include "html.h"
#include "page_form.h"
#include "wording.h"

#include <stdlib.h>

/* By class: law, recommendation, maker, own. */
static const char letters[][2] = {"L", "R", "M", "O"};

static const struct {
    const char *name;   /* in the style sheet */
    const char *letter; /* in place of the class's */
} looks[] = {
    {"next", NULL},
    {"later", NULL},
    {"fail", "X"},
    {"over", "!"},
    {"open", "?"},
    {"parked", "P"},
};

/* A square for law, a circle for a recommendation, a triangle for the maker, a
 * lozenge for our own. */
static void
add_shape(enum job_class class, struct buf *out)
{
    switch (class) {
    case CLASS_LAW:
        html_print(out, "<rect x=\"2.5\" y=\"2.5\" width=\"19\" "
                        "height=\"19\" rx=\"2\"/>");
        break;
    case CLASS_RECOMMENDATION:
        html_print(out, "<circle cx=\"12\" cy=\"12\" r=\"10\"/>");
        break;
    case CLASS_MAKER:
        html_print(out, "<path d=\"M12 1.5 23 22H1z\"/>");
        break;
    case CLASS_OWN:
        html_print(out, "<path d=\"M12 .8 23.2 12 12 23.2 .8 12z\"/>");
        break;
    }
}

void
page_shapes(struct buf *out)
{
    html_print(out, "<svg class=\"v\" aria-hidden=\"true\"><defs>\n");
    for (int c = 0; c <= CLASS_OWN; c++)
        for (int k = 0; k <= LOOK_PARKED; k++) {
            html_print(out, "<symbol id=\"%s%d\" viewBox=\"0 0 24 24\">",
                letters[c], k);
            add_shape((enum job_class)c, out);
            html_print(out,
                "<text class=\"t\" x=\"12\" y=\"%d\">%s</text></symbol>\n",
                c == CLASS_MAKER ? 19 : 17, /* it is widest below */
                looks[k].letter ? looks[k].letter : letters[c]);
        }
    html_print(out, "</defs></svg>\n");
}

enum page_look
page_look(const struct due *d)
{
    switch (d->state) {
    case DUE_FAILED:
        return LOOK_FAILED;
    case DUE_NO_RECORD:
    case DUE_NEEDS_READING:
        return LOOK_UNKNOWN;
    case DUE_OVERDUE:
        return LOOK_OVERDUE;
    case DUE_BEFORE_RETURN:
        return LOOK_PARKED;
    case DUE_NOW:
    case DUE_AHEAD:
        break;
    }
    return d->cycle.ahead > 0 ? LOOK_LATER : LOOK_NEXT;
}

void
page_mark(enum job_class class, enum page_look look, const char *title,
    struct buf *out)
{
    html_print(
        out, "<svg class=\"m %s %s\" ", letters[class], looks[look].name);
    if (title == NULL)
        html_print(out, "aria-hidden=\"true\">");
    else
        html_print(out, "role=\"img\"><title>%s</title>", title);
    html_print(out, "<use href=\"#%s%d\"/></svg>", letters[class], (int)look);
}

const struct subject *
page_carrier(const struct subject *s)
{
    while (s->carrier != NULL)
        s = s->carrier;
    return s;
}

/* Which of two stands first: by row, then by day or the other way round; of the
 * same row and day, in the order of the fleet. */
static int
compare(const struct due *a, const struct due *b, int rows_first)
{
    size_t row_a = page_carrier(a->task->subject)->index;
    size_t row_b = page_carrier(b->task->subject)->index;
    int by_row = (row_a > row_b) - (row_a < row_b);
    int by_day =
        (select_day(a) > select_day(b)) - (select_day(a) < select_day(b));
    int by_task = (a->task > b->task) - (a->task < b->task);

    if (by_row && (rows_first || !by_day))
        return by_row;
    return by_day ? by_day : by_task;
}

static int
day_first(const void *a, const void *b)
{
    return compare(
        *(const struct due *const *)a, *(const struct due *const *)b, 0);
}

static int
row_first(const void *a, const void *b)
{
    return compare(
        *(const struct due *const *)a, *(const struct due *const *)b, 1);
}

int
page_choose(const struct page *p, page_wanted *wanted, int rows_first,
    struct page_list *out)
{
    const struct selection *all = p->dues;

    *out = (struct page_list){0};
    out->dues = malloc((all->n ? all->n : 1) * sizeof *out->dues);
    if (out->dues == NULL)
        return -1;
    for (size_t i = 0; i < all->n; i++)
        if (wanted(p, all->dues[i]))
            out->dues[out->n++] = all->dues[i];
    if (out->n > 1)
        qsort(out->dues, out->n, sizeof *out->dues,
            rows_first ? row_first : day_first);
    return 0;
}

const struct record *
page_spell(const struct page *p, const struct subject *s, day_t from, day_t to)
{
    const struct facts *all = p->facts;

    for (; s != NULL; s = s->carrier)
        for (size_t k = all->first[s->index]; k < all->first[s->index + 1];
             k++) {
            const struct record *r = &all->records[k];
            if (r->kind == RECORD_OFF_ROAD && r->day <= to &&
                (r->until == DAY_NONE || r->until >= from))
                return r;
        }
    return NULL;
}

void
page_plate(const struct subject *s, struct buf *out)
{
    html_print(out, "<b class=\"plate\"><bdi>%s</bdi></b> ", s->id);
}

void
page_condition(const struct page *p, const struct subject *s, struct buf *out)
{
    const struct vehicle_condition *v = conditions_of(p->conditions, s);

    if (v != NULL && v->condition != CONDITION_FIT)
        html_print(out, "<strong class=\"cond %s\">%s</strong> ",
            condition_word(v->condition), condition_said(v->condition));
}

/* "by Sun 6 Dec", with the year where it is another. */
static void
add_date(const char *before, day_t day, day_t today, struct buf *out)
{
    char text[WORDING_DATE];
    int same = day_ymd(day).year == day_ymd(today).year;

    html_print(out, "%s%s", before,
        same ? wording_short_date(day, text) : wording_date(day, text));
}

/* How it stands, in a few words.  The state itself is the heading above. */
static void
add_standing(const struct due *d, day_t today, struct buf *out)
{
    switch (d->state) {
    case DUE_NO_RECORD:
        html_print(out, ", %s of it", wording_of(d->state)->title);
        return;
    case DUE_FAILED:
        if (d->deadline != DAY_NONE)
            add_date(d->besides == DUE_OVERDUE ? ", deadline was "
                                               : ", deadline is ",
                d->deadline, today, out);
        return;
    case DUE_NEEDS_READING:
        html_print(out, ", %s (%s)", wording_of(d->state)->title,
            fleet_meter_word(d->task->subject, d->to_read));
        if (d->newest_reading != DAY_NONE)
            add_date(", the newest is of ", d->newest_reading, today, out);
        return;
    case DUE_BEFORE_RETURN:
        return;
    case DUE_OVERDUE:
        add_date(", deadline was ", d->deadline, today, out);
        return;
    case DUE_NOW:
    case DUE_AHEAD:
        break;
    }
    if (d->cycle.ahead > 0)
        html_print(out, ", once the one before is done");
    else if (d->deadline == d->plan_day)
        html_print(out, ", last day");
    else if (d->deadline != DAY_NONE)
        add_date(", no later than ", d->deadline, today, out);
}

static void
add_warning(void *to, const char *text)
{
    html_print(to, "<span class=\"warn\">%s</span>", text);
}

/* How sure a day is does not matter while there is none. */
static int
add_warnings(const struct due *d, day_t today, struct buf *out)
{
    if (page_look(d) == LOOK_UNKNOWN || page_look(d) == LOOK_PARKED)
        return 0;
    if (wording_notes(d, today, WARN_BOOK_NOW, add_warning, out))
        return -1;
    if (d->warnings & WARN_BOOK_NOW) {
        html_print(out, "<span class=\"warn\">");
        add_date("to be booked by ", d->book_by, today, out);
        html_print(out, "</span>");
    }
    return 0;
}

/* One due: its mark, its subject where the row does not say it already, the
 * job, how it stands, what it warns of, and the form to record it. */
int
page_item(const struct page *p, const struct due *d, int plate, struct buf *out)
{
    const struct subject *s = d->task->subject;
    const struct job *job = d->task->job;
    day_t today = snapshot_today(p->dues->of);

    html_print(out, "<li class=\"due\">");
    page_mark(job->class, page_look(d), NULL, out);
    html_print(out, "<div>");
    if (plate) {
        page_plate(page_carrier(s), out);
        page_condition(p, page_carrier(s), out);
    }
    if (s->carrier != NULL)
        html_print(out, "<span class=\"part\"><bdi>%s</bdi></span> ", s->id);
    html_print(out, "<bdi class=\"job\">%s</bdi> <span class=\"meta\">%s",
        job->title, fleet_class_word(job->class));
    add_standing(d, today, out);
    if (d->booked != DAY_NONE && !(d->warnings & WARN_BOOKED))
        html_print(out, ", booked");
    html_print(out, "</span>");
    int rc = add_warnings(d, today, out);
    page_record(p, d, out);
    html_print(out, "</div></li>\n");
    return rc;
}
