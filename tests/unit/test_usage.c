/* From readings to a rate and to a day, by figures worked out by hand. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include <cmocka.h>

#include "days.h"
#include "usage.h"

#define DAY0 20000

static const struct reading nowhere = {DAY0, 0};

/* 10, 20 and 30 a day between the pairs; their tenth is 12, their ninth tenth
 * 28.  1130 are left on day 40: 40.4, 56.5 and 94.2 days. */
static void
three_readings(void **state)
{
    struct reading list[] = {{DAY0, 0}, {DAY0 + 20, 200}, {DAY0 + 40, 800}};
    struct usage u = {list, 3, 0};
    struct forecast f = usage_forecast(&u, nowhere, 1930);

    (void)state;
    assert_int_equal(f.basis, FORECAST_READINGS);
    assert_int_equal(f.early, DAY0 + 80);
    assert_int_equal(f.likely, DAY0 + 96);
    assert_int_equal(f.late, DAY0 + 134);
}

/* Fifty a day, and one reading with a digit too many: six of the 21 pairs
 * hold it, and the middle one is as good as ever. */
static void
one_wrong_reading_moves_little(void **state)
{
    struct reading list[7];
    struct usage u = {list, 7, 0};

    (void)state;
    for (int i = 0; i < 7; i++)
        list[i] = (struct reading){DAY0 + 30 * i, 10000 + 1500 * i};
    assert_int_equal(
        usage_forecast(&u, nowhere, 24000).likely, DAY0 + 180 + 100);
    list[3].value = 145;
    assert_int_equal(
        usage_forecast(&u, nowhere, 24000).likely, DAY0 + 180 + 100);
    assert_true(usage_forecast(&u, nowhere, 24000).early <= DAY0 + 280);
}

/* Pairs less than a fortnight apart say nothing, nor do falling ones: what is
 * left are 140 km in 14 days. */
static void
pairs_that_do_not_count(void **state)
{
    struct reading list[] = {{DAY0, 0}, {DAY0 + 7, 700}, {DAY0 + 14, 140}};
    struct usage u = {list, 3, 0};
    struct forecast f = usage_forecast(&u, nowhere, 1145);

    (void)state;
    assert_int_equal(f.basis, FORECAST_READINGS);
    assert_int_equal(f.early, DAY0 + 114);
    assert_int_equal(f.late, DAY0 + 114);
    list[2].day--; /* thirteen days are too few */
    assert_int_equal(usage_forecast(&u, nowhere, 1145).basis, FORECAST_NONE);
}

/* 700 and then 400: the fall is left out, and there remain 35 and 10 a day,
 * whose tenth is 12.5, middle 22.5 and ninth tenth 32.5; 1010 to go. */
static void
a_fall_is_no_rate(void **state)
{
    struct reading list[] = {{DAY0, 0}, {DAY0 + 20, 700}, {DAY0 + 40, 400}};
    struct usage u = {list, 3, 0};
    struct forecast f = usage_forecast(&u, nowhere, 1410);

    (void)state;
    assert_int_equal(f.early, DAY0 + 40 + 31);
    assert_int_equal(f.likely, DAY0 + 40 + 44);
    assert_int_equal(f.late, DAY0 + 40 + 80);
}

/* Of thirty readings the last 24 count: 100 a day, not the 10 of before. */
static void
only_recent_readings_count(void **state)
{
    struct reading list[30];
    struct usage u = {list, 30, 0};
    int64_t value = 0;

    (void)state;
    for (int i = 0; i < 30; i++) {
        list[i] = (struct reading){DAY0 + 20 * i, value};
        value += i < 6 ? 200 : 2000;
    }
    value = list[29].value;
    struct forecast f = usage_forecast(&u, nowhere, value + 1050);
    assert_int_equal(f.early, DAY0 + 580 + 10);
    assert_int_equal(f.late, DAY0 + 580 + 10);
}

