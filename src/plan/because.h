#ifndef BECAUSE_H
#define BECAUSE_H

#include "agenda.h"

struct buf;

/* Append why a booking is on its day, a clause without a full stop: "the last
 * working day by its deadline". */
void because_booking(
    const struct agenda *a, const struct plan_booking *b, struct buf *out);

/* Append that the work failed on @failed, and a semicolon; nothing for
 * DAY_NONE. */
void because_failed(day_t failed, struct buf *out);

/* The same as because_booking() in words that stay while the day does, for
 * views that are to be calm: what was in the way elsewhere may change from day
 * to day. */
void because_calmly(
    const struct agenda *a, const struct plan_booking *b, struct buf *out);

/* Append the smallest change by which a call that comes too late would come in
 * time, a sentence without a full stop. */
void because_cure(
    const struct agenda *a, const struct plan_clash *c, struct buf *out);

/* Append the title of the work of a booking, and in brackets what it is done
 * on when that is carried. */
void because_work(
    const struct agenda *a, const struct plan_booking *b, struct buf *out);

/* The same of minutes, "2 h 30". */
void because_time(int minutes, struct buf *out);

#endif
