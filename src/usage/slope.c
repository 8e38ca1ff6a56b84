#include "slope.h"

#include <stdlib.h>

#define PAIRS (SLOPE_READINGS * (SLOPE_READINGS - 1) / 2)

static int
by_size(const void *left, const void *right)
{
    double a = *(const double *)left;
    double b = *(const double *)right;

    return (a > b) - (a < b);
}

/* The @i-th of @n things when no more than SLOPE_READINGS are taken. */
static size_t
spread_out(size_t i, size_t n)
{
    return n <= SLOPE_READINGS ? i : i * (n - 1) / (SLOPE_READINGS - 1);
}

double
slope_median(const struct reading *readings, size_t n, int apart)
{
    double slopes[PAIRS] = {0};
    size_t taken = n < SLOPE_READINGS ? n : SLOPE_READINGS;
    size_t pairs = 0;

    for (size_t i = 0; i < taken; i++)
        for (size_t j = i + 1; j < taken; j++) {
            const struct reading *a = &readings[spread_out(i, n)];
            const struct reading *b = &readings[spread_out(j, n)];
            if (b->day - a->day >= apart)
                slopes[pairs++] =
                    (double)(b->value - a->value) / (double)(b->day - a->day);
        }
    if (pairs == 0)
        return 0;
    qsort(slopes, pairs, sizeof *slopes, by_size);
    return (slopes[(pairs - 1) / 2] + slopes[pairs / 2]) / 2;
}
