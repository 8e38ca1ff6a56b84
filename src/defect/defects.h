#ifndef DEFECTS_H
#define DEFECTS_H

#include "defect.h"

/*
 * All defects of a fleet: the fold over its events in the order of entry.
 */
struct defects;

/* None yet, of @fleet, which it borrows.  NULL when memory is out.  Free with
 * defects_free(). */
struct defects *defects_new(const struct fleet *fleet);

/* Free @ds; NULL is ignored. */
void defects_free(struct defects *ds);

/*
 * Add the next event as the ledger holds it, those that were voided since and
 * what voids them too: their numbers count, and what joined a defect while it
 * was closed says nothing later.  Texts and lists are borrowed.  What the table
 * of states would refuse changes nothing.  0, or -1 when memory is out.
 */
int defects_add(struct defects *ds, const struct defect_event *e);

/* They, by number; sets @n. */
const struct defect *defects_all(const struct defects *ds, size_t *n);

/* The defect with that number, or that belongs to that event; or NULL. */
const struct defect *defects_numbered(const struct defects *ds, int64_t number);
const struct defect *defects_of_event(const struct defects *ds, int64_t id);

/* Nonzero for a report that joined a defect which was closed by then: it is no
 * act on it. */
int defects_is_late(const struct defects *ds, int64_t id);

/* The number for the next one. */
int64_t defects_next_number(const struct defects *ds);

/*
 * The defect that a report of @item of @s joins, or NULL when it opens a new
 * one: the open one, of several the one that it puts back to reported, or
 * else the first.  From paper (rule 5) the one that
 * was open at that time, be it closed since, if the paper says nothing that was
 * not known then.
 */
const struct defect *defects_joined(
    const struct defects *ds, const struct defect_event *report);

/* The release, which stands, of the failed job at that event, or NULL. */
const struct defect_event *defects_released_failure(
    const struct defects *ds, int64_t failed);

/* What carries @s by the events so far: itself when nothing does. */
const struct subject *defects_carrier(
    const struct defects *ds, const struct subject *s);

/* The next open defect of @s or of what it carries after @after, or the first
 * for NULL; NULL for no more. */
const struct defect *defects_open_on(const struct defects *ds,
    const struct subject *s, const struct defect *after);

/* The fleet; and the event with that id, or NULL. */
const struct fleet *defects_fleet(const struct defects *ds);
const struct defect_event *defects_event(const struct defects *ds, int64_t id);

/* The events in the order of entry; sets @n. */
const struct defect_event *defects_events(const struct defects *ds, size_t *n);

/* What the defect of the event @without would be without it: for the question
 * whether that may be voided. */
struct defect defects_without(const struct defects *ds, int64_t without);

#endif
