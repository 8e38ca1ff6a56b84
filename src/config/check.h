#ifndef CHECK_H
#define CHECK_H

#include "load_context.h"

/*
 * Checks of what single values cannot tell: each adds its problems.
 */

/* check_rule.c: whether the values of a rule go together. */
void check_job_rule(
    struct load_context *r, const struct section *s, const struct job *job);
void check_own_rule(
    struct load_context *r, const struct subject_def *h, const struct use *use);

/* check_mail.c: how mail leaves; what is not stated is filled in. */
void check_mail(struct load_context *r, const struct section *s,
    struct mail_settings *mail);

/* check_fleet.c: a set of holidays, a calendar, a job, a subject, a person,
 * the names of all people, all jobs. */
void check_holidays(
    struct load_context *r, const struct section *s, const struct holidays *h);
void check_calendar(
    struct load_context *r, const struct section *s, const struct calendar *c);
void check_job(
    struct load_context *r, const struct section *s, const struct job *job);
void check_subject(struct load_context *r, const struct subject_def *h);
void check_person(struct load_context *r, const struct section *s);
void check_names(struct load_context *r);
void check_all_jobs(struct load_context *r);

/* check_plan.c: what could never be planned, and a limit that limits nothing.
 */
void check_works(struct load_context *r);
void check_limit(struct load_context *r, const struct section *s,
    const struct away_limit *l);

#endif
