#include "buf.h"
#include "caution.h"
#include "reminder_parts.h"
#include "wording.h"

/*
 * Short lines, no columns and nothing drawn: for a phone, and for somebody who
 * has it read aloud.  The dues are numbered so that each can be found again.
 */

static void
add_line(void *to, const char *label, const char *text)
{
    buf_print(to, "%s: %s\n", label, text);
}

static int
add_item(const struct reminder_mail *l, const struct reminder_item *item,
    size_t number, struct buf *out)
{
    const struct task *t = item->due->task;

    buf_print(out, "%zu. ", number);
    wording_subject(t->subject, out);
    buf_print(out, ": %s\n", t->job->title);
    if (reminder_lines(l, item, add_line, out) ||
        reminder_commands(item->due, add_line, out))
        return -1;
    buf_text(out, "\n");
    return 0;
}

static int
add_group(const struct reminder_mail *l, enum reminder_group g, size_t *number,
    struct buf *out)
{
    size_t n = reminder_count(l, g);

    if (n == 0)
        return 0;
    buf_print(out, "%s (%zu)\n\n", reminder_heading(g), n);
    for (size_t i = 0; i < l->n; i++)
        if (reminder_group(l->items[i].due) == g &&
            add_item(l, &l->items[i], ++*number, out))
            return -1;
    return 0;
}

static void
add_short(const struct due *const *dues, size_t n, struct buf *out)
{
    buf_text(out, "\n");
    for (size_t i = 0; i < n; i++) {
        buf_text(out, "- ");
        reminder_short(dues[i], out);
        buf_text(out, "\n");
    }
    buf_text(out, n > 0 ? "\n" : "");
}

static int
add_all(const struct reminder_mail *l, struct buf *out)
{
    char day[WORDING_DATE];
    size_t number = 0;

    buf_print(out, "%s, %s\n\n", l->site, wording_date(l->today, day));
    if (l->n > 0) {
        reminder_summary(l, out);
        buf_text(out, ".\n\n");
    }
    for (int g = 0; g < REMINDER_GROUPS; g++)
        if (add_group(l, (enum reminder_group)g, &number, out))
            return -1;
    if (l->n_under_way > 0) {
        buf_print(out, "Under way (%zu)\n\n%s\n", l->n_under_way,
            reminder_first_text);
        add_short(l->under_way, l->n_under_way, out);
    }
    if (l->outlook != DAY_NONE) {
        buf_print(out, "Outlook (%zu)\n\n", l->n_coming);
        reminder_outlook(l, out);
        buf_text(out, "\n");
        add_short(l->coming, l->n_coming, out);
    }
    buf_print(out, "%s\n", CAUTION_TEXT);
    return buf_failed(out) ? -1 : 0;
}

int
reminder_text(const struct reminder_mail *l, struct buf *out)
{
    return reminder_clean(l, add_all, out);
}
