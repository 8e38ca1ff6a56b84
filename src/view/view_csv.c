#include "buf.h"
#include "sheet.h"
#include "view.h"

/* For a spreadsheet (RFC 4180): a header line, then a line a due. */

static void
add_due(const struct due *d, struct buf *out)
{
    const struct subject *s = d->task->subject;
    const struct depot *depot = fleet_depot(s);
    char cycle[CYCLE_TEXT];

    sheet_field(s->id, out);
    sheet_field(fleet_kind_word(s->kind), out);
    sheet_field(depot ? depot->id : "", out);
    sheet_field(d->task->job->id, out);
    sheet_field(d->task->job->title, out);
    sheet_field(fleet_class_word(d->task->job->class), out);
    sheet_field(due_state_word(d->state), out);
    sheet_day(d->deadline, out);
    sheet_day(d->plan_day, out);
    sheet_day(d->book_by, out);
    sheet_day(d->last_done, out);
    sheet_field(due_cycle_text(&d->cycle, cycle), out);
    sheet_day(d->failed ? d->failed->day : DAY_NONE, out);
    sheet_field(d->failed ? d->failed->by : NULL, out);
    sheet_field(d->failed ? d->failed->reference : NULL, out);
    sheet_field(d->failed ? d->failed->note : NULL, out);
    sheet_day(d->booked, out);
    buf_text(out, "\r\n");
}

static int
render(const struct selection *dues, struct buf *out)
{
    buf_text(out, "subject,kind,depot,job,title,class,state,deadline,"
                  "plan_day,book_by,last_done,cycle,failed,failed_by,"
                  "failed_reference,failed_note,booked\r\n");
    for (size_t i = 0; i < dues->n; i++)
        add_due(dues->dues[i], out);
    return buf_failed(out) ? -1 : 0;
}

const struct view view_csv = {"csv", 0, render};
