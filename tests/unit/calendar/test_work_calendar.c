/* Working-day calendars, against walking from day to day.
 * tests/reference/quantlib compares with another library. */
#include "days.h"
#include "test.h"
#include "work_calendar.h"

#define MON_TO_FRI 0x1fu
#define TUE_AND_THU 0x0au

static const struct holiday_rule feasts[] = {
    {.kind = HOLIDAY_FIXED,
        .month = 12,
        .day = 25,
        .substitute = 1,
        .name = "Christmas Day"},
    {.kind = HOLIDAY_EASTER, .offset = -2, .name = "Good Friday"},
    {.kind = HOLIDAY_FIXED, .month = 8, .day = 1, .name = "Lammas"},
};

/* The calendar of most checks: Monday to Friday, the feasts above, a closure
 * of three days and a Saturday that is worked. */
static struct work_calendar *
workshop(weekdays_t works)
{
    struct holiday_set set = {
        .rules = feasts, .n_rules = COUNT(feasts), .known_until = DAY_NONE};
    const struct holiday_set *sets[] = {&set};
    const struct named_day closed[] = {{date("2026-06-17"), "Stocktaking"},
        {date("2026-06-15"), "Stocktaking"},
        {date("2026-06-16"), "Stocktaking"}};
    const day_t open[] = {date("2026-06-13"), date("2026-06-16")};
    struct work_calendar *c = work_calendar_new(
        &(struct work_calendar_plan){works, sets, 1, closed, 3, open, 2});

    assert_non_null(c);
    return c;
}

static struct work_calendar *
plain(weekdays_t works)
{
    struct work_calendar *c =
        work_calendar_new(&(struct work_calendar_plan){.works = works});

    assert_non_null(c);
    return c;
}

static void
the_week_decides_unless_something_is_named(void **state)
{
    struct work_calendar *c = workshop(MON_TO_FRI);

    (void)state;
    assert_true(work_calendar_is_open(c, date("2026-06-12")));
    assert_false(work_calendar_is_open(c, date("2026-06-14"))); /* a Sunday */
    assert_false(work_calendar_is_open(c, date("2026-06-15")));
    assert_false(work_calendar_is_open(c, date("2026-12-25")));
    assert_false(work_calendar_is_open(c, date("2027-12-27"))); /* substitute */
    assert_true(work_calendar_is_open(c, date("2027-12-28")));
    work_calendar_free(c);
}

static void
an_extra_opening_wins(void **state)
{
    struct work_calendar *c = workshop(MON_TO_FRI);

    (void)state;
    assert_true(work_calendar_is_open(c, date("2026-06-13"))); /* a Saturday */
    assert_true(work_calendar_is_open(c, date("2026-06-16"))); /* a closure */
    assert_null(work_calendar_why(c, date("2026-06-16")));
    work_calendar_free(c);
}

static void
a_closed_day_says_why(void **state)
{
    struct work_calendar *c = workshop(MON_TO_FRI);

    (void)state;
    assert_string_equal(
        work_calendar_why(c, date("2026-06-15")), "Stocktaking");
    assert_string_equal(
        work_calendar_why(c, date("2026-12-25")), "Christmas Day");
    assert_string_equal(
        work_calendar_why(c, date("2027-12-27")), "Christmas Day");
    assert_string_equal(
        work_calendar_why(c, date("2199-12-25")), "Christmas Day");
    assert_string_equal(
        work_calendar_why(c, date("1900-04-13")), "Good Friday");
    /* On a Saturday the holiday is still the better answer. */
    assert_string_equal(work_calendar_why(c, date("2026-08-01")), "Lammas");
    assert_null(work_calendar_why(c, date("2026-06-14")));
    assert_null(work_calendar_why(c, date("2026-06-12")));
    work_calendar_free(c);
    c = plain(MON_TO_FRI);
    assert_null(work_calendar_why(c, date("2026-12-26")));
    work_calendar_free(c);
}

static void
two_holidays_on_one_day_give_one_name(void **state)
{
    const day_t d = date("2026-12-25");
    const struct named_day closed[] = {{d, "Works outing"}, {d, "Annual feast"},
        {d + 3, "Rest"}, {d - 1, "Eve"}};
    struct work_calendar *c = work_calendar_new(&(struct work_calendar_plan){
        .works = MON_TO_FRI, .closed = closed, .n_closed = COUNT(closed)});

    (void)state;
    assert_non_null(c);
    assert_string_equal(work_calendar_why(c, d), "Annual feast");
    assert_string_equal(work_calendar_why(c, d + 3), "Rest");
    assert_string_equal(work_calendar_why(c, d - 1), "Eve");
    work_calendar_free(c);
}

/* Go from @d in steps of @by until the day is open. */
static day_t
walk(const struct work_calendar *c, day_t d, int by)
{
    while (day_valid(d) && !work_calendar_is_open(c, d))
        d += by;
    return day_valid(d) ? d : DAY_NONE;
}

static day_t
walk_days(const struct work_calendar *c, day_t d, int n)
{
    int by = n < 0 ? -1 : 1;

    for (int left = n * by; left > 0 && d != DAY_NONE; left--)
        d = walk(c, d + by, by);
    return d;
}

