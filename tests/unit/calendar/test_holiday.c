/* Holiday rules, one at a time.  tests/reference/test_bank_holidays.c holds
 * them against published lists. */
#include "days.h"
#include "holiday.h"
#include "test.h"

static const struct holiday_rule christmas[] = {
    {.kind = HOLIDAY_FIXED,
        .month = 12,
        .day = 25,
        .substitute = 1,
        .name = "Christmas Day"},
    {.kind = HOLIDAY_FIXED,
        .month = 12,
        .day = 26,
        .substitute = 1,
        .name = "Boxing Day"},
};

/* Check the days of a year against @want, which ends with NULL. */
static void
check_year(const struct holiday_set *set, int year, const char *const want[])
{
    struct named_day got[HOLIDAY_MOST];
    size_t n = holiday_year(set, year, got);

    for (size_t i = 0; want[i] != NULL; i++) {
        if (i >= n)
            fail_msg("%d lacks %s", year, want[i]);
        assert_day(got[i].day, want[i]);
        assert_int_equal(i + 1 == n, want[i + 1] == NULL);
    }
}

/* The one day that @rule has in @year, or DAY_NONE. */
static day_t
only(struct holiday_rule rule, int year)
{
    struct holiday_set set = {
        .rules = &rule, .n_rules = 1, .known_until = DAY_NONE};
    struct named_day got[HOLIDAY_MOST];
    size_t n = holiday_year(&set, year, got);

    assert_true(n <= 1);
    return n == 1 ? got[0].day : DAY_NONE;
}

static struct holiday_rule
weekday_of(int nth, int weekday, int month)
{
    return (struct holiday_rule){.kind = HOLIDAY_WEEKDAY,
        .month = month,
        .nth = nth,
        .weekday = weekday,
        .name = "a weekday"};
}

static void
a_fixed_date_stays_unless_it_has_a_substitute(void **state)
{
    struct holiday_rule fixed = {
        .kind = HOLIDAY_FIXED, .month = 8, .day = 1, .name = "1 August"};

    (void)state;
    assert_day(only(fixed, 2026), "2026-08-01"); /* a Saturday */
    fixed.substitute = 1;
    assert_day(only(fixed, 2026), "2026-08-03");
    assert_day(only(fixed, 2027), "2027-08-02"); /* was a Sunday */
    assert_day(only(fixed, 2028), "2028-08-01"); /* a Tuesday */
}

static void
a_leap_day_is_kept_in_leap_years_only(void **state)
{
    struct holiday_rule leap = {
        .kind = HOLIDAY_FIXED, .month = 2, .day = 29, .name = "leap day"};

    (void)state;
    assert_day(only(leap, 2024), "2024-02-29");
    assert_int_equal(only(leap, 2025), DAY_NONE);
    leap.substitute = 1;
    assert_int_equal(only(leap, 2025), DAY_NONE);
}

/* May 2026 begins on a Friday and has five Fridays, Saturdays and Sundays. */
static void
weekdays_of_a_month_are_counted(void **state)
{
    (void)state;
    assert_day(only(weekday_of(1, 0, 5), 2026), "2026-05-04");
    assert_day(only(weekday_of(1, 4, 5), 2026), "2026-05-01");
    assert_day(only(weekday_of(1, 3, 5), 2026), "2026-05-07");
    assert_day(only(weekday_of(4, 3, 5), 2026), "2026-05-28");
    assert_day(only(weekday_of(5, 6, 5), 2026), "2026-05-31");
    assert_int_equal(only(weekday_of(5, 0, 5), 2026), DAY_NONE);
    assert_day(only(weekday_of(-1, 0, 5), 2026), "2026-05-25");
    assert_day(only(weekday_of(-1, 6, 5), 2026), "2026-05-31");
    /* February 2026 has 28 days and begins on a Sunday. */
    assert_day(only(weekday_of(-1, 6, 2), 2026), "2026-02-22");
    assert_day(only(weekday_of(4, 5, 2), 2026), "2026-02-28");
    assert_int_equal(only(weekday_of(5, 6, 2), 2026), DAY_NONE);
}

