#ifndef DEFECT_EVENTS_H
#define DEFECT_EVENTS_H

#include "defects.h"
#include "record.h"
#include "run_context.h"

/*
 * From the events of the ledger to the life of each defect, and back.  Days and
 * times are those of the zone of the subject's depot.
 */

/*
 * The fold over all defects as the ledger has them at this moment: between
 * ledger_begin() and ledger_commit() nobody else can change that.  Texts are in
 * the arena of the run.  NULL with @f set.  Free with defects_free().
 */
struct defects *defect_events_fold(
    const struct run_context *p, struct fault *f);

/* The records that it goes over, in the order of entry, void ones too; sets
 * @n.  NULL with @f set. */
struct record *defect_events_records(
    const struct run_context *p, size_t *n, struct fault *f);

/*
 * Add @e to the ledger as a record of its kind that was entered now, and set
 * its id.  @reading is what the odometer showed, with a check, or -1; @sheet,
 * @items, @end and @paper belong to a check.  0, or -1 with @f set.
 */
struct defect_event_more {
    const char *reference;
    const char *sheet;
    const char *paper;        /* number of the sheet of paper, or NULL */
    const char *const *items; /* the codes that were looked at */
    size_t n_items;
    const char *const *reported; /* numbers of the records by which what was
                                    found had been reported before */
    size_t n_reported;
    int64_t reading;
    int64_t end; /* reading at the end of the use, or -1 */
    int opened;  /* the minute at which a form was opened, or -1 */
    int nil;     /* nothing was found */
};
int defect_event_add(const struct run_context *p, struct defect_event *e,
    const struct defect_event_more *more, struct fault *f);

/* The zone in which the days of @s are told. */
const char *defect_events_zone(
    const struct run_context *p, const struct subject *s);

#endif
