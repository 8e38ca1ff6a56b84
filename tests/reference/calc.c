/*
 * calc: answers questions about dates, one a line on stdin, one answer a line
 * on stdout, for dateutil to compare.
 *
 *   months DAY N   N months on          sticky DAY N   month ends stay
 *   last DAY       end of its month     week DAY       YEAR WEEK WEEKDAY
 *   weeks YEAR     how many             monday Y W     that week's Monday
 *   easter YEAR    MONTH DAY
 */
#include "day.h"
#include "easter.h"
#include "isoweek.h"
#include "step.h"

#include <stdio.h>
#include <string.h>

static void
put_day(day_t d)
{
    char text[DAY_TEXT];

    puts(day_text(d, text));
}

/* A question about the day @d: 0, or -1 when @ask is none. */
static int
ask_day(const char *ask, day_t d, int n)
{
    if (strcmp(ask, "months") == 0) {
        put_day(step_months(d, n, MONTH_END_CLAMP));
    } else if (strcmp(ask, "sticky") == 0) {
        put_day(step_months(d, n, MONTH_END_STICKY));
    } else if (strcmp(ask, "last") == 0) {
        put_day(step_month_last(d));
    } else if (strcmp(ask, "week") == 0 && day_valid(d)) {
        struct isoweek w = isoweek_of(d);
        printf("%d %d %d\n", w.year, w.week, day_weekday(d) + 1);
    } else {
        return -1;
    }
    return 0;
}

static int
ask_year(const char *ask, int year, int n)
{
    if (strcmp(ask, "weeks") == 0) {
        printf("%d\n", isoweek_count(year));
    } else if (strcmp(ask, "monday") == 0) {
        put_day(isoweek_monday(year, n));
    } else if (strcmp(ask, "easter") == 0) {
        int month;
        int day;
        easter_date(year, &month, &day);
        printf("%d %d\n", month, day);
    } else {
        return -1;
    }
    return 0;
}

int
main(void)
{
    char line[128];
    char ask[16];
    char day[16];
    int year;
    int n;

    while (fgets(line, sizeof line, stdin) != NULL) {
        n = 0;
        int read = sscanf(line, "%15s %15s %d", ask, day, &n);
        if (read < 2)
            return 1;
        day_t d = day_parse(day, strlen(day));
        if (ask_day(ask, d, n) == 0)
            continue;
        if (sscanf(day, "%d", &year) != 1 || ask_year(ask, year, n))
            return 1;
    }
    return 0;
}
