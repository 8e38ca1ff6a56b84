#include "reminder_mail.h"

#include "buf.h"
#include "clean.h"
#include "reminder_parts.h"
#include "utf8.h"
#include "wording.h"

#include <stdio.h>
#include <string.h>

static int
weighs_by_class(enum reminder_group g)
{
    return g == REMINDER_NO_RECORD || g == REMINDER_OVERDUE;
}

/*
 * What failed comes first.  What is overdue and what has no record weigh the
 * same, so that the class decides between the two, as it does within each other
 * group; then the order.
 */
static int
is_worse(const struct due *a, const struct due *b)
{
    enum reminder_group of_a = reminder_group(a);
    enum reminder_group of_b = reminder_group(b);

    if (of_a != of_b && (!weighs_by_class(of_a) || !weighs_by_class(of_b)))
        return of_a < of_b;
    if (a->task->job->class != b->task->job->class)
        return a->task->job->class < b->task->job->class;
    return of_a < of_b;
}

static const struct reminder_item *
worst_of(const struct reminder_mail *l)
{
    const struct reminder_item *worst = l->n > 0 ? &l->items[0] : NULL;

    for (size_t i = 1; i < l->n; i++)
        if (is_worse(l->items[i].due, worst->due))
            worst = &l->items[i];
    return worst;
}

/* What is the matter with it, after its name. */
static void
add_matter(const struct reminder_item *item, day_t today, struct buf *out)
{
    const struct due *d = item->due;
    char day[WORDING_DATE];

    enum reminder_group g = reminder_group(d);

    if (g < REMINDER_THIS_WEEK)
        buf_print(out, " %s", wording_of(d->state)->matter);
    switch (g) {
    case REMINDER_FAILED:
        buf_print(out, " on %s", wording_short_date(d->failed->day, day));
        break;
    case REMINDER_OVERDUE:
        buf_print(out, " since %s", wording_short_date(d->deadline, day));
        break;
    case REMINDER_NO_RECORD:
    case REMINDER_NEEDS_READING:
    case REMINDER_BEFORE_RETURN:
        break;
    case REMINDER_BOOK_NOW:
        if (d->book_by < today)
            buf_text(out, " to be booked now");
        else
            buf_text(out, " to be booked today");
        break;
    case REMINDER_THIS_WEEK:
    case REMINDER_COMING:
    case REMINDER_GROUPS:
        buf_print(out, " %s %s",
            item->moved_from == DAY_NONE ? "due by" : "moved to",
            day_ymd(d->deadline).year == day_ymd(today).year
                ? wording_short_date(d->deadline, day)
                : wording_date(d->deadline, day));
        break;
    }
}

/* Where the character number @n of the clean @text begins, or its end. */
static size_t
offset_of(const char *text, size_t len, size_t n)
{
    size_t at = 0;

    for (; at < len && n > 0; n--)
        at += utf8_length((const unsigned char *)text + at, len - at);
    return at;
}

static size_t
characters(const char *text, size_t len)
{
    size_t n = 0;

    for (size_t at = 0; at < len; n++)
        at += utf8_length((const unsigned char *)text + at, len - at);
    return n;
}

/* Append @text, cut to so many characters, the last of which then says that
 * something is missing. */
static void
add_cut(const struct buf *text, size_t most, struct buf *out)
{
    const char *s = buf_str(text);
    size_t len = buf_len(text);

    if (characters(s, len) <= most) {
        buf_add(out, s, len);
        return;
    }
    len = offset_of(s, len, most - 1);
    while (len > 0 && s[len - 1] == ' ')
        len--;
    buf_add(out, s, len);
    buf_text(out, "\xe2\x80\xa6"); /* an ellipsis */
}

static int
subject_of(const struct reminder_mail *l, const struct reminder_item *worst,
    struct buf *name, struct buf *matter, struct buf *out)
{
    const struct task *t = worst->due->task;

    clean_add(name, CLEAN_LINE, t->subject->id, strlen(t->subject->id));
    buf_text(name, " ");
    clean_add(name, CLEAN_LINE, t->job->title, strlen(t->job->title));
    add_matter(worst, l->today, matter);
    if (l->n > 1)
        buf_print(matter, ", %zu more", l->n - 1);
    if (buf_failed(name) || buf_failed(matter))
        return -1;
    add_cut(name, REMINDER_SUBJECT_MOST - buf_len(matter), out);
    buf_text(out, buf_str(matter));
    return buf_failed(out) ? -1 : 0;
}

int
reminder_subject(const struct reminder_mail *l, struct buf *out)
{
    const struct reminder_item *worst = worst_of(l);
    char day[WORDING_DATE];
    int failed = -1;

    if (worst == NULL) {
        if (l->n_under_way > 0)
            buf_print(out, "First message: %zu under way", l->n_under_way);
        else if (l->n_coming > 0)
            buf_print(out, "Outlook: %zu due by %s", l->n_coming,
                wording_short_date(l->outlook, day));
        else
            buf_print(out, "Outlook: nothing due by %s",
                wording_short_date(l->outlook, day));
        return buf_failed(out) ? -1 : 0;
    }
    struct buf *name = buf_new();
    struct buf *matter = buf_new();
    if (name != NULL && matter != NULL)
        failed = subject_of(l, worst, name, matter, out);
    buf_free(matter);
    buf_free(name);
    return failed;
}
