#include "day.h"

#include "month.h"
#include "num.h"

#include <assert.h>
#include <string.h>

_Static_assert(MONTH_EPOCH == DAY_FIRST, "one first day");

int
day_valid(day_t d)
{
    return d >= DAY_FIRST && d <= DAY_LAST;
}

/* The month's place in the table, or -1. */
static int
month_index(int year, int month)
{
    if (year < 1900 || year > 2199 || month < 1 || month > 12)
        return -1;
    return (year - 1900) * 12 + month - 1;
}

int
day_month_length(int year, int month)
{
    int m = month_index(year, month);

    return m < 0 ? 0 : month_length(m);
}

day_t
day_of(int year, int month, int day)
{
    int m = month_index(year, month);

    if (m < 0 || day < 1 || day > month_length(m))
        return DAY_NONE;
    return month_first[m] + day - 1;
}

struct ymd
day_ymd(day_t d)
{
    assert(day_valid(d));
    int m = month_of(d);
    return (struct ymd){1900 + m / 12, m % 12 + 1, d - month_first[m] + 1};
}

int
day_weekday(day_t d)
{
    assert(day_valid(d));
    /* 1 January 1900 was a Monday. */
    return (int)((uint32_t)(d - DAY_FIRST) % 7);
}

day_t
day_parse(const char *text, size_t len)
{
    int64_t y;
    int64_t m;
    int64_t d;

    if (len != 10 || text[4] != '-' || text[7] != '-')
        return DAY_NONE;
    if (num_parse(text, 4, 0, 9999, &y) || num_parse(text + 5, 2, 1, 12, &m) ||
        num_parse(text + 8, 2, 1, 31, &d))
        return DAY_NONE;
    return day_of((int)y, (int)m, (int)d);
}

const char *
day_text(day_t d, char out[DAY_TEXT])
{
    if (!day_valid(d))
        return memcpy(out, "-", 2);
    struct ymd t = day_ymd(d);
    unsigned y = (unsigned)t.year;
    unsigned m = (unsigned)t.month;
    unsigned n = (unsigned)t.day;
    const char digits[DAY_TEXT] = {(char)('0' + y / 1000),
        (char)('0' + y / 100 % 10), (char)('0' + y / 10 % 10),
        (char)('0' + y % 10), '-', (char)('0' + m / 10), (char)('0' + m % 10),
        '-', (char)('0' + n / 10), (char)('0' + n % 10), '\0'};
    return memcpy(out, digits, DAY_TEXT);
}

const char *
day_words(day_t d, char out[DAY_WORDS])
{
    static const char *const weekdays[] = {
        "Mon ", "Tue ", "Wed ", "Thu ", "Fri ", "Sat ", "Sun "};
    size_t at = 0;

    if (day_valid(d)) {
        memcpy(out, weekdays[day_weekday(d)], 4);
        at = 4;
    }
    day_text(d, out + at);
    return out;
}

day_t
day_later(day_t a, day_t b)
{
    return a > b ? a : b;
}

day_t
day_earlier(day_t a, day_t b)
{
    if (a == DAY_NONE || b == DAY_NONE)
        return a == DAY_NONE ? b : a;
    return a < b ? a : b;
}
