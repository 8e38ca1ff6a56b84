#include "day.h"

#include "num.h"

#include <assert.h>
#include <string.h>

/* Days from 0000-03-01 to 1970-01-01.  Years that begin in March put the
 * leap day last, where it needs no special case. */
#define MARCH_EPOCH 719468

int
day_valid(day_t d)
{
    return d >= DAY_FIRST && d <= DAY_LAST;
}

static int
is_leap(int year)
{
    return year % 4 == 0 && (year % 100 != 0 || year % 400 == 0);
}

int
day_month_length(int year, int month)
{
    if (month == 2)
        return is_leap(year) ? 29 : 28;
    return 30 + ((month + (month > 7)) & 1);
}

day_t
day_of(int year, int month, int day)
{
    if (year < 1900 || year > 2199 || month < 1 || month > 12)
        return DAY_NONE;
    if (day < 1 || day > day_month_length(year, month))
        return DAY_NONE;
    int early = month < 3;
    int y = year - early;
    int m = month + 12 * early;
    /* 153 days are five months from March on, whatever the start. */
    return y * 365 + y / 4 - y / 100 + y / 400 + (153 * m - 457) / 5 + day -
           1 - MARCH_EPOCH;
}

/*
 * The inverse, by multiply and shift in place of division: C. Neri and
 * L. Schneider, "Euclidean affine functions and their application to calendar
 * algorithms", Software: Practice and Experience 53(4), 2023.
 */
struct ymd
day_ymd(day_t d)
{
    assert(day_valid(d));
    uint32_t quarter_days = 4u * (uint32_t)(d + MARCH_EPOCH) + 3;
    uint32_t century = quarter_days / 146097;
    uint32_t in_century = quarter_days % 146097 | 3;
    uint64_t scaled = (uint64_t)2939745 * in_century;
    uint32_t year = 100 * century + (uint32_t)(scaled >> 32);
    uint32_t day_of_year = (uint32_t)scaled / 2939745 / 4;
    uint32_t months = 2141 * day_of_year + 197913;
    uint32_t after_december = day_of_year >= 306;

    return (struct ymd){(int)(year + after_december),
        (int)((months >> 16) - 12 * after_december),
        (int)((months & 0xffff) / 2141) + 1};
}

int
day_weekday(day_t d)
{
    assert(day_valid(d));
    /* 1899-12-25, a Monday, lies a week before DAY_FIRST, also a Monday. */
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
