#ifndef CALM_H
#define CALM_H

#include "due.h"

/*
 * Forecasts as calendars and mail show them.  A forecast wavers with every
 * reading; what was shown stands until the day that counts is earlier, or later
 * by a length of time, and then the new forecast stands in its place.
 *
 * So a calendar can show a day that is earlier than the present one, by less
 * than that length, and never a later one.  What is no forecast is never held:
 * a reading that shows the due reading, and nothing to go by at all.  Nor is
 * one held over another that goes by something else.
 */
struct calm;

/* What a snapshot does with them. */
enum calm_use {
    CALM_LOOK,  /* goes by the present forecast, and says what is held */
    CALM_SETTLE /* goes by what is held, and moves what has to move */
};

/* The forecast of one meter in one cycle of one job. */
struct held {
    const char *subject; /* these two match letters in either case */
    const char *job;
    const char *cycle; /* as due_cycle_text() */
    enum meter meter;
    struct forecast forecast;
};

/* Nothing is held yet; a day moves once it is @length later, at once when that
 * is 0 days or it is earlier.  NULL when memory is out.  Free with calm_free().
 */
struct calm *calm_new(struct span length, enum calm_use use);

/* Free @c; NULL is ignored. */
void calm_free(struct calm *c);

/* Add a copy of what is held, all before a snapshot uses @c.  Running out of
 * memory is remembered, see calm_failed(). */
void calm_add(struct calm *c, const struct held *h);

/*
 * Hold @h, which is present, for a job that takes the day @which of it: where
 * another stands, @h's forecast becomes that one.  With CALM_LOOK it stays.
 */
void calm_settle(struct calm *c, enum forecast_day which, struct held *h);

/* The day that stands in the place of @h's by what is held, or DAY_NONE when
 * it is the same, or would move. */
day_t calm_kept(struct calm *c, enum forecast_day which, const struct held *h);

/* What is held anew, or otherwise than before; sets @n. */
const struct held *calm_changes(const struct calm *c, size_t *n);

/* Nonzero when a snapshot with @c is one that calendars and mail are made from;
 * it is not with NULL. */
int calm_settles(const struct calm *c);

/* How far a day moves to a later one before it is shown. */
struct span calm_length(const struct calm *c);

/* Nonzero when memory ran out: then what is held is not whole. */
int calm_failed(const struct calm *c);

#endif