/* Easter 2026 is 5 April; Ascension is the 39th day after, Whit Monday the
 * 50th. */
static void
days_are_counted_from_easter(void **state)
{
    struct holiday_rule easter = {.kind = HOLIDAY_EASTER, .name = "Easter"};
    static const int offsets[] = {-2, 0, 1, 39, 50};
    static const char *const days[] = {
        "2026-04-03", "2026-04-05", "2026-04-06", "2026-05-14", "2026-05-25"};

    (void)state;
    for (size_t i = 0; i < COUNT(offsets); i++) {
        easter.offset = offsets[i];
        assert_day(only(easter, 2026), days[i]);
    }
}

/* The dates are those of GOV.UK for these years. */
static void
twins_make_room_for_each_other(void **state)
{
    struct holiday_set set = {.rules = christmas, .n_rules = 2};
    struct named_day got[HOLIDAY_MOST];

    (void)state;
    check_year(&set, 2020, (const char *[]){"2020-12-25", "2020-12-28", NULL});
    check_year(&set, 2021, (const char *[]){"2021-12-27", "2021-12-28", NULL});
    check_year(&set, 2022, (const char *[]){"2022-12-26", "2022-12-27", NULL});
    check_year(&set, 2024, (const char *[]){"2024-12-25", "2024-12-26", NULL});
    /* A substitute keeps the name of its holiday. */
    assert_int_equal(holiday_year(&set, 2022, got), 2);
    assert_string_equal(got[0].name, "Boxing Day");
    assert_string_equal(got[1].name, "Christmas Day");
}

/* 31 December 2022 was a Saturday and 1 January 2023 a Sunday, so Monday 2 and
 * Tuesday 3 January stand for them; where 2 January is a holiday of its own,
 * Tuesday and Wednesday.  31 December 2023 was a Sunday, and 1 January 2024, a
 * Monday, is a holiday itself. */
static void
substitutes_make_room_for_each_other_across_new_year(void **state)
{
    const struct holiday_rule rules[] = {{.kind = HOLIDAY_FIXED,
                                             .month = 12,
                                             .day = 31,
                                             .substitute = 1,
                                             .name = "Old Year's Day"},
        {.kind = HOLIDAY_FIXED,
            .month = 1,
            .day = 1,
            .substitute = 1,
            .name = "New Year's Day"},
        {.kind = HOLIDAY_FIXED, .month = 1, .day = 2, .name = "2 January"}};
    struct holiday_set set = {.rules = rules, .n_rules = 2};

    (void)state;
    check_year(&set, 2022, (const char *[]){"2022-01-03", "2023-01-02", NULL});
    check_year(&set, 2023, (const char *[]){"2023-01-03", "2024-01-02", NULL});
    set.n_rules = 3;
    check_year(&set, 2022,
        (const char *[]){"2022-01-02", "2022-01-03", "2023-01-03", NULL});
    check_year(&set, 2023,
        (const char *[]){"2023-01-02", "2023-01-04", "2024-01-03", NULL});
}

/* The last day we know, 31 December 2199, is a Tuesday; both ends of the range
 * have a year beside them that holds no day. */
static void
the_first_and_the_last_year_have_their_days(void **state)
{
    const struct holiday_rule rules[] = {{.kind = HOLIDAY_FIXED,
                                             .month = 12,
                                             .day = 31,
                                             .substitute = 1,
                                             .name = "last"},
        weekday_of(1, 0, 1)};
    struct holiday_set set = {.rules = rules, .n_rules = 2};

    (void)state;
    check_year(&set, 1900, (const char *[]){"1900-01-01", "1900-12-31", NULL});
    check_year(&set, 2199, (const char *[]){"2199-01-07", "2199-12-31", NULL});
}

