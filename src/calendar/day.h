#ifndef DAY_H
#define DAY_H

#include <stddef.h>
#include <stdint.h>

/*
 * A civil day: days since 1970-01-01 in the proleptic Gregorian calendar, from
 * DAY_FIRST to DAY_LAST.  DAY_NONE is no day at all; every function that
 * makes a day answers DAY_NONE when given it, or when the result would lie
 * outside.  Nothing wraps.
 */
typedef int32_t day_t;

#define DAY_NONE INT32_MIN
#define DAY_FIRST ((day_t)-25567) /* 1900-01-01 */
#define DAY_LAST ((day_t)84005)   /* 2199-12-31 */
#define DAY_TEXT 11               /* room for "YYYY-MM-DD" and a NUL */
#define DAY_WORDS 15              /* room for "Wed 2026-12-02" and a NUL */

/* Year, month 1 to 12, day of the month 1 to 31. */
struct ymd {
    int year;
    int month;
    int day;
};

/* Nonzero when @d is a day in range. */
int day_valid(day_t d);

/* The day of that date, or DAY_NONE when there is no such date in range. */
day_t day_of(int year, int month, int day);

/* The date of @d, which must be valid. */
struct ymd day_ymd(day_t d);

/* How many days the month has, 28 to 31, or 0 when it is out of range. */
int day_month_length(int year, int month);

/* Weekday of @d, which must be valid: 0 Monday to 6 Sunday (ISO 8601). */
int day_weekday(day_t d);

/*
 * Read the @len bytes at @text as an ISO 8601 calendar date, YYYY-MM-DD and
 * nothing else.  DAY_NONE when it is not one, or is no date in range.
 */
day_t day_parse(const char *text, size_t len);

/* Write @d as YYYY-MM-DD, or "-" for DAY_NONE, into @out and return it. */
const char *day_text(day_t d, char out[DAY_TEXT]);

/* Write @d with its weekday, "Wed 2026-12-02", or "-" for DAY_NONE. */
const char *day_words(day_t d, char out[DAY_WORDS]);

/* The later of two days; DAY_NONE counts as the earliest. */
day_t day_later(day_t a, day_t b);

/* The earlier of two days; DAY_NONE counts as the latest. */
day_t day_earlier(day_t a, day_t b);

#endif
