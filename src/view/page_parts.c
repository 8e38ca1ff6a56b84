#include "page_parts.h"

#include "buf.h"
#include "html.h"
#include "wording.h"

#include <stdlib.h>

const struct subject *
page_carrier(const struct subject *s)
{
    while (s->carrier != NULL)
        s = s->carrier;
    return s;
}

static int
by_row(const struct due *a, const struct due *b)
{
    const struct subject *left = page_carrier(a->task->subject);
    const struct subject *right = page_carrier(b->task->subject);

    if (left != right)
        return left->index < right->index ? -1 : 1;
    return 0;
}

static int
by_day(const struct due *a, const struct due *b)
{
    day_t left = select_day(a);
    day_t right = select_day(b);

    return (left > right) - (left < right);
}

/* Of the same day and row, in the order of the fleet. */
static int
by_task(const struct due *a, const struct due *b)
{
    return (a->task > b->task) - (a->task < b->task);
}

static int
day_first(const void *left, const void *right)
{
    const struct due *a = *(const struct due *const *)left;
    const struct due *b = *(const struct due *const *)right;
    int order = by_day(a, b);

    order = order ? order : by_row(a, b);
    return order ? order : by_task(a, b);
}

static int
row_first(const void *left, const void *right)
{
    const struct due *a = *(const struct due *const *)left;
    const struct due *b = *(const struct due *const *)right;
    int order = by_row(a, b);

    order = order ? order : by_day(a, b);
    return order ? order : by_task(a, b);
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
    buf_text(out, "<b class=\"plate\"><bdi>");
    html_add(s->id, out);
    buf_text(out, "</bdi></b> ");
}

/* "by Sun 6 Dec", with the year where it is another. */
static void
add_date(const char *before, day_t day, day_t today, struct buf *out)
{
    char text[WORDING_DATE];
    int same = day_ymd(day).year == day_ymd(today).year;

    buf_print(out, "%s%s", before,
        same ? wording_short_date(day, text) : wording_date(day, text));
}

/* How it stands, in a few words. */
static void
add_standing(const struct due *d, day_t today, struct buf *out)
{
    switch (d->state) {
    case DUE_NO_RECORD:
        buf_text(out, ", no record of it");
        return;
    case DUE_FAILED:
        if (d->deadline != DAY_NONE)
            add_date(d->besides == DUE_OVERDUE ? ", deadline was "
                                               : ", deadline is ",
                d->deadline, today, out);
        return;
    case DUE_NEEDS_READING:
        buf_print(out, ", needs a reading (%s)",
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
        buf_text(out, ", once the one before is done");
    else if (d->deadline == d->plan_day)
        buf_text(out, ", last day");
    else if (d->deadline != DAY_NONE)
        add_date(", no later than ", d->deadline, today, out);
}

static void
add_warning(void *to, const char *text)
{
    buf_text(to, "<span class=\"warn\">");
    html_add(text, to);
    buf_text(to, "</span>");
}

static int
add_warnings(const struct due *d, day_t today, struct buf *out)
{
    /* How sure a day is does not matter while there is none. */
    if (page_look(d) == LOOK_UNKNOWN || page_look(d) == LOOK_PARKED)
        return 0;
    if (wording_notes(d, today, WARN_BOOK_NOW, add_warning, out))
        return -1;
    if (d->warnings & WARN_BOOK_NOW) {
        buf_text(out, "<span class=\"warn\">");
        add_date("to be booked by ", d->book_by, today, out);
        buf_text(out, "</span>");
    }
    return 0;
}

/* What the row does not say of the subject. */
static void
add_subject(const struct subject *s, int plate, struct buf *out)
{
    if (plate)
        page_plate(page_carrier(s), out);
    if (s->carrier == NULL)
        return;
    buf_text(out, "<span class=\"part\"><bdi>");
    html_add(s->id, out);
    buf_text(out, "</bdi></span> ");
}

int
page_item(const struct page *p, const struct due *d, int plate, struct buf *out)
{
    const struct job *job = d->task->job;
    day_t today = snapshot_today(p->dues->of);

    buf_text(out, "<li class=\"due\">");
    page_mark(job->class, page_look(d), NULL, out);
    buf_text(out, "<div>");
    add_subject(d->task->subject, plate, out);
    buf_text(out, "<bdi class=\"job\">");
    html_add(job->title, out);
    buf_print(
        out, "</bdi> <span class=\"meta\">%s", fleet_class_word(job->class));
    add_standing(d, today, out);
    if (d->booked != DAY_NONE && !(d->warnings & WARN_BOOKED))
        buf_text(out, ", booked");
    buf_text(out, "</span>");
    int rc = add_warnings(d, today, out);
    page_record(p, d, out);
    buf_text(out, "</div></li>\n");
    return rc;
}
