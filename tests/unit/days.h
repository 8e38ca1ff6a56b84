#ifndef DAYS_H
#define DAYS_H

/* Writing days as text in checks. */

#include "day.h"
#include "test.h"

#include <string.h>

/* The day written as YYYY-MM-DD; "-" is DAY_NONE. */
static inline day_t
date(const char *text)
{
    day_t d = day_parse(text, strlen(text));

    if (d == DAY_NONE && strcmp(text, "-") != 0)
        fail_msg("the check itself names no day: %s", text);
    return d;
}

/* Fail unless the day @d is written @text; shows both. */
#define assert_day(d, text)                                                    \
    do {                                                                       \
        char text_of_day[DAY_TEXT];                                            \
        assert_string_equal(day_text((d), text_of_day), (text));               \
    } while (0)

#endif