static void
check_against_walking(const struct work_calendar *c, day_t d)
{
    int weekday = day_weekday(d);
    day_t before = walk(c, d, -1);
    day_t after = walk(c, d, 1);
    int count = 0;

    assert_int_equal(work_calendar_preceding(c, d), before);
    assert_int_equal(work_calendar_following(c, d), after);
    assert_int_equal(work_calendar_nearest(c, d),
        weekday == 6 || weekday == 0 ? after : before);
    for (int n = -70; n <= 70; n += 1 + n * n / 40)
        assert_int_equal(work_calendar_add(c, d, n), walk_days(c, d, n));
    for (day_t to = d - 3; to < d + 100 && to <= DAY_LAST; to++) {
        count += to > d && work_calendar_is_open(c, to);
        assert_int_equal(work_calendar_between(c, d, to), count);
    }
}

/* Some weeks, and both ends of the range, where words of 64 days are cut. */
static void
questions_agree_with_walking(void **state)
{
    static const weekdays_t patterns[] = {
        MON_TO_FRI, TUE_AND_THU, 0x40u, 0x3eu, WEEKDAYS_ALL};

    (void)state;
    for (size_t i = 0; i < COUNT(patterns); i++) {
        struct work_calendar *c = workshop(patterns[i]);
        for (day_t d = date("2026-05-01"); d < date("2027-01-15"); d++)
            check_against_walking(c, d);
        for (day_t d = DAY_FIRST; d < DAY_FIRST + 200; d++)
            check_against_walking(c, d);
        for (day_t d = DAY_LAST - 200; d <= DAY_LAST; d++)
            check_against_walking(c, d);
        work_calendar_free(c);
    }
}

/* A closure of years leaves whole words without a bit. */
static void
long_closures_are_crossed(void **state)
{
    static struct named_day closed[3000];
    day_t first = date("2026-01-01");

    (void)state;
    for (size_t i = 0; i < COUNT(closed); i++)
        closed[i] = (struct named_day){first + (day_t)i, "Laid up"};
    struct work_calendar *c = work_calendar_new(&(struct work_calendar_plan){
        WEEKDAYS_ALL, NULL, 0, closed, 3000, NULL, 0});
    assert_non_null(c);
    assert_int_equal(work_calendar_preceding(c, first + 2999), first - 1);
    assert_int_equal(work_calendar_following(c, first), first + 3000);
    assert_int_equal(work_calendar_add(c, first + 1500, 1), first + 3000);
    assert_int_equal(work_calendar_add(c, first + 1500, -1), first - 1);
    assert_int_equal(work_calendar_add(c, first - 1, 1000), first + 3999);
    assert_int_equal(work_calendar_between(c, first - 1, first + 3000), 1);
    assert_string_equal(work_calendar_why(c, first + 2999), "Laid up");
    work_calendar_free(c);
}

static void
steps_reach_from_end_to_end(void **state)
{
    struct work_calendar *c = plain(WEEKDAYS_ALL);
    int all = DAY_LAST - DAY_FIRST;

    (void)state;
    assert_int_equal(work_calendar_add(c, DAY_FIRST, all), DAY_LAST);
    assert_int_equal(work_calendar_add(c, DAY_LAST, -all), DAY_FIRST);
    assert_int_equal(work_calendar_add(c, DAY_FIRST, all + 1), DAY_NONE);
    assert_int_equal(work_calendar_add(c, DAY_LAST, -all - 1), DAY_NONE);
    assert_int_equal(work_calendar_add(c, 0, INT32_MAX), DAY_NONE);
    assert_int_equal(work_calendar_add(c, 0, INT32_MIN), DAY_NONE);
    assert_int_equal(work_calendar_between(c, DAY_FIRST, DAY_LAST), all);
    assert_int_equal(work_calendar_between(c, DAY_LAST, DAY_FIRST), 0);
    work_calendar_free(c);
}

static void
a_place_that_never_opens_has_no_working_day(void **state)
{
    struct work_calendar *c = plain(0);

    (void)state;
    assert_int_equal(work_calendar_preceding(c, 0), DAY_NONE);
    assert_int_equal(work_calendar_following(c, 0), DAY_NONE);
    assert_int_equal(work_calendar_nearest(c, 0), DAY_NONE);
    assert_int_equal(work_calendar_add(c, 0, 1), DAY_NONE);
    assert_int_equal(work_calendar_add(c, 0, -1), DAY_NONE);
    assert_int_equal(work_calendar_between(c, DAY_FIRST, DAY_LAST), 0);
    work_calendar_free(c);
}

static void
no_day_leads_to_no_day(void **state)
{
    struct work_calendar *c = plain(MON_TO_FRI);

    (void)state;
    assert_int_equal(work_calendar_preceding(c, DAY_NONE), DAY_NONE);
    assert_int_equal(work_calendar_following(c, DAY_NONE), DAY_NONE);
    assert_int_equal(work_calendar_nearest(c, DAY_NONE), DAY_NONE);
    assert_int_equal(work_calendar_add(c, DAY_NONE, 3), DAY_NONE);
    assert_int_equal(work_calendar_between(c, DAY_NONE, 0), 0);
    assert_int_equal(work_calendar_between(c, 0, DAY_NONE), 0);
    work_calendar_free(c);
    work_calendar_free(NULL);
}

