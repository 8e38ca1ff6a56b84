#ifndef SHOW_H
#define SHOW_H

#include "keys.h"

/*
 * The writers of values, one for each sort: each fits the key table's @show
 * and takes what the reader of the same name left at its @at.
 */
#define SHOW_WRITER(name)                                                      \
    void name(const struct reading *r __attribute__((unused)),                 \
        const struct key *k __attribute__((unused)),                           \
        const struct entry *e __attribute__((unused)),                         \
        const void *at __attribute__((unused)), struct buf *out)

/* show.c */
SHOW_WRITER(show_written); /* a value that was only read as text */
SHOW_WRITER(show_text);
SHOW_WRITER(show_day);
SHOW_WRITER(show_readings);
SHOW_WRITER(show_count);
SHOW_WRITER(show_choice);
SHOW_WRITER(show_span); /* also one that may be none */
SHOW_WRITER(show_alarm);
SHOW_WRITER(show_weekdays);
SHOW_WRITER(show_transport);
SHOW_WRITER(show_wait);
SHOW_WRITER(show_minute);
SHOW_WRITER(show_calendar);
SHOW_WRITER(show_covers);
SHOW_WRITER(show_follows);
SHOW_WRITER(show_also_counts);
SHOW_WRITER(show_depot);
SHOW_WRITER(show_carrier);
SHOW_WRITER(show_jobs);
SHOW_WRITER(show_yearly);
SHOW_WRITER(show_told);
SHOW_WRITER(show_stages);
SHOW_WRITER(show_shows);

/* show_rule.c */
SHOW_WRITER(show_every);
SHOW_WRITER(show_at_most);
SHOW_WRITER(show_first);
SHOW_WRITER(show_ages);
SHOW_WRITER(show_place);
SHOW_WRITER(show_lead);
SHOW_WRITER(show_reminders);

/* show_plan.c */
SHOW_WRITER(show_few);
SHOW_WRITER(show_away);
SHOW_WRITER(show_room);
SHOW_WRITER(show_minutes);
SHOW_WRITER(show_early);
SHOW_WRITER(show_limited);
SHOW_WRITER(show_on);

/* show_calendar.c */
SHOW_WRITER(show_rules);
SHOW_WRITER(show_added);
SHOW_WRITER(show_removed);
SHOW_WRITER(show_published);
SHOW_WRITER(show_holidays);
SHOW_WRITER(show_closed);
SHOW_WRITER(show_open);

#endif
