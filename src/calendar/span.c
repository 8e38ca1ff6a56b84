#include "span.h"

#include "scan.h"

#include <stdio.h>

static const char *const units[] = {
    "day", "week", "month", "year", "days", "weeks", "months", "years", NULL};

int
span_scan(struct scan *s, struct span *out)
{
    struct scan attempt = *s;
    int64_t n;

    if (!scan_number(&attempt, 0, SPAN_MOST, &n))
        return 0;
    int unit = scan_choice(&attempt, units);
    if (unit < 0)
        return 0;
    *s = attempt;
    *out = (struct span){(int32_t)n, (enum step_unit)(unit % 4)};
    return 1;
}

const char *
span_text(struct span length, char out[SPAN_TEXT])
{
    snprintf(out, SPAN_TEXT, "%d %s", length.n,
        units[(int)length.unit + (length.n == 1 ? 0 : 4)]);
    return out;
}

int64_t
span_size(struct span s)
{
    /* In 4800ths of a day: 400 years are 4800 months of 146097 days. */
    static const int64_t day = 4800;
    static const int64_t month = 146097;
    const int64_t sizes[] = {day, 7 * day, month, 12 * month};

    return s.n * sizes[s.unit];
}