static void
days_are_added_and_removed(void **state)
{
    const struct named_day added[] = {
        {date("2026-06-15"), "Regatta day"}, {date("2026-01-02"), "Jubilee"}};
    const day_t removed[] = {date("2026-12-25"), date("2027-12-27")};
    struct holiday_set set = {.rules = christmas,
        .n_rules = 2,
        .added = added,
        .n_added = 2,
        .removed = removed,
        .n_removed = 2};

    (void)state;
    check_year(&set, 2026,
        (const char *[]){"2026-01-02", "2026-06-15", "2026-12-28", NULL});
    check_year(&set, 2027, (const char *[]){"2027-12-28", NULL});
    check_year(&set, 2025, (const char *[]){"2025-12-25", "2025-12-26", NULL});
}

/* So a holiday moved to another day is a removal and an addition, and the
 * order in which they are written does not matter. */
static void
a_day_both_removed_and_added_is_a_holiday(void **state)
{
    const day_t removed[] = {date("2026-12-25")};
    const struct named_day added[] = {{date("2026-12-25"), "Feast"}};
    struct holiday_set set = {.rules = christmas,
        .n_rules = 2,
        .added = added,
        .n_added = 1,
        .removed = removed,
        .n_removed = 1};
    struct named_day got[HOLIDAY_MOST];

    (void)state;
    assert_int_equal(holiday_year(&set, 2026, got), 2);
    assert_string_equal(got[0].name, "Feast");
}

static void
one_day_is_listed_once_under_its_first_name(void **state)
{
    struct holiday_rule rules[] = {
        {.kind = HOLIDAY_FIXED, .month = 5, .day = 25, .name = "Founders"},
        weekday_of(-1, 0, 5)};
    const struct named_day added[] = {{date("2026-05-25"), "Again"}};
    struct holiday_set set = {
        .rules = rules, .n_rules = 2, .added = added, .n_added = 1};
    struct named_day got[HOLIDAY_MOST];

    (void)state;
    assert_int_equal(holiday_year(&set, 2026, got), 1);
    assert_day(got[0].day, "2026-05-25");
    assert_string_equal(got[0].name, "Founders");
    assert_int_equal(holiday_year(&set, 2027, got), 2);
}

static void
a_year_is_never_longer_than_its_room(void **state)
{
    struct holiday_rule rules[HOLIDAY_MOST + 10];
    struct holiday_set set = {.rules = rules, .n_rules = COUNT(rules)};
    struct named_day got[HOLIDAY_MOST];

    (void)state;
    /* Backwards, so that each one is put in front. */
    for (size_t i = 0; i < COUNT(rules); i++)
        rules[i] = (struct holiday_rule){
            .kind = HOLIDAY_EASTER, .offset = 100 - (int)i, .name = "another"};
    assert_int_equal(holiday_year(&set, 2026, got), HOLIDAY_MOST);
    for (size_t i = 1; i < HOLIDAY_MOST; i++)
        assert_int_equal(got[i].day, got[i - 1].day + 1);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_fixed_date_stays_unless_it_has_a_substitute),
        cmocka_unit_test(a_leap_day_is_kept_in_leap_years_only),
        cmocka_unit_test(weekdays_of_a_month_are_counted),
        cmocka_unit_test(days_are_counted_from_easter),
        cmocka_unit_test(twins_make_room_for_each_other),
        cmocka_unit_test(substitutes_make_room_for_each_other_across_new_year),
        cmocka_unit_test(the_first_and_the_last_year_have_their_days),
        cmocka_unit_test(days_are_added_and_removed),
        cmocka_unit_test(a_day_both_removed_and_added_is_a_holiday),
        cmocka_unit_test(one_day_is_listed_once_under_its_first_name),
        cmocka_unit_test(a_year_is_never_longer_than_its_room),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
