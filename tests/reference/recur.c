/*
 * recur: the days of recurrence rules as a job has them, for dateutil to
 * compare.  A question a line on stdin, "RRULE FIRST DAY ...": for each DAY the
 * first day of the rule on or after it, "-" when there is none; or "refused".
 */
#include "arena.h"
#include "calc_context.h"
#include "kind.h"
#include "scan.h"

#include <stdio.h>
#include <string.h>

#define MOST 1000

/* The days asked for, from @at on, one line. */
static void
answer_days(const struct interval *every, char *at)
{
    char text[DAY_TEXT];
    const char *gap = "";

    for (char *day = strtok(at, " \n"); day; day = strtok(NULL, " \n")) {
        day_t d = day_parse(day, strlen(day));
        printf("%s%s", gap, day_text(every->kind->date_from(every, d), text));
        gap = " ";
    }
    putchar('\n');
}

static int
answer(const char *rule, char *days)
{
    struct arena *a = arena_new();
    struct scan s = scan_start(rule);
    struct interval every;

    if (a == NULL)
        return -1;
    if (kind_parse(&s, a, &every) != 0)
        puts("refused");
    else
        answer_days(&every, days);
    arena_free(a);
    return 0;
}

int
main(void)
{
    char line[MOST];
    char rule[MOST];
    char first[16];
    char whole[MOST + 64];
    int taken;

    while (fgets(line, sizeof line, stdin) != NULL) {
        if (sscanf(line, "%999s %15s%n", rule, first, &taken) != 2)
            return 1;
        snprintf(whole, sizeof whole, "rule %s from %s", rule, first);
        if (answer(whole, line + taken) != 0)
            return 1;
    }
    return 0;
}
