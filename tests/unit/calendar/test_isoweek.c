/* Weeks of ISO 8601, by walking them.  Published dates are in
 * tests/reference/test_check_values.c. */
#include "days.h"
#include "isoweek.h"
#include "test.h"

static void
check_week(day_t monday, int year, int week)
{
    for (day_t d = monday; d < monday + 7; d++) {
        struct isoweek got = isoweek_of(d);
        assert_int_equal(got.year, year);
        assert_int_equal(got.week, week);
        assert_int_equal(isoweek_first(d), monday);
        assert_int_equal(isoweek_last(d), monday + 6);
    }
    assert_int_equal(isoweek_monday(year, week), monday);
}

/* 1900-01-01 was a Monday, so 1900-W01 begins there.  Walk on week by week; a
 * year's count starts anew with the week that holds its 4 January. */
static void
every_week_agrees_with_walking(void **state)
{
    int year = 1900;
    int week = 0;
    day_t monday = DAY_FIRST;

    (void)state;
    for (; monday + 6 <= DAY_LAST; monday += 7) {
        day_t next_fourth = day_of(year + 1, 1, 4);
        week++;
        if (next_fourth != DAY_NONE && monday + 6 >= next_fourth) {
            assert_int_equal(isoweek_count(year), week - 1);
            assert_int_equal(isoweek_monday(year, week), DAY_NONE);
            year++;
            week = 1;
        }
        check_week(monday, year, week);
    }
    assert_int_equal(year, 2199);
    assert_int_equal(isoweek_count(2199), week);
}

/* 2200-01-02 is a Thursday: the last two days of 2199 are in 2200-W01. */
static void
the_last_week_leaves_the_range(void **state)
{
    (void)state;
    for (day_t d = DAY_LAST - 1; d <= DAY_LAST; d++) {
        assert_int_equal(isoweek_of(d).year, 2200);
        assert_int_equal(isoweek_of(d).week, 1);
        assert_day(isoweek_first(d), "2199-12-30");
        assert_int_equal(isoweek_last(d), DAY_NONE);
    }
}

static void
weeks_that_do_not_exist_are_no_day(void **state)
{
    (void)state;
    assert_int_equal(isoweek_monday(2026, 0), DAY_NONE);
    assert_int_equal(isoweek_monday(2026, 54), DAY_NONE);
    assert_int_equal(isoweek_monday(2027, 53), DAY_NONE);
    assert_int_equal(isoweek_monday(1899, 1), DAY_NONE);
    assert_int_equal(isoweek_monday(2200, 1), DAY_NONE);
    assert_int_equal(isoweek_first(DAY_NONE), DAY_NONE);
    assert_int_equal(isoweek_last(DAY_NONE), DAY_NONE);
    assert_int_equal(isoweek_count(2200), 0);
}

/* 2199-12-31 is a Tuesday; its Sunday lies beyond the days we know. */
static void
the_last_week_ends_with_the_last_day(void **state)
{
    (void)state;
    assert_int_equal(isoweek_last(DAY_LAST), DAY_NONE);
    assert_int_equal(isoweek_end(DAY_LAST), DAY_LAST);
    assert_int_equal(isoweek_end(DAY_LAST - 1), DAY_LAST);
    assert_int_equal(isoweek_end(DAY_LAST - 2), DAY_LAST - 2);
    assert_int_equal(isoweek_end(DAY_NONE), DAY_NONE);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_last_week_ends_with_the_last_day),
        cmocka_unit_test(every_week_agrees_with_walking),
        cmocka_unit_test(the_last_week_leaves_the_range),
        cmocka_unit_test(weeks_that_do_not_exist_are_no_day),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
