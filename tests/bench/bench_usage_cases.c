/*
 * Forecasts of cases from standard input: a line "READINGS SPELLS YEARLY DUE",
 * then a line of two numbers each for a reading, day and value, and for a
 * spell, first and last day.  Writes "BASIS EARLY LIKELY LATE" a case, days or
 * "-".
 */
#include "usage.h"

#include <inttypes.h>
#include <stdio.h>
#include <stdlib.h>

static void
show(day_t d)
{
    if (d == DAY_NONE)
        fputs(" -", stdout);
    else
        printf(" %d", d);
}

static int
read_case(size_t n, size_t spells, int64_t yearly, int64_t due)
{
    struct reading *readings = calloc(n + 1, sizeof *readings);
    struct spell *off = calloc(spells + 1, sizeof *off);
    int failed = readings == NULL || off == NULL;

    for (size_t i = 0; !failed && i < n; i++)
        failed = scanf("%d %" SCNd64, &readings[i].day, &readings[i].value) != 2;
    for (size_t i = 0; !failed && i < spells; i++)
        failed = scanf("%d %d", &off[i].from, &off[i].until) != 2;
    if (!failed) {
        struct usage u = {readings, n, yearly, off, spells};
        /* The cycle began before the first reading. */
        struct reading from = {readings[0].day - 1, due - 1};
        struct forecast f = usage_forecast(&u, from, due);
        printf("%d", (int)f.basis + 10 * f.seasonal);
        show(f.early);
        show(f.likely);
        show(f.late);
        putchar('\n');
    }
    free(readings);
    free(off);
    return failed ? -1 : 0;
}

int
main(void)
{
    size_t n, spells;
    int64_t yearly, due;

    while (scanf("%zu %zu %" SCNd64 " %" SCNd64, &n, &spells, &yearly, &due) == 4)
        if (read_case(n, spells, yearly, due))
            return 1;
    return 0;
}