/* The station is reached by ferry on Tuesdays and Thursdays. */
static void
both_must_be_open(void **state)
{
    const day_t reopened[] = {date("2026-06-18")};
    const struct named_day closed[] = {{date("2026-06-18"), "No ferry"},
        {date("2026-06-23"), "No ferry"}, {date("2026-06-13"), "Gala"}};
    struct work_calendar *shop = workshop(MON_TO_FRI);
    struct work_calendar *station =
        work_calendar_new(&(struct work_calendar_plan){
            TUE_AND_THU, NULL, 0, closed, 3, reopened, 1});
    struct work_calendar *c = work_calendar_both(shop, station);

    (void)state;
    assert_non_null(c);
    work_calendar_free(shop);
    work_calendar_free(station);
    assert_int_equal(
        work_calendar_between(c, date("2026-05-31"), date("2026-06-30")),
        8); /* nine such days less the 23rd */
    assert_true(work_calendar_is_open(c, date("2026-06-18")));
    assert_false(work_calendar_is_open(c, date("2026-06-15")));
    assert_day(work_calendar_preceding(c, date("2026-06-24")), "2026-06-18");
    assert_string_equal(work_calendar_why(c, date("2026-06-23")), "No ferry");
    assert_string_equal(
        work_calendar_why(c, date("2026-06-15")), "Stocktaking");
    assert_string_equal(work_calendar_why(c, date("2026-06-13")), "Gala");
    assert_null(
        work_calendar_why(c, date("2026-06-17") + 2)); /* not a ferry day */
    work_calendar_free(c);
}

/* A name that an opening has overruled is no reason for another closing. */
static void
an_overruled_closure_is_no_reason(void **state)
{
    const day_t saturday[] = {date("2026-06-20")};
    const struct named_day closed[] = {{date("2026-06-20"), "Gala"}};
    struct work_calendar *gala = work_calendar_new(&(struct work_calendar_plan){
        MON_TO_FRI, NULL, 0, closed, 1, saturday, 1});
    struct work_calendar *other = plain(MON_TO_FRI);
    struct work_calendar *c = work_calendar_both(gala, other);

    (void)state;
    assert_non_null(c);
    assert_false(work_calendar_is_open(c, saturday[0]));
    assert_null(work_calendar_why(c, saturday[0]));
    work_calendar_free(gala);
    work_calendar_free(other);
    work_calendar_free(c);
}

static void
holidays_are_known_as_far_as_the_shortest_set(void **state)
{
    struct holiday_set ever = {.known_until = DAY_NONE};
    struct holiday_set to_2028 = {.known_until = date("2028-12-31")};
    struct holiday_set to_2027 = {.known_until = date("2027-12-31")};
    const struct holiday_set *a[] = {&ever, &to_2028};
    const struct holiday_set *b[] = {&to_2027, &ever};
    struct work_calendar *first = work_calendar_new(
        &(struct work_calendar_plan){MON_TO_FRI, a, 2, NULL, 0, NULL, 0});
    struct work_calendar *second = work_calendar_new(
        &(struct work_calendar_plan){MON_TO_FRI, b, 2, NULL, 0, NULL, 0});
    struct work_calendar *third = work_calendar_new(
        &(struct work_calendar_plan){MON_TO_FRI, a, 1, NULL, 0, NULL, 0});
    struct work_calendar *both = work_calendar_both(first, second);
    struct work_calendar *one = work_calendar_both(third, first);

    (void)state;
    assert_day(work_calendar_known_until(first), "2028-12-31");
    assert_day(work_calendar_known_until(second), "2027-12-31");
    assert_int_equal(work_calendar_known_until(third), DAY_NONE);
    assert_day(work_calendar_known_until(both), "2027-12-31");
    assert_day(work_calendar_known_until(one), "2028-12-31");
    work_calendar_free(first);
    work_calendar_free(second);
    work_calendar_free(third);
    work_calendar_free(both);
    work_calendar_free(one);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_week_decides_unless_something_is_named),
        cmocka_unit_test(an_extra_opening_wins),
        cmocka_unit_test(a_closed_day_says_why),
        cmocka_unit_test(two_holidays_on_one_day_give_one_name),
        cmocka_unit_test(questions_agree_with_walking),
        cmocka_unit_test(long_closures_are_crossed),
        cmocka_unit_test(steps_reach_from_end_to_end),
        cmocka_unit_test(a_place_that_never_opens_has_no_working_day),
        cmocka_unit_test(no_day_leads_to_no_day),
        cmocka_unit_test(both_must_be_open),
        cmocka_unit_test(an_overruled_closure_is_no_reason),
        cmocka_unit_test(holidays_are_known_as_far_as_the_shortest_set),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
