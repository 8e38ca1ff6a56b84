/* Civil days, against plain counting and well-known dates. */
#include <stdio.h>

#include "days.h"
#include "test.h"

static int
length_by_rhyme(int year, int month)
{
    static const int lengths[] = {
        31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
    /* 1900 and 2100 are the centuries in range that are no leap years. */
    int leap = year % 4 == 0 && year != 1900 && year != 2100;

    return lengths[month - 1] + (month == 2 && leap);
}

static void
check_one(day_t d, struct ymd want, int weekday)
{
    char text[48];
    char out[DAY_TEXT];
    struct ymd got = day_ymd(d);

    assert_int_equal(got.year, want.year);
    assert_int_equal(got.month, want.month);
    assert_int_equal(got.day, want.day);
    assert_int_equal(day_of(want.year, want.month, want.day), d);
    assert_int_equal(day_weekday(d), weekday);
    snprintf(
        text, sizeof text, "%04d-%02d-%02d", want.year, want.month, want.day);
    assert_string_equal(day_text(d, out), text);
    assert_int_equal(day_parse(text, strlen(text)), d);
}

/* 1900-01-01 was a Monday; count on from there to the end. */
static void
every_day_agrees_with_counting(void **state)
{
    day_t d = DAY_FIRST;
    int weekday = 0;

    (void)state;
    for (int year = 1900; year <= 2199; year++)
        for (int month = 1; month <= 12; month++) {
            int length = length_by_rhyme(year, month);
            assert_int_equal(day_month_length(year, month), length);
            for (int day = 1; day <= length; day++) {
                check_one(d++, (struct ymd){year, month, day}, weekday);
                weekday = (weekday + 1) % 7;
            }
        }
    assert_int_equal(d - 1, DAY_LAST);
}

/* POSIX: day 0 is 1970-01-01; 10^9 s is 2001-09-09T01:46:40Z and 2^31 - 1 s
 * is 2038-01-19T03:14:07Z. */
static void
days_count_from_the_unix_epoch(void **state)
{
    (void)state;
    assert_int_equal(day_of(1970, 1, 1), 0);
    assert_int_equal(day_of(2001, 9, 9), 1000000000 / 86400);
    assert_int_equal(day_of(2038, 1, 19), 2147483647 / 86400);
    assert_int_equal(day_of(1969, 12, 31), -1);
    assert_int_equal(day_weekday(0), 3); /* a Thursday */
}

static void
dates_that_do_not_exist_are_no_day(void **state)
{
    static const struct ymd wrong[] = {{2026, 2, 29}, {2100, 2, 29},
        {1900, 2, 29}, {2024, 2, 30}, {2026, 4, 31}, {2026, 6, 31},
        {2026, 9, 31}, {2026, 11, 31}, {2026, 1, 32}, {2026, 1, 0},
        {2026, 1, -1}, {2026, 0, 1}, {2026, 13, 1}, {2026, -1, 1},
        {1899, 12, 31}, {2200, 1, 1}, {0, 1, 1}, {-2026, 1, 1},
        {INT32_MAX, 1, 1}, {2026, INT32_MAX, 1}, {2026, 1, INT32_MAX}};

    (void)state;
    for (size_t i = 0; i < sizeof wrong / sizeof *wrong; i++)
        assert_int_equal(
            day_of(wrong[i].year, wrong[i].month, wrong[i].day), DAY_NONE);
    assert_int_not_equal(day_of(2000, 2, 29), DAY_NONE);
}

static void
only_a_whole_calendar_date_is_read(void **state)
{
    static const char *const wrong[] = {"", "2026", "2026-1-1", "20260101",
        "2026/01/01", "2026-01-01 ", " 2026-01-01", "2026-01-011", "26-01-01",
        "2026-01-1", "2026-02-29", "2026-00-10", "2026-10-00", "2026--1-01",
        "2026-01--1", "-026-01-01", "+026-01-01", "2026-01-+1", "2026-W01-1",
        "2026-01-0x", "2O26-01-01", "1899-12-31", "2200-01-01", "01-01-2026",
        "2026-01-01T", "----------"};

    (void)state;
    for (size_t i = 0; i < sizeof wrong / sizeof *wrong; i++)
        if (day_parse(wrong[i], strlen(wrong[i])) != DAY_NONE)
            fail_msg("'%s' was read as a date", wrong[i]);
    /* The length counts, not the NUL. */
    assert_int_equal(day_parse("1970-01-02T00:00", 10), 1);
}

static void
the_range_ends_where_it_says(void **state)
{
    (void)state;
    assert_day(DAY_FIRST, "1900-01-01");
    assert_day(DAY_LAST, "2199-12-31");
    assert_true(day_valid(DAY_FIRST));
    assert_true(day_valid(DAY_LAST));
    assert_false(day_valid(DAY_FIRST - 1));
    assert_false(day_valid(DAY_LAST + 1));
    assert_false(day_valid(DAY_NONE));
    assert_day(DAY_NONE, "-");
    assert_day(DAY_LAST + 1, "-");
}

/* 25 November 2026 is a Wednesday. */
static void
a_day_is_written_with_its_weekday(void **state)
{
    static const char *const week[] = {"Mon 2026-11-23", "Tue 2026-11-24",
        "Wed 2026-11-25", "Thu 2026-11-26", "Fri 2026-11-27", "Sat 2026-11-28",
        "Sun 2026-11-29"};
    char out[DAY_WORDS];

    (void)state;
    for (int i = 0; i < 7; i++)
        assert_string_equal(day_words(date("2026-11-23") + i, out), week[i]);
    assert_string_equal(day_words(DAY_NONE, out), "-");
}

static void
no_day_is_neither_the_later_nor_the_earlier(void **state)
{
    (void)state;
    assert_int_equal(day_later(3, -4), 3);
    assert_int_equal(day_later(-4, 3), 3);
    assert_int_equal(day_later(DAY_NONE, DAY_FIRST), DAY_FIRST);
    assert_int_equal(day_later(DAY_FIRST, DAY_NONE), DAY_FIRST);
    assert_int_equal(day_earlier(3, -4), -4);
    assert_int_equal(day_earlier(-4, 3), -4);
    assert_int_equal(day_earlier(DAY_NONE, DAY_LAST), DAY_LAST);
    assert_int_equal(day_earlier(DAY_LAST, DAY_NONE), DAY_LAST);
    assert_int_equal(day_earlier(DAY_NONE, DAY_NONE), DAY_NONE);
    assert_int_equal(day_later(DAY_NONE, DAY_NONE), DAY_NONE);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_day_agrees_with_counting),
        cmocka_unit_test(days_count_from_the_unix_epoch),
        cmocka_unit_test(dates_that_do_not_exist_are_no_day),
        cmocka_unit_test(only_a_whole_calendar_date_is_read),
        cmocka_unit_test(the_range_ends_where_it_says),
        cmocka_unit_test(a_day_is_written_with_its_weekday),
        cmocka_unit_test(no_day_is_neither_the_later_nor_the_earlier),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
