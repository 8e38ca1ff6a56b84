/* Steps of days, weeks, months and years.  The published examples are in
 * tests/reference/test_check_values.c. */
#include "days.h"
#include "step.h"
#include "test.h"

static void
days_and_weeks_are_plain_counts(void **state)
{
    struct span week = {1, STEP_WEEKS};
    struct span ten_days = {10, STEP_DAYS};

    (void)state;
    assert_day(step_days(date("2024-02-28"), 1), "2024-02-29");
    assert_day(step_days(date("2025-02-28"), 1), "2025-03-01");
    assert_day(step_days(date("2027-01-01"), -1), "2026-12-31");
    assert_day(step_days(date("2026-05-15"), 0), "2026-05-15");
    assert_day(
        step_span(date("2026-12-28"), week, 1, MONTH_END_CLAMP), "2027-01-04");
    assert_day(
        step_span(date("2026-12-28"), week, -4, MONTH_END_CLAMP), "2026-11-30");
    assert_day(step_span(date("2026-01-01"), ten_days, 3, MONTH_END_CLAMP),
        "2026-01-31");
}

/* Turn the pages of a wall calendar: one month at a time, the day kept. */
static struct ymd
turn_pages(struct ymd from, int months)
{
    for (; months > 0; months--)
        if (++from.month > 12) {
            from.month = 1;
            from.year++;
        }
    for (; months < 0; months++)
        if (--from.month < 1) {
            from.month = 12;
            from.year--;
        }
    return from;
}

static void
check_month_step(day_t d, int months)
{
    struct ymd from = day_ymd(d);
    struct ymd to = turn_pages(from, months);
    int is_last = from.day == day_month_length(from.year, from.month);
    day_t last = day_of(to.year, to.month, day_month_length(to.year, to.month));
    day_t same = day_of(to.year, to.month, to.day);

    assert_int_equal(step_months(d, months, MONTH_END_CLAMP),
        same == DAY_NONE ? last : same);
    assert_int_equal(step_months(d, months, MONTH_END_STICKY),
        same == DAY_NONE || is_last ? last : same);
}

static void
months_agree_with_turning_pages(void **state)
{
    (void)state;
    /* From days around the leap day of 2096, back into the years before and
     * on past 2100, which has none. */
    for (day_t d = date("2095-01-01"); d <= date("2098-12-31"); d++)
        for (int months = -30; months <= 100; months++)
            check_month_step(d, months);
}

static void
years_are_twelve_months(void **state)
{
    struct span year = {1, STEP_YEARS};
    day_t leap_day = date("2024-02-29");

    (void)state;
    assert_day(step_span(leap_day, year, 1, MONTH_END_CLAMP), "2025-02-28");
    assert_day(step_span(leap_day, year, 4, MONTH_END_CLAMP), "2028-02-29");
    assert_day(
        step_span(date("2025-02-28"), year, 3, MONTH_END_STICKY), "2028-02-29");
    assert_day(
        step_span(date("2025-02-28"), year, 3, MONTH_END_CLAMP), "2028-02-28");
    assert_day(step_span(date("2000-02-29"), year, 100, MONTH_END_CLAMP),
        "2100-02-28");
}

/* By hand: the period beginning 15 May is over on the 14th; a date that is
 * missing counts as the first of the next month, so its eve is the last. */
static void
a_period_ends_on_the_day_before(void **state)
{
    static const struct {
        const char *first;
        struct span length;
        const char *last;
    } periods[] = {
        {"2026-05-15", {12, STEP_MONTHS}, "2027-05-14"},
        {"2026-05-15", {1, STEP_YEARS}, "2027-05-14"},
        {"2024-02-29", {1, STEP_YEARS}, "2025-02-28"},
        {"2024-02-29", {4, STEP_YEARS}, "2028-02-28"},
        {"2025-03-01", {1, STEP_YEARS}, "2026-02-28"},
        {"2027-03-01", {1, STEP_YEARS}, "2028-02-29"},
        {"2026-01-31", {1, STEP_MONTHS}, "2026-02-28"},
        {"2026-01-30", {1, STEP_MONTHS}, "2026-02-28"},
        {"2026-01-29", {1, STEP_MONTHS}, "2026-02-28"},
        {"2026-01-28", {1, STEP_MONTHS}, "2026-02-27"},
        {"2026-08-31", {1, STEP_MONTHS}, "2026-09-30"},
        {"2026-01-01", {1, STEP_MONTHS}, "2026-01-31"},
        {"2026-03-02", {6, STEP_WEEKS}, "2026-04-12"},
        {"2026-03-02", {1, STEP_DAYS}, "2026-03-02"},
    };

    (void)state;
    for (size_t i = 0; i < sizeof periods / sizeof *periods; i++)
        assert_day(step_period_last(date(periods[i].first), periods[i].length),
            periods[i].last);
}

