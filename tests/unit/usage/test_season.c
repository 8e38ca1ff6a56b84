/* The time of year in a forecast: counted when two years agree on it. */
#include <math.h>
#include <stdlib.h>

#include "days.h"
#include "seasonality.h"
#include "test.h"
#include "usage.h"

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

static void
assert_near(double is, double should_be, double within)
{
    if (!(fabs(is - should_be) <= within))
        fail_msg("%g is not within %g of %g", is, within, should_be);
}

/* The twelfth of a mean Gregorian year that @d lies in, from New Year 2000. */
static int
twelfth(day_t d)
{
    return (int)((d - date("2000-01-01")) / (365.2425 / 12)) % 12;
}

static int64_t
even(day_t d)
{
    (void)d;
    return 60;
}

static void
the_same_all_year_is_no_season(void **state)
{
    struct forecast f =
        forecast(even, START, START + 820, INT64_C(60) * (820 + 101));

    (void)state;
    assert_int_equal(f.seasonal, 0);
    assert_int_equal(f.likely, START + 820 + 100);
}

/* By a screened history of two years and some weeks, a reading at the start of
 * each twelfth.  @use has what a day of each of the 24 twelfths comes to. */
static struct seasonality
profile_of(const int use[24], const struct spell *spells, size_t n_spells)
{
    static struct screened s;
    struct usage u = {.spells = spells, .n_spells = n_spells};
    struct seasonality p;
    int64_t value = 0;
    int part = -1;

    s.n = 0;
    for (day_t d = date("2020-01-01"); d <= date("2022-01-05"); d++) {
        if (twelfth(d) != part || d == date("2022-01-05"))
            s.at[s.n++] = (struct reading){d, value};
        part = twelfth(d);
        value += use[part + (day_ymd(d).year > 2020 ? 12 : 0)];
    }
    seasonality_take(&p, &s, &u);
    return p;
}

/*
 * Deviations of +-1/2 in every twelfth, of which ten agree and two do not:
 * Pearson's r is (10 - 2) / 12 = 2/3, and what the average of two such years
 * can be trusted is 2r / (1 + r) = 4/5 (Spearman 1910, Brown 1910).  So the
 * shares are 1 +- 4/5 * 1/2, and 1 where the years differ.
 */
static void
two_years_that_agree_in_part(void **state)
{
    static const int use[24] = {90, 90, 90, 90, 90, 30, 90, 30, 30, 30, 30, 30,
        90, 90, 90, 90, 90, 90, 30, 30, 30, 30, 30, 30};
    static const double share[12] = {
        1.4, 1.4, 1.4, 1.4, 1.4, 1, 1, .6, .6, .6, .6, .6};
    struct seasonality p = profile_of(use, NULL, 0);

    (void)state;
    assert_int_equal(p.seasonal, 1);
    for (int k = 0; k < 12; k++)
        assert_near(p.share[k], share[k], 0.02);
}

/* Nothing at all in two twelfths: they count for a twentieth all the same,
 * before all shares are made 1 on average.  (10 * 1.2 + 2 * 0.05) / 12. */
static void
no_part_of_the_year_counts_for_nothing(void **state)
{
    static const int use[24] = {0, 0, 72, 72, 72, 72, 72, 72, 72, 72, 72, 72, 0,
        0, 72, 72, 72, 72, 72, 72, 72, 72, 72, 72};
    struct seasonality p = profile_of(use, NULL, 0);
    const double mean = (10 * 1.2 + 2 * 0.05) / 12;

    (void)state;
    assert_int_equal(p.seasonal, 1);
    assert_near(p.share[0], 0.05 / mean, 0.02);
    assert_near(p.share[1], 0.05 / mean, 0.02);
    assert_near(p.share[7], 1.2 / mean, 0.02);
}

/* The meter rises alike all year, but in the first half the vehicle is off the
 * road every other day: on the days on the road it goes twice as far. */
static void
single_days_off_the_road_count(void **state)
{
    static const int use[24] = {60, 60, 60, 60, 60, 60, 60, 60, 60, 60, 60, 60,
        60, 60, 60, 60, 60, 60, 60, 60, 60, 60, 60, 60};
    static struct spell spells[400];
    size_t n = 0;

    (void)state;
    for (day_t d = date("2020-01-01"); d <= date("2021-12-31"); d += 2)
        if (twelfth(d) < 6)
            spells[n++] = (struct spell){d, d};
    struct seasonality p = profile_of(use, spells, n);
    assert_int_equal(p.seasonal, 1);
    for (int k = 0; k < 12; k++)
        assert_near(p.share[k], k < 6 ? 4.0 / 3 : 2.0 / 3, 0.05);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(two_years_that_agree),
        cmocka_unit_test(less_than_two_years),
        cmocka_unit_test(two_years_that_do_not_agree),
        cmocka_unit_test(the_same_all_year_is_no_season),
        cmocka_unit_test(two_years_that_agree_in_part),
        cmocka_unit_test(no_part_of_the_year_counts_for_nothing),
        cmocka_unit_test(single_days_off_the_road_count),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
