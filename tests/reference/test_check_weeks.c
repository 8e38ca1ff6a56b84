/*
 * ISO weeks, Easter and weekdays of a month against published dates.  Where
 * no source stands, the values were worked out from ISO 8601's rule and agree
 * with two other programs (date(1) and Python).
 */
#include "days.h"
#include "easter.h"
#include "holiday.h"
#include "isoweek.h"
#include "step.h"
#include "test.h"

struct week_date {
    const char *day;
    int year;
    int week;
    int weekday; /* 1 Monday to 7 Sunday, as ISO 8601 writes it */
};

static const struct week_date week_dates[] = {
    /* strftime(3) of Linux */
    {"2010-01-01", 2009, 53, 5},
    {"2010-01-04", 2010, 1, 1},
    {"2011-01-02", 2010, 52, 7},
    /* strftime(3C) of HP-UX, 2010 */
    {"1999-01-02", 1998, 53, 6},
    {"1997-12-30", 1998, 1, 2},
    /* tz mailing list, July 1996 */
    {"1996-07-17", 1996, 29, 3},
    /* encyclopaedias' examples */
    {"2019-12-30", 2020, 1, 1},
    {"2024-12-20", 2024, 51, 5},
    {"2024-12-30", 2025, 1, 1},
    {"2006-12-31", 2006, 52, 7},
    /* worked */
    {"2020-12-31", 2020, 53, 4},
    {"2021-01-01", 2020, 53, 5},
    {"2021-01-03", 2020, 53, 7},
    {"2021-01-04", 2021, 1, 1},
    {"2026-11-25", 2026, 48, 3},
    {"2026-12-27", 2026, 52, 7},
    {"2026-12-28", 2026, 53, 1},
    {"2027-01-01", 2026, 53, 5},
    {"2027-01-03", 2026, 53, 7},
    {"2027-01-04", 2027, 1, 1},
    {"2028-01-02", 2027, 52, 7},
    {"2033-01-02", 2032, 53, 7},
};

static void
week_date_holds(void **state)
{
    const struct week_date *w = *state;
    day_t d = date(w->day);

    assert_int_equal(isoweek_of(d).year, w->year);
    assert_int_equal(isoweek_of(d).week, w->week);
    assert_int_equal(day_weekday(d) + 1, w->weekday);
    assert_int_equal(isoweek_monday(w->year, w->week) + w->weekday - 1, d);
}

static void
some_years_have_53_weeks(void **state)
{
    static const int long_years[] = {2004, 2009, 2015, 2020, 2026, 2032, 2037,
        2043, 2048, 2054, 2060, 2065, 2071, 2076, 2082, 2088, 2093, 2099};
    size_t next = 0;

    (void)state;
    for (int year = 2000; year <= 2100; year++) {
        int is_long = next < COUNT(long_years) && long_years[next] == year;
        assert_int_equal(isoweek_count(year), is_long ? 53 : 52);
        next += (size_t)is_long;
    }
    assert_int_equal(next, COUNT(long_years));
}

/* Safety inspections counted in weeks, past a week 53. */
static void
weeks_are_counted_truly(void **state)
{
    static const struct {
        struct isoweek from;
        int weeks;
        struct isoweek to;
    } plans[] = {
        {{2026, 48}, 6, {2027, 1}},
        {{2026, 47}, 6, {2026, 53}},
        {{2026, 45}, 8, {2026, 53}},
        {{2026, 40}, 13, {2026, 53}},
        {{2026, 50}, 6, {2027, 3}},
        {{2020, 50}, 6, {2021, 3}},
        {{2026, 1}, 52, {2026, 53}},
    };

    (void)state;
    for (size_t i = 0; i < COUNT(plans); i++) {
        struct span weeks = {plans[i].weeks, STEP_WEEKS};
        day_t from = isoweek_monday(plans[i].from.year, plans[i].from.week);
        assert_int_equal(step_span(from, weeks, 1, MONTH_END_CLAMP),
            isoweek_monday(plans[i].to.year, plans[i].to.week));
    }
}

/* Six weeks on: the exact day, and the Sunday of its week.  One day later at
 * the start moves the Sunday by seven. */
static void
a_week_deadline_is_its_sunday(void **state)
{
    static const char *const done[][3] = {
        {"2026-11-25", "2027-01-06", "2027-01-10"},
        {"2026-11-29", "2027-01-10", "2027-01-10"},
        {"2026-11-30", "2027-01-11", "2027-01-17"},
    };

    (void)state;
    for (size_t i = 0; i < COUNT(done); i++) {
        day_t exact = step_days(date(done[i][0]), 42);
        assert_day(exact, done[i][1]);
        assert_day(isoweek_last(exact), done[i][2]);
    }
}