static void
a_month_ends_on_its_last_day(void **state)
{
    (void)state;
    assert_day(step_month_last(date("2024-02-01")), "2024-02-29");
    assert_day(step_month_last(date("2026-02-28")), "2026-02-28");
    assert_day(step_month_last(date("2026-04-30")), "2026-04-30");
    assert_day(step_month_last(date("2199-12-01")), "2199-12-31");
    assert_int_equal(step_month_last(DAY_NONE), DAY_NONE);
}

static void
what_leaves_the_range_is_no_day(void **state)
{
    (void)state;
    assert_day(step_days(DAY_FIRST, DAY_LAST - DAY_FIRST), "2199-12-31");
    assert_int_equal(step_days(DAY_LAST, 1), DAY_NONE);
    assert_int_equal(step_days(DAY_FIRST, -1), DAY_NONE);
    assert_int_equal(step_days(0, INT64_MAX), DAY_NONE);
    assert_int_equal(step_days(0, INT64_MIN), DAY_NONE);
    assert_int_equal(step_days(0, INT64_C(1) << 32), DAY_NONE);
    assert_day(step_months(DAY_FIRST, 3599, MONTH_END_CLAMP), "2199-12-01");
    assert_int_equal(step_months(DAY_FIRST, 3600, MONTH_END_CLAMP), DAY_NONE);
    assert_int_equal(step_months(DAY_FIRST, -1, MONTH_END_CLAMP), DAY_NONE);
    assert_int_equal(step_months(DAY_LAST, 1, MONTH_END_STICKY), DAY_NONE);
    assert_int_equal(step_months(0, INT64_MAX, MONTH_END_CLAMP), DAY_NONE);
    assert_int_equal(
        step_months(0, INT64_C(1) << 32, MONTH_END_CLAMP), DAY_NONE);
    assert_int_equal(
        step_span(0, (struct span){INT32_MAX, STEP_YEARS}, 1, MONTH_END_CLAMP),
        DAY_NONE);
}

static void
a_step_from_no_day_is_no_day(void **state)
{
    (void)state;
    assert_int_equal(step_days(DAY_NONE, 1), DAY_NONE);
    assert_int_equal(step_days(DAY_NONE, 0), DAY_NONE);
    assert_int_equal(step_months(DAY_NONE, 1, MONTH_END_CLAMP), DAY_NONE);
    for (enum step_unit unit = STEP_DAYS; unit <= STEP_YEARS; unit++) {
        struct span length = {1, unit};
        assert_int_equal(
            step_span(DAY_NONE, length, 1, MONTH_END_CLAMP), DAY_NONE);
        assert_int_equal(step_period_last(DAY_NONE, length), DAY_NONE);
    }
}

static void
months_past_either_end_are_no_day(void **state)
{
    (void)state;
    assert_day(
        step_months(date("1900-02-10"), -1, MONTH_END_CLAMP), "1900-01-10");
    assert_int_equal(
        step_months(date("1900-02-10"), -2, MONTH_END_CLAMP), DAY_NONE);
    assert_day(
        step_months(date("2199-11-10"), 1, MONTH_END_CLAMP), "2199-12-10");
    assert_int_equal(
        step_months(date("2199-11-10"), 2, MONTH_END_CLAMP), DAY_NONE);
    /* 300 years are 3,600 months. */
    assert_day(
        step_months(date("1900-01-31"), 3599, MONTH_END_CLAMP), "2199-12-31");
    assert_int_equal(
        step_months(date("1900-01-31"), 3600, MONTH_END_CLAMP), DAY_NONE);
    assert_int_equal(
        step_months(date("2026-01-31"), INT64_MAX, MONTH_END_CLAMP), DAY_NONE);
    assert_int_equal(
        step_months(date("2026-01-31"), INT64_MIN, MONTH_END_CLAMP), DAY_NONE);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(days_and_weeks_are_plain_counts),
        cmocka_unit_test(months_agree_with_turning_pages),
        cmocka_unit_test(years_are_twelve_months),
        cmocka_unit_test(months_past_either_end_are_no_day),
        cmocka_unit_test(a_period_ends_on_the_day_before),
        cmocka_unit_test(a_month_ends_on_its_last_day),
        cmocka_unit_test(what_leaves_the_range_is_no_day),
        cmocka_unit_test(a_step_from_no_day_is_no_day),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
