#ifndef WARNINGS_H
#define WARNINGS_H

#include "load_context.h"

/*
 * What is legal and probably wrong: each adds its warnings.
 */

/* warnings_interval.c */

/* The intervals of a job that are longer than its own 'at-most'. */
void warn_job(
    struct load_context *r, const struct section *s, const struct job *job);

/* The intervals of a type or subject that are longer than 'at-most' allows;
 * where it is silent, than the job's; and steps of age that are. */
void warn_intervals(struct load_context *r, const struct subject_def *h);

/* warnings_check.c: sheets that nobody uses, vehicles without one, items that
 * are never asked for, and what nobody or only one may release. */
void warn_checks(struct load_context *r);

/* warnings.c */

/* Of a whole fleet without errors: people who are never told, feeds that show
 * nothing, calendars without a word of holidays, lifts without a job. */
void warn_fleet(struct load_context *r);

/* By what day it is: work done after @today, certificates that run longer than
 * they can, holidays that are known for less than a year. */
void warn_dates(const struct load_context *r, day_t today, struct problems *ps);

/* Warn of the line that states the deadline, or the first deadline, of @t: its
 * key, and @text. */
void warn_stated(const struct load_context *r, const struct task *t,
    const char *text, struct problems *ps);

#endif