/* A tyre's code names the week it was made in: 0116, 5320; 2016 has no week
 * 53.  It is ten years old ten years after. */
static void
tyre_codes_are_weeks(void **state)
{
    struct span ten = {10, STEP_YEARS};
    day_t d = isoweek_monday(2016, 1);

    (void)state;
    assert_day(d, "2016-01-04");
    assert_day(isoweek_last(d), "2016-01-10");
    assert_day(step_span(d, ten, 1, MONTH_END_CLAMP), "2026-01-04");
    d = isoweek_monday(2020, 53);
    assert_day(d, "2020-12-28");
    assert_day(isoweek_last(d), "2021-01-03");
    assert_day(step_span(d, ten, 1, MONTH_END_CLAMP), "2030-12-28");
    assert_day(
        step_span(isoweek_last(d), ten, 1, MONTH_END_CLAMP), "2031-01-03");
    assert_int_equal(isoweek_monday(2016, 53), DAY_NONE);
}

/* 2019 to 2028 follow from the Easter Mondays that GOV.UK publishes; the
 * later ones are agreed on by two algorithms. */
static void
easter_sundays(void **state)
{
    static const char *const sundays[] = {"2019-04-21", "2020-04-12",
        "2021-04-04", "2022-04-17", "2023-04-09", "2024-03-31", "2025-04-20",
        "2026-04-05", "2027-03-28", "2028-04-16", "2029-04-01", "2030-04-21",
        "2031-04-13", "2032-03-28", "2033-04-17", "2034-04-09", "2035-03-25",
        "2036-04-13", "2037-04-05", "2038-04-25", "2039-04-10", "2040-04-01"};

    (void)state;
    for (size_t i = 0; i < COUNT(sundays); i++)
        assert_day(easter_of(2019 + (int)i), sundays[i]);
}

static void
easter_extremes(void **state)
{
    static const int earliest[] = {1598, 1693, 1761, 1818, 2285};
    static const int latest[] = {1666, 1734, 1886, 1943, 2038, 2190};
    int month;
    int day;

    (void)state;
    for (size_t i = 0; i < COUNT(earliest); i++) {
        easter_date(earliest[i], &month, &day);
        assert_int_equal(100 * month + day, 322);
    }
    for (size_t i = 0; i < COUNT(latest); i++) {
        easter_date(latest[i], &month, &day);
        assert_int_equal(100 * month + day, 425);
    }
}

/* GOV.UK, "When do the clocks change?": the last Sundays of March and of
 * October. */
static void
last_sundays_of_a_month(void **state)
{
    static const char *const changes[] = {"2025-03-30", "2025-10-26",
        "2026-03-29", "2026-10-25", "2027-03-28", "2027-10-31", "2028-03-26",
        "2028-10-29"};
    static const struct holiday_rule rules[] = {
        {.kind = HOLIDAY_WEEKDAY,
            .month = 3,
            .nth = -1,
            .weekday = 6,
            .name = "forward"},
        {.kind = HOLIDAY_WEEKDAY,
            .month = 10,
            .nth = -1,
            .weekday = 6,
            .name = "back"},
    };
    struct holiday_set set = {.rules = rules, .n_rules = 2};
    struct named_day got[HOLIDAY_MOST];

    (void)state;
    for (size_t i = 0; i < COUNT(changes); i += 2) {
        assert_int_equal(holiday_year(&set, 2025 + (int)i / 2, got), 2);
        assert_day(got[0].day, changes[i]);
        assert_day(got[1].day, changes[i + 1]);
    }
}

int
main(void)
{
    struct CMUnitTest tests[7 + COUNT(week_dates)] = {
        cmocka_unit_test(some_years_have_53_weeks),
        cmocka_unit_test(weeks_are_counted_truly),
        cmocka_unit_test(a_week_deadline_is_its_sunday),
        cmocka_unit_test(tyre_codes_are_weeks),
        cmocka_unit_test(easter_sundays),
        cmocka_unit_test(easter_extremes),
        cmocka_unit_test(last_sundays_of_a_month),
    };

    for (size_t i = 0; i < COUNT(week_dates); i++)
        tests[i + 7] = (struct CMUnitTest){week_dates[i].day, week_date_holds,
            NULL, NULL, (void *)&week_dates[i]};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
