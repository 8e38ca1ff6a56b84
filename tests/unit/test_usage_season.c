/* The time of year in a forecast: counted when two years agree on it. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include <cmocka.h>

#include "days.h"
#include "usage.h"

#include <stdlib.h>

#define START 18262 /* 2020-01-01 */
#define READINGS 120

static const struct reading before = {START - 1, -1};

/* Ninety a day from April to September, thirty in the other half. */
static int64_t
summer(day_t d)
{
    struct ymd date = day_ymd(d);

    return date.month >= 4 && date.month <= 9 ? 90 : 30;
}

/* The same, but the other way round in the second year. */
static int64_t
other_halves(day_t d)
{
    return d < START + 366 ? summer(d) : 120 - summer(d);
}

static int64_t
meter_at(int64_t (*use)(day_t), day_t until)
{
    int64_t value = 0;

    for (day_t d = START; d <= until; d++)
        value += use(d);
    return value;
}

static struct forecast
forecast(int64_t (*use)(day_t), day_t from, day_t until, int64_t due)
{
    struct reading list[READINGS];
    struct usage u = {.readings = list};

    for (day_t d = from; d <= until; d += 15)
        list[u.n++] = (struct reading){d, meter_at(use, d)};
    assert_true(u.n <= READINGS);
    return usage_forecast(&u, before, due);
}

/* Seen from the end of a winter, then of a summer, half a year's use ahead.  By
 * the year's mean of sixty a day, 180 days of 90 would be 270, and of 30
 * ninety: three months off.  Twelfths of a year are not months, so that some
 * days next to the change are in the wrong half. */
static void
two_years_that_agree(void **state)
{
    static const day_t ends[] = {START + 820, START + 1005};

    (void)state;
    for (size_t i = 0; i < 2; i++) {
        day_t truth = ends[i] + 180;
        struct forecast f =
            forecast(summer, START, ends[i], meter_at(summer, truth));
        assert_int_equal(f.seasonal, 1);
        assert_true(abs(f.likely - truth) <= 15);
        assert_true(f.early < truth);
    }
}

/* In the winter of the first year nobody can know; in the second the early day
 * goes by the summer that was seen. */
static void
less_than_two_years(void **state)
{
    day_t newest = START + 465; /* 10 April of the second year */
    day_t truth = newest + 100;
    struct forecast f =
        forecast(summer, START, newest, meter_at(summer, truth));

    (void)state;
    assert_int_equal(f.seasonal, 0);
    assert_true(f.early <= truth);
    assert_true(f.likely > truth + 50);
}

static void
two_years_that_do_not_agree(void **state)
{
    struct forecast f =
        forecast(other_halves, START, START + 820, INT64_C(100000));

    (void)state;
    assert_int_equal(f.seasonal, 0);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(two_years_that_agree),
        cmocka_unit_test(less_than_two_years),
        cmocka_unit_test(two_years_that_do_not_agree),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
