#ifndef VALUE_H
#define VALUE_H

#include "keys.h"

/*
 * The readers of values, one for each sort: each fits the key table's @read.
 * What each leaves at its @at is named beside it.
 */
#define VALUE_READER(name)                                                     \
    void name(struct reading *r, const struct key *k, struct entry *e, void *at)

/* value.c: plain values */
VALUE_READER(value_nothing);  /* nothing: it was read already */
VALUE_READER(value_text);     /* const char * */
VALUE_READER(value_path);     /* const char *, as seen from where we run */
VALUE_READER(value_day);      /* day_t */
VALUE_READER(value_readings); /* struct baseline: its readings */
VALUE_READER(value_hours);    /* int64_t, a yearly use */
VALUE_READER(value_most);     /* int64_t, what a feed holds */
VALUE_READER(value_choice);   /* an enum, by the key's words */
VALUE_READER(value_span);     /* struct span, 1 or more */
VALUE_READER(value_any_span); /* struct span, 0 for none */
VALUE_READER(value_calm);     /* the same, a month at most */
VALUE_READER(value_weekdays); /* weekdays_t */
VALUE_READER(value_works);    /* the same, or none of them */

/* value_site.c */
VALUE_READER(value_zone);      /* const char *, an IANA name */
VALUE_READER(value_address);   /* const char *, a mail address */
VALUE_READER(value_url);       /* const char *, of a page */
VALUE_READER(value_transport); /* struct mail_settings */
VALUE_READER(value_secret);    /* const char *, the path of its file */
VALUE_READER(value_host);      /* const char *, the name of one */
VALUE_READER(value_wait);      /* int64_t, seconds */

/* value_server.c */
VALUE_READER(value_listen);  /* const char *, where to listen */
VALUE_READER(value_proxies); /* const char *const *, ends with NULL */
VALUE_READER(value_minute);  /* int64_t, minutes after midnight */

/* value_rule.c: the parts of struct rule, which is their @at */
VALUE_READER(value_every);
VALUE_READER(value_at_most);
VALUE_READER(value_first);
VALUE_READER(value_ages);
VALUE_READER(value_lead);
VALUE_READER(value_reminders);

/* value_calendar.c */
VALUE_READER(value_rules); /* struct holidays, as the next three */
VALUE_READER(value_added);
VALUE_READER(value_removed);
VALUE_READER(value_holiday_file);
VALUE_READER(value_holidays); /* struct calendar, as the next two */
VALUE_READER(value_closed);
VALUE_READER(value_open);

/* value_name.c: what names other sections */
VALUE_READER(value_calendar); /* const struct workcal * */
VALUE_READER(value_place);    /* struct rule */
VALUE_READER(value_covers);   /* struct job, as the next two */
VALUE_READER(value_follows);
VALUE_READER(value_also_counts);
VALUE_READER(value_depot); /* struct holder, as the next three */
VALUE_READER(value_carrier);
VALUE_READER(value_jobs);
VALUE_READER(value_yearly);
VALUE_READER(value_told); /* struct person, as the next */
VALUE_READER(value_stages);
VALUE_READER(value_shows); /* struct feed */

/* value_plan.c */
VALUE_READER(value_few);         /* int64_t, a number of vehicles, 1 or more */
VALUE_READER(value_away);        /* the same, or 0 */
VALUE_READER(value_hours_a_day); /* int64_t, minutes */
VALUE_READER(value_takes);       /* the same */
VALUE_READER(value_limited);     /* struct away_limit, as the next */
VALUE_READER(value_on);

struct scan;

/* Whether a length of time is @least of its unit or more, and sixty years or
 * less: NULL, or what is wrong with it, in words that follow it. */
const char *value_check_span(struct span s, int least);

/* Take such a length from the scan: NULL, or what is wrong. */
const char *value_take_span(struct scan *s, int least, struct span *out);

/* A number that puts lengths of time in order. */
int64_t value_span_size(struct span s);

/* The number of a weekday, 0 Monday, or month, 0 January, by its three letters
 * or whole name in @len bytes; -1 when it is none. */
int value_weekday(const char *word, size_t len);
int value_month(const char *word, size_t len);

/* What is wrong with a day, in words that follow it. */
#define VALUE_NOT_A_DAY                                                        \
    "is not a day; expected YYYY-MM-DD from 1900-01-01 to 2199-12-31"

/* What a calendar writes that keeps no holidays. */
#define VALUE_NO_HOLIDAYS "none"

#define VALUE_NOT_A_SPAN                                                       \
    "is not a length of time; expected N days|weeks|months|years"

#endif
