#include "buf.h"
#include "csv_write.h"
#include "plan_view.h"
#include "plan_words.h"

#include <stdio.h>

/* For a spreadsheet (RFC 4180): a header line, then a line a booking. */

static void
add_booking(const struct fleet_plan *a, const struct plan_booking *b,
    struct buf *why, struct buf *out)
{
    const struct plan_problem *p = fleet_plan_problem(a);
    const struct plan_work *w = &p->works[b->work];
    const struct task *t = fleet_plan_task(a, b->work);
    char minutes[16];

    snprintf(minutes, sizeof minutes, "%d", w->minutes);
    buf_clear(why);
    plan_words_booking(a, b, why);
    csv_write_field(day_text(b->day, (char[DAY_TEXT]){0}), out);
    csv_write_field(p->places[w->place].name, out);
    csv_write_field(fleet_plan_subject(a, b->work)->id, out);
    csv_write_field(t->subject->id, out);
    csv_write_field(t->job->id, out);
    csv_write_field(t->job->title, out);
    csv_write_field(minutes, out);
    csv_write_day(b->call.from, out);
    csv_write_day(b->call.to, out);
    csv_write_field(plan_is_late(b) ? "late" : "", out);
    csv_write_field(buf_str(why), out);
    buf_text(out, "\r\n");
}

int
plan_view_csv(const struct fleet_plan *a, struct buf *out)
{
    size_t n;
    const struct plan_booking *b = plan_bookings(fleet_plan_solution(a), &n);
    struct buf *why = buf_new();

    if (why == NULL)
        return -1;
    buf_text(out, "day,place,vehicle,subject,job,title,minutes,from,deadline,"
                  "late,why\r\n");
    for (size_t i = 0; i < n; i++)
        add_booking(a, &b[i], why, out);
    int failed = buf_failed(out) || buf_failed(why);
    buf_free(why);
    return failed ? -1 : 0;
}
