#include "import_day.h"

#include <string.h>
#include <sysexits.h>

static const struct {
    const char *word;
    const char *example;
} orders[] = {
    [DAYS_ISO] = {"iso", "2026-12-02"},
    [DAYS_DAY_FIRST] = {"day-first", "2/12/2026 for 2 December"},
    [DAYS_MONTH_FIRST] = {"month-first", "12/2/2026 for 2 December"},
};

int
import_day_order(const char *word, enum day_order *order)
{
    for (size_t i = 0; i < sizeof orders / sizeof orders[0]; i++)
        if (strcmp(orders[i].word, word) == 0) {
            *order = (enum day_order)i;
            return 0;
        }
    return -1;
}

/* Three numbers with one kind of mark between them, and how many digits each
 * has. */
struct day_parts {
    int number[3];
    int digits[3];
};

static int
split(const char *text, struct day_parts *p)
{
    char mark = '\0';

    for (int i = 0; i < 3; i++) {
        p->number[i] = p->digits[i] = 0;
        for (; *text >= '0' && *text <= '9' && p->digits[i] < 4; text++) {
            p->number[i] = 10 * p->number[i] + (*text - '0');
            p->digits[i]++;
        }
        if (p->digits[i] == 0)
            return -1;
        if (i == 2)
            break;
        if (*text == '\0' || strchr("/.-", *text) == NULL ||
            (i == 1 && *text != mark))
            return -1;
        mark = *text++;
    }
    return *text == '\0' ? 0 : -1;
}

static day_t
day_of_parts(enum day_order order, const struct day_parts *p)
{
    int day = order == DAYS_DAY_FIRST ? 0 : 1;

    if (p->digits[0] > 2 || p->digits[1] > 2 || p->digits[2] != 4)
        return DAY_NONE;
    return day_of(p->number[2], p->number[1 - day], p->number[day]);
}

/* Say why @text is no day, where that can be told from its parts. */
static void
say_why(enum day_order order, const char *text, const struct day_parts *p,
    struct fault *f)
{
    int swapped = order == DAYS_DAY_FIRST ? DAYS_MONTH_FIRST : DAYS_DAY_FIRST;

    if (p->digits[0] <= 2 && p->digits[1] <= 2 && p->digits[2] <= 2)
        fault_fill(f, EX_DATAERR,
            "the day '%.40s' has a year of two digits; write all four", text);
    else if (order == DAYS_ISO && p->digits[2] == 4)
        fault_fill(f, EX_DATAERR,
            "the day '%.40s' is not written as 2026-12-02; if the sheet has "
            "them all like that, say --days day-first or --days month-first",
            text);
    else if (order != DAYS_ISO &&
             day_of_parts((enum day_order)swapped, p) != DAY_NONE)
        fault_fill(f, EX_DATAERR,
            "the day '%.40s' has no such month; is the sheet %s?", text,
            orders[swapped].word);
}

day_t
import_day(enum day_order order, const char *text, struct fault *f)
{
    struct day_parts p;
    int three = split(text, &p) == 0;
    day_t day = order == DAYS_ISO ? day_parse(text, strlen(text))
                : three           ? day_of_parts(order, &p)
                                  : DAY_NONE;

    if (day != DAY_NONE)
        return day;
    fault_fill(f, EX_DATAERR, "the day '%.40s' is none; expected %s", text,
        orders[order].example);
    if (three)
        say_why(order, text, &p, f);
    return DAY_NONE;
}