/* 36525 a year are 100 a day: 150 when fast, 70 when slow. */
static void
the_stated_use(void **state)
{
    struct usage u = {NULL, 0, 36525};
    struct forecast f = usage_forecast(&u, nowhere, 15010);

    (void)state;
    assert_int_equal(f.basis, FORECAST_STATED);
    assert_int_equal(f.early, DAY0 + 100);
    assert_int_equal(f.likely, DAY0 + 150);
    assert_int_equal(f.late, DAY0 + 214);
    u.yearly = 0;
    f = usage_forecast(&u, nowhere, 15010);
    assert_int_equal(f.basis, FORECAST_NONE);
    assert_int_equal(f.early, DAY_NONE);
}

/* The stated use counts on from the newest reading. */
static void
the_stated_use_from_one_reading(void **state)
{
    struct reading one = {DAY0 + 50, 5000};
    struct usage u = {&one, 1, 36525};
    struct forecast f = usage_forecast(&u, nowhere, 15010);

    (void)state;
    assert_int_equal(f.basis, FORECAST_STATED);
    assert_int_equal(f.likely, DAY0 + 150);
}

/* A reading before the cycle began says nothing of it. */
static void
a_reading_that_shows_it(void **state)
{
    struct reading list[] = {
        {DAY0 - 10, 9999}, {DAY0 + 20, 500}, {DAY0 + 40, 1000}};
    struct usage u = {list, 3, 0};
    struct forecast f = usage_forecast(&u, nowhere, 1000);

    (void)state;
    assert_int_equal(f.basis, FORECAST_REACHED);
    assert_int_equal(f.early, DAY0 + 40);
    assert_int_equal(f.likely, DAY0 + 40);
    assert_int_equal(f.late, DAY0 + 40);
    assert_int_not_equal(
        usage_forecast(&u, nowhere, 1001).basis, FORECAST_REACHED);
    assert_int_equal(
        usage_forecast(&u, (struct reading){DAY0 - 10, 9000}, 9999).early,
        DAY0 - 10);
}

/* One in a hundred days: the day lies past the range, and is none. */
static void
so_slow_that_there_is_no_day(void **state)
{
    struct reading list[] = {{DAY0, 1000}, {DAY0 + 100, 1001}};
    struct usage u = {list, 2, 0};
    struct forecast f = usage_forecast(&u, nowhere, 21000);

    (void)state;
    assert_int_equal(f.basis, FORECAST_READINGS);
    assert_int_equal(f.early, DAY_NONE);
    list[1].value = 1000; /* not used at all: no rate to go by */
    assert_int_equal(usage_forecast(&u, nowhere, 21000).basis, FORECAST_NONE);
}

static void
what_the_meter_showed(void **state)
{
    struct reading list[] = {{DAY0, 10000}, {DAY0 + 100, 15000}};
    struct usage u = {list, 2, 0};

    (void)state;
    assert_int_equal(usage_at(&u, DAY0), 10000);
    assert_int_equal(usage_at(&u, DAY0 + 100), 15000);
    assert_int_equal(usage_at(&u, DAY0 + 50), 12500);
    assert_int_equal(usage_at(&u, DAY0 + 1), 10050);
    assert_int_equal(usage_at(&u, DAY0 + 110), 15500);
    assert_int_equal(usage_at(&u, DAY0 - 10), 9500);
    assert_int_equal(usage_at(&u, DAY0 - 1000), 0);
    u.n = 1;
    assert_int_equal(usage_at(&u, DAY0 + 10), 10000);
    u.yearly = 36525;
    assert_int_equal(usage_at(&u, DAY0 + 10), 11000);
    u.n = 0;
    assert_true(usage_at(&u, DAY0) == USAGE_UNKNOWN);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(three_readings),
        cmocka_unit_test(one_wrong_reading_moves_little),
        cmocka_unit_test(pairs_that_do_not_count),
        cmocka_unit_test(only_recent_readings_count),
        cmocka_unit_test(the_stated_use),
        cmocka_unit_test(the_stated_use_from_one_reading),
        cmocka_unit_test(a_reading_that_shows_it),
        cmocka_unit_test(so_slow_that_there_is_no_day),
        cmocka_unit_test(what_the_meter_showed),
        cmocka_unit_test(a_fall_is_no_rate),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
