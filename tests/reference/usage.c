/*
 * The parts of a forecast, for comparison.  A line from standard input is
 * either "student FREEDOM" or "WHAT N SPELLS YEARLY DUE" with the days and
 * values of N readings and the days of the spells after it.  WHAT is
 *
 *   slope     writes the median slope of all pairs a day apart or more
 *   kept      writes the days of the readings that are not left out
 *   profile   writes 0, or 1 and the twelve shares
 *   forecast  writes BASIS SEASONAL EARLY LIKELY LATE, "-" for no day
 */
#include "model.h"
#include "theil_sen.h"

#include <inttypes.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static void
say_kept(const struct model *m)
{
    for (size_t i = 0; i < m->readings.n; i++)
        printf("%d ", m->readings.at[i].day);
}

static void
say_profile(const struct model *m)
{
    printf("%d", m->seasonality.seasonal);
    for (int i = 0; m->seasonality.seasonal && i < SEASONALITY_PARTS; i++)
        printf(" %.17g", m->seasonality.share[i]);
}

/* The cycle began before all readings, so that all of them count. */
static day_t
begun(const struct usage *u)
{
    return u->readings[0].day - 1;
}

static void
say_forecast(const struct usage *u, int64_t due)
{
    struct reading from = {begun(u), due - 1};
    struct forecast f = usage_forecast(u, from, due);
    const day_t days[] = {f.early, f.likely, f.late};

    printf("%d %d", (int)f.basis, f.seasonal);
    for (int i = 0; i < 3; i++)
        if (days[i] == DAY_NONE)
            printf(" -");
        else
            printf(" %d", days[i]);
}

static void
answer(const char *what, const struct usage *u, int64_t due)
{
    struct model m;

    model_make(&m, u, begun(u));
    if (strcmp(what, "slope") == 0)
        printf("%.17g", theil_sen_slope(u->readings, u->n, 1));
    else if (strcmp(what, "kept") == 0)
        say_kept(&m);
    else if (strcmp(what, "profile") == 0)
        say_profile(&m);
    else
        say_forecast(u, due);
    putchar('\n');
}

static int
read_usage(const char *what)
{
    size_t n, spells;
    int64_t yearly, due;

    if (scanf("%zu %zu %" SCNd64 " %" SCNd64, &n, &spells, &yearly, &due) != 4)
        return -1;
    struct reading *readings = calloc(n + 1, sizeof *readings);
    struct spell *off = calloc(spells + 1, sizeof *off);
    int failed = readings == NULL || off == NULL;
    for (size_t i = 0; !failed && i < n; i++)
        failed =
            scanf("%d %" SCNd64, &readings[i].day, &readings[i].value) != 2;
    for (size_t i = 0; !failed && i < spells; i++)
        failed = scanf("%d %d", &off[i].from, &off[i].until) != 2;
    if (!failed)
        answer(what, &(struct usage){readings, n, yearly, off, spells}, due);
    free(readings);
    free(off);
    return failed ? -1 : 0;
}

int
main(void)
{
    char what[16];
    double freedom;
    int failed = 0;

    while (!failed && scanf("%15s", what) == 1) {
        if (strcmp(what, "student") != 0)
            failed = read_usage(what);
        else if (scanf("%lf", &freedom) == 1)
            printf("%.17g\n", rate_student(freedom));
    }
    return failed != 0;
}
