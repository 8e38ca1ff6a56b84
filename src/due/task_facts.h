#ifndef TASK_FACTS_H
#define TASK_FACTS_H

#include "calc_context.h"
#include "cover.h"

/*
 * Inside the due layer only: picking out of all facts what bears on one
 * subject and one task.  The lists are kept from one call to the next, so
 * that a large fleet costs no allocations; each call overwrites the last.
 */
struct task_facts;

/* A gatherer over @facts, which it borrows; NULL when memory is out. */
struct task_facts *task_facts_new(const struct facts *facts);

/* Free @g; NULL is ignored. */
void task_facts_free(struct task_facts *g);

/* Take up a subject: its work, its readings, and its spells with those of
 * what carries it.  0, or -1 when memory is out. */
int task_facts_subject(struct task_facts *g, const struct subject *s);

/* What is known of the use of @meter of the subject taken up. */
struct usage task_facts_usage(const struct task_facts *g, enum meter meter);

/*
 * Take up a task of that subject and set what @r needs of it, but for
 * @r->why.  Returns 1 when the task can be due, 0 when it is a follow-on that
 * nothing has called for, -1 when memory is out.
 */
int task_facts_task(
    struct task_facts *g, const struct task *t, struct calc_context *r);

/* Add a completion that has not happened yet, to look a cycle ahead: 0 or
 * -1. */
int task_facts_assume(
    struct task_facts *g, struct completion c, struct calc_context *r);

/* The day the task taken up was last done, or DAY_NONE. */
day_t task_facts_last_done(const struct task_facts *g);

#endif
