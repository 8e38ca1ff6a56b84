#include "buf.h"
#include "view.h"

#include <string.h>

/* For a spreadsheet (RFC 4180): a header line, then a line a due. */

static void
add_field(const char *text, struct buf *out)
{
    if (buf_len(out) > 0 && buf_str(out)[buf_len(out) - 1] != '\n')
        buf_text(out, ",");
    if (text == NULL)
        return;
    int quoted = strpbrk(text, ",\"\r\n") != NULL;
    if (!quoted) {
        buf_text(out, text);
        return;
    }
    buf_text(out, "\"");
    for (const char *c = text; *c != '\0'; c++)
        buf_print(out, *c == '"' ? "\"%c" : "%c", *c);
    buf_text(out, "\"");
}

static void
add_day(day_t d, struct buf *out)
{
    char text[DAY_TEXT];

    add_field(d == DAY_NONE ? "" : day_text(d, text), out);
}

static void
add_due(const struct due *d, struct buf *out)
{
    const struct subject *s = d->task->subject;
    const struct depot *depot = fleet_depot(s);
    char cycle[CYCLE_TEXT];

    add_field(s->id, out);
    add_field(fleet_kind_word(s->kind), out);
    add_field(depot ? depot->id : "", out);
    add_field(d->task->job->id, out);
    add_field(d->task->job->title, out);
    add_field(fleet_class_word(d->task->job->class), out);
    add_field(due_state_word(d->state), out);
    add_day(d->deadline, out);
    add_day(d->plan_day, out);
    add_day(d->book_by, out);
    add_day(d->last_done, out);
    add_field(due_cycle_text(&d->cycle, cycle), out);
    buf_text(out, "\r\n");
}

static int
render(const struct selection *dues, struct buf *out)
{
    buf_text(out, "subject,kind,depot,job,title,class,state,deadline,"
                  "plan_day,book_by,last_done,cycle\r\n");
    for (size_t i = 0; i < dues->n; i++)
        add_due(dues->dues[i], out);
    return buf_failed(out) ? -1 : 0;
}

const struct view view_csv = {"csv", render};
