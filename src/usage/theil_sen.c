#include "theil_sen.h"

#define PAIRS (THEIL_SEN_READINGS * (THEIL_SEN_READINGS - 1) / 2)

static void
swap(double *a, double *b)
{
    double kept = *a;

    *a = *b;
    *b = kept;
}

/* Order the @n values so far that the one at @k is where it belongs, with none
 * greater before it and none smaller after it: Hoare, "Algorithm 65: Find",
 * Communications of the ACM 4 (1961) 321-322. */
static void
find(double *values, long n, long k)
{
    long first = 0;
    long last = n - 1;

    while (first < last) {
        double middle = values[k];
        long low = first;
        long high = last;
        while (low <= high) {
            while (values[low] < middle)
                low++;
            while (values[high] > middle)
                high--;
            if (low <= high)
                swap(&values[low++], &values[high--]);
        }
        if (high < k)
            first = low;
        if (k < low)
            last = high;
    }
}

/* The median; of an even number, half way between the middle two. */
static double
median(double *values, size_t n)
{
    size_t k = (n - 1) / 2;

    find(values, (long)n, (long)k);
    if (n % 2 == 1)
        return values[k];
    double next = values[k + 1];
    for (size_t i = k + 2; i < n; i++)
        next = values[i] < next ? values[i] : next;
    return (values[k] + next) / 2;
}

/* The @i-th of @n things when no more than THEIL_SEN_READINGS are taken. */
static size_t
spread_out(size_t i, size_t n)
{
    return n <= THEIL_SEN_READINGS ? i : i * (n - 1) / (THEIL_SEN_READINGS - 1);
}

double
theil_sen_slope(const struct reading *readings, size_t n, int apart)
{
    double slopes[PAIRS] = {0};
    size_t taken = n < THEIL_SEN_READINGS ? n : THEIL_SEN_READINGS;
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
    return median(slopes, pairs);
}
