#ifndef VALUE_H
#define VALUE_H

#include "keys.h"

#include <stdint.h>

/*
 * The shapes of values.  A comment names what is read into the member, and the
 * columns of the key's row that the type goes by.
 */
#define VALUE_TYPE(name) extern const struct value_type value_##name

/* value.c: plain values */
VALUE_TYPE(written);  /* nothing: it is read elsewhere, and shown as written */
VALUE_TYPE(text);     /* const char *; @fits, @wrong */
VALUE_TYPE(day);      /* day_t */
VALUE_TYPE(days);     /* const day_t *; @count */
VALUE_TYPE(number);   /* int64_t; @least, @most, @unit */
VALUE_TYPE(choice);   /* an enum; @words */
VALUE_TYPE(bits);     /* unsigned, a bit a word; @words */
VALUE_TYPE(weekdays); /* weekdays_t; @least, which is 0 or 1 */

/* value_time.c: lengths of time */
VALUE_TYPE(span);    /* struct span; @least, @most with @wrong */
VALUE_TYPE(alarm);   /* the same, less than 0 for none */
VALUE_TYPE(seconds); /* int64_t; @most, @wrong */
VALUE_TYPE(work);    /* int64_t, minutes; @unit of a bare number, @wrong */
VALUE_TYPE(clock);   /* int64_t, minutes after midnight */

/* value_rule.c: parts of struct rule, at which they look as a whole */
VALUE_TYPE(every);
VALUE_TYPE(at_most);
VALUE_TYPE(first);
VALUE_TYPE(ages);
VALUE_TYPE(place);
VALUE_TYPE(lead);
VALUE_TYPE(reminders);
VALUE_TYPE(readings); /* struct baseline: its readings */

/* value_calendar.c: struct holidays, then struct calendar */
VALUE_TYPE(rules);
VALUE_TYPE(added);
VALUE_TYPE(published);
VALUE_TYPE(holidays);
VALUE_TYPE(closed);

/* value_name.c: what names other sections */
VALUE_TYPE(calendar);    /* const struct work_calendar * */
VALUE_TYPE(job_list);    /* const struct job **; @count */
VALUE_TYPE(also_counts); /* struct job */
VALUE_TYPE(depot);       /* struct subject_def, as the next three */
VALUE_TYPE(carrier);
VALUE_TYPE(jobs);
VALUE_TYPE(yearly);
VALUE_TYPE(scopes);  /* const struct scope *; @count */
VALUE_TYPE(stages);  /* struct person */
VALUE_TYPE(limited); /* struct away_limit, as the next */
VALUE_TYPE(on);

/* sheets.c: check sheets and what names them */
VALUE_TYPE(items);   /* struct sheet_def */
VALUE_TYPE(carried); /* const struct subject_type * */
VALUE_TYPE(sheets);  /* struct subject_def */

/* value_server.c: what leads out of the program */
VALUE_TYPE(path);      /* const char *, as seen from where we run */
VALUE_TYPE(secret);    /* the same, of a file that holds one */
VALUE_TYPE(transport); /* struct mail_settings */
VALUE_TYPE(proxies);   /* const char *const *, ends with NULL */

/* Nonzero for texts that fit: a time zone of tzdata, a mail address, a URL of
 * the web, and where to listen. */
int value_is_zone(const char *text);
int value_is_mail_address(const char *text);
int value_is_url(const char *text);
int value_is_listener(const char *text);

/* Whether a length of time is @least of its unit or more, and sixty years or
 * less: NULL, or what is wrong with it, in words that follow it. */
const char *value_check_span(struct span s, int64_t least);

/* The number of a weekday, 0 Monday, or month, 0 January, by its three letters
 * or whole name in @len bytes; -1 when it is none. */
int value_weekday(const char *word, size_t len);
int value_month(const char *word, size_t len);

/* The length of the list at @at, which a value of @k fills in. */
static inline size_t *
value_count(const struct key *k, const void *at)
{
    return (size_t *)((uintptr_t)at - k->offset + k->count);
}

/* Append "3 days", or for none what the key shows. */
void value_format_number(
    const struct key *k, size_t n, const char *what, struct buf *out);

/* Append "none", or what else the key shows for no value. */
void value_format_unset(const struct key *k, struct buf *out);

/* What is wrong with a day, in words that follow it. */
#define VALUE_NOT_A_DAY                                                        \
    "is not a day; expected YYYY-MM-DD from 1900-01-01 to 2199-12-31"

/* What a calendar writes that keeps no holidays. */
#define VALUE_NO_HOLIDAYS "none"

/* Give each of the items between commas to @take, as keys.h has it. */
void value_take_each(struct load_context *r, const struct key *k,
    struct entry *e, void *at,
    const char *(*take)(const struct key *, struct scan *, void *));

/* The functions of a type.  Not each looks at all that it is given. */
#define UNUSED __attribute__((unused))
#define VALUE_PARSER(name)                                                     \
    static void name(struct load_context *r, const struct key *k UNUSED,       \
        struct entry *e, void *at)
#define VALUE_TAKER(name)                                                      \
    static const char *name(                                                   \
        const struct key *k UNUSED, struct scan *s, void *at)
#define VALUE_FORMATTER(name)                                                  \
    static void name(const struct load_context *r UNUSED,                      \
        const struct key *k UNUSED, const struct entry *e UNUSED,              \
        const void *at UNUSED, struct buf *out)

#endif
