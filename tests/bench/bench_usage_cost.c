/*
 * What a forecast costs in processor time: over 200 readings as a ratio to one
 * plain pass of least squares over the same, and how it grows to 100,000
 * readings.  A seventh of the readings is wrong, so that there is something to
 * leave out.
 */
#include "usage.h"

#include <stdio.h>
#include <stdlib.h>
#include <time.h>

#define MOST 100000

static double
seconds(void)
{
    struct timespec t;

    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &t);
    return (double)t.tv_sec + (double)t.tv_nsec / 1e9;
}

/* Every @apart days, as far as there are days. */
static void
make(struct reading *list, size_t n, day_t apart)
{
    uint32_t seed = 1;
    day_t first = DAY_LAST - 400 - (day_t)n * apart;

    for (size_t i = 0; i < n; i++) {
        seed = seed * 1664525u + 1013904223u;
        day_t day = first + (day_t)i * apart;
        list[i] =
            (struct reading){day, 50 * (int64_t)(day - first) + seed % 40};
        if (i % 7 == 3)
            list[i].value = seed % 900000;
    }
}

static double
least_squares(const struct reading *list, size_t n)
{
    double day = 0, value = 0, across = 0, both = 0;

    for (size_t i = 0; i < n; i++) {
        day += list[i].day;
        value += (double)list[i].value;
    }
    day /= (double)n;
    value /= (double)n;
    for (size_t i = 0; i < n; i++) {
        double d = list[i].day - day;
        across += d * d;
        both += d * ((double)list[i].value - value);
    }
    return both / across;
}

static double
time_squares(const struct reading *list, size_t n, int times)
{
    volatile double sum = 0;
    double start = seconds();

    for (int i = 0; i < times; i++)
        sum = sum + least_squares(list, n);
    return (seconds() - start) / times;
}

static double
time_forecast(const struct reading *list, size_t n, int times)
{
    struct usage u = {.readings = list, .n = n};
    struct reading from = {list[0].day - 1, 0};
    volatile day_t sum = 0;
    double start = seconds();

    for (int i = 0; i < times; i++)
        sum = sum ^
              usage_forecast(&u, from, list[n - 1].value + 10000 + i).likely;
    return (seconds() - start) / times;
}

int
main(void)
{
    static const size_t sizes[] = {20, 200, 1000, 10000, MOST};
    static struct reading list[MOST];

    for (size_t i = 0; i < sizeof sizes / sizeof *sizes; i++) {
        size_t n = sizes[i];
        int times = n > 1000 ? 200 : 2000;
        make(list, n, n <= 1000 ? 7 : 1);
        double squares = time_squares(list, n, times);
        double forecast = time_forecast(list, n, times);
        printf("forecast over %6zu readings: %6.1f us, least squares %6.2f us, "
               "ratio %.1f\n",
            n, forecast * 1e6, squares * 1e6, forecast / squares);
    }
    return 0;
}
