#include "buf.h"
#include "csv_write.h"
#include "view.h"

/* For a spreadsheet (RFC 4180): a header line, then a line a due. */

static void
add_due(const struct due *d, struct buf *out)
{
    const struct subject *s = d->task->subject;
    const struct depot *depot = fleet_depot(s);
    char cycle[CYCLE_TEXT];

    csv_write_field(s->id, out);
    csv_write_field(fleet_kind_word(s->kind), out);
    csv_write_field(depot ? depot->id : "", out);
    csv_write_field(d->task->job->id, out);
    csv_write_field(d->task->job->title, out);
    csv_write_field(fleet_class_word(d->task->job->class), out);
    csv_write_field(due_state_word(d->state), out);
    csv_write_day(d->deadline, out);
    csv_write_day(d->plan_day, out);
    csv_write_day(d->book_by, out);
    csv_write_day(d->last_done, out);
    csv_write_field(due_cycle_text(&d->cycle, cycle), out);
    csv_write_day(d->failed ? d->failed->day : DAY_NONE, out);
    csv_write_field(d->failed ? d->failed->by : NULL, out);
    csv_write_field(d->failed ? d->failed->reference : NULL, out);
    csv_write_field(d->failed ? d->failed->note : NULL, out);
    csv_write_day(d->booked, out);
    buf_text(out, "\r\n");
}

static int
render(const struct shown *shown, struct buf *out)
{
    const struct selection *dues = shown->dues;

    buf_text(out, "subject,kind,depot,job,title,class,state,deadline,"
                  "plan_day,book_by,last_done,cycle,failed,failed_by,"
                  "failed_reference,failed_note,booked\r\n");
    for (size_t i = 0; i < dues->n; i++)
        add_due(dues->dues[i], out);
    return buf_failed(out) ? -1 : 0;
}

const struct view view_csv = {"csv", 0, 0, render};
