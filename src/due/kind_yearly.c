#include "buf.h"
#include "calc_context.h"
#include "calendar_rule.h"
#include "scan.h"

/* "yearly on 1 nov": the season decides, not the last time. */

static const char *const months[] = {"jan", "feb", "mar", "apr", "may", "jun",
    "jul", "aug", "sep", "oct", "nov", "dec", "january", "february", "march",
    "april", "may", "june", "july", "august", "september", "october",
    "november", "december", NULL};

static int
parse(struct scan *s, struct arena *a, struct interval *out)
{
    int64_t day;

    (void)a;
    if (!scan_word(s, "yearly") || !scan_word(s, "on") ||
        !scan_number(s, 1, 31, &day))
        return -1;
    int month = scan_choice(s, months);
    /* 2000 is a leap year: 29 Feb is a date, 30 Feb is not. */
    if (month < 0 || day > day_month_length(2000, month % 12 + 1))
        return -1;
    out->day = (int)day;
    out->month = month % 12 + 1;
    return 0;
}

static void
print(const struct interval *every, struct buf *out)
{
    buf_print(out, "yearly on %d %s", every->day, months[every->month - 1]);
}

/* That date in @year; 29 February is 28 February in a common year. */
static day_t
date_in(const struct interval *every, int year)
{
    if (year < 1900 || year > 2199)
        return DAY_NONE;
    int last = day_month_length(year, every->month);
    return day_of(year, every->month, every->day > last ? last : every->day);
}

/* The first such date on or after @d, or DAY_NONE. */
static day_t
date_from(const struct interval *every, day_t d)
{
    if (d == DAY_NONE)
        return DAY_NONE;
    int year = day_ymd(d).year;
    day_t this_year = date_in(every, year);

    return this_year >= d ? this_year : date_in(every, year + 1);
}

const struct interval_kind kind_yearly = {
    .form = "yearly on D MONTH",
    .date_from = date_from,
    .needs_history = 1,
    .parse = parse,
    .print = print,
    .before = calendar_rule_before,
    .first = calendar_rule_first,
    .next = calendar_rule_next,
};
