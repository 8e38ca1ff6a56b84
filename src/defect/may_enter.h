#ifndef MAY_ENTER_H
#define MAY_ENTER_H

#include "defects.h"

/*
 * Whether an act may be entered now, by this person, at that time: asked
 * inside the writing transaction, of the fold over what stands in it.
 */

/* Why not; the order is that of the words. */
enum defect_refusal {
    ENTER_ALLOWED,
    ENTER_NO_SUBJECT,
    ENTER_NO_DEFECT,
    ENTER_IS_CLOSED,
    ENTER_IS_REPAIRED,
    ENTER_NOT_REPAIRED,
    ENTER_NO_PERSON,
    ENTER_MAY_NOT_ASSESS,
    ENTER_MAY_NOT_REPAIR,
    ENTER_MAY_NOT_LIFT,
    ENTER_REPORTED_IT,
    ENTER_REPAIRED_IT,
    ENTER_SAY_ALONE,
    ENTER_BEFORE_REPORT,
    ENTER_BEFORE_REPAIR,
    ENTER_UNTIL_PAST,
    ENTER_UNTIL_INSPECTION,
    ENTER_UNTIL_TOO_LONG,
    ENTER_UNANSWERED,
    ENTER_NO_EVENT,
    ENTER_VOIDED,
    ENTER_NOT_LAST,
    ENTER_HAS_DEFECTS,
    ENTER_IS_THERE,
    ENTER_NEEDS_SURE,
    ENTER_MOVED_SINCE,
    ENTER_RESTED_ON
};

/* What the question needs to know beside the defects. */
struct enter_now {
    day_t today;      /* in the depot's zone */
    day_t inspection; /* the deadline of the next job marked as inspection, of
                         the subject or what carries it; DAY_NONE for none */
};

/* What an answer says beside the refusal, for its message: what it rests on. */
struct enter_answer {
    enum defect_refusal refusal;
    const struct defect *defect; /* that it is about, or NULL; of a report the
                                    one that it joins */
    day_t most;                  /* the last day a deferral may reach */
    int lifts;                   /* it lifts a stop */
};

/*
 * May @e be entered?  Its about is the first report of the defect for
 * decisions, repairs and releases, the event for a void; a report needs none:
 * the answer says which defect it joins.
 */
struct enter_answer may_enter(const struct defects *ds,
    const struct defect_event *e, const struct enter_now *now);

/* What the refusal says and what to do about it: a sentence without a full
 * stop. */
const char *enter_refusal_text(enum defect_refusal refusal);

#endif
