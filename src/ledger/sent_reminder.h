#ifndef SENT_REMINDER_H
#define SENT_REMINDER_H

#include "day.h"
#include "fault.h"

struct ledger;

/*
 * What a person was told: one stage of one due.  It is kept with the message
 * that says it, see outbox_add().  Subject, job and person match letters in
 * either case.
 */
struct sent_reminder {
    const char *subject;
    const char *job;
    const char *cycle; /* from due_cycle_text() */
    const char *stage;
    const char *person;
    day_t deadline; /* as it was told; DAY_NONE when there was none */
};

/* Nonzero when @t was told, whatever the deadline then; -1 on failure. */
int sent_reminder_has(
    struct ledger *l, const struct sent_reminder *t, struct fault *f);

/* Nonzero when the stage of @t was told of this very deadline, by its own name
 * or by one with "@" and a day after it; -1 on failure. */
int sent_reminder_of_deadline(
    struct ledger *l, const struct sent_reminder *t, struct fault *f);

/* The cycle of what is told at once of the condition of a vehicle. */
#define SENT_REMINDER_CONDITION "condition"

/* Nonzero when the person was ever told anything of a due; -1 on failure. */
int sent_reminder_any(struct ledger *l, const char *person, struct fault *f);

/*
 * The deadline last told to @t's person of its subject, job and cycle, in
 * whatever stage; DAY_NONE when none was.  Returns 0 or -1.
 */
int sent_reminder_last_deadline(struct ledger *l, const struct sent_reminder *t,
    day_t *deadline, struct fault *f);

#endif
