#ifndef PLAN_WORDS_H
#define PLAN_WORDS_H

#include "fleet_plan.h"

struct buf;

/* Append why a booking is on its day, a clause without a full stop: "the last
 * working day by its deadline". */
void plan_words_booking(
    const struct fleet_plan *a, const struct plan_booking *b, struct buf *out);

/* Append that the work failed on @failed, and a semicolon; nothing for
 * DAY_NONE. */
void because_failed(day_t failed, struct buf *out);

/* The same as plan_words_booking() in words that stay while the day does, for
 * views that are to be calm: what was in the way elsewhere may change from day
 * to day. */
void plan_words_calmly(
    const struct fleet_plan *a, const struct plan_booking *b, struct buf *out);

/* Append the smallest change by which a call that comes too late would come in
 * time, a sentence without a full stop. */
void plan_words_cure(
    const struct fleet_plan *a, const struct plan_clash *c, struct buf *out);

/* Append the title of the work of a booking, and in brackets what it is done
 * on when that is carried. */
void plan_words_work(
    const struct fleet_plan *a, const struct plan_booking *b, struct buf *out);

/* The same of minutes, "2 h 30". */
void plan_words_time(int minutes, struct buf *out);

#endif
