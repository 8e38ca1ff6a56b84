/* When the daemon has something to do, by the clock alone. */
#include "test.h"
#include "timing.h"

static int64_t
utc(int year, int month, int day, int hour, int minute)
{
    return (int64_t)day_of(year, month, day) * 86400 + hour * 3600 +
           minute * 60;
}

static const struct depot depots[] = {
    {.id = "harbour", .time_zone = "Europe/London"},
    {.id = "east", .time_zone = "Europe/Berlin"},
};
static const struct fleet isles = {
    .site = {.time_zone = "Europe/London", .server = {.remind_at = 7 * 60}},
    .depots = depots,
    .n_depots = 2,
};

/* Everything was done at that moment, and people told on @day. */
static struct timing
done_at(int64_t when, day_t day)
{
    return (struct timing){&isles, when, day, TIMING_NEVER};
}

static void
a_quiet_day(void **state)
{
    day_t day = day_of(2026, 12, 2);
    struct timing a = done_at(utc(2026, 12, 2, 12, 0), day);

    (void)state;
    assert_int_equal(timing_due(&a, utc(2026, 12, 2, 12, 0)), 0);
    assert_int_equal(timing_due(&a, utc(2026, 12, 2, 22, 59)), 0);
    /* Midnight in Berlin is at 23:00 UTC, in London an hour later. */
    assert_int_equal(
        timing_next(&a, utc(2026, 12, 2, 12, 0)), utc(2026, 12, 2, 23, 0));
    assert_int_equal(timing_due(&a, utc(2026, 12, 2, 23, 0)), WORK_PASS);
    a.passed = utc(2026, 12, 2, 23, 0);
    assert_int_equal(timing_due(&a, utc(2026, 12, 2, 23, 0)), 0);
    assert_int_equal(timing_next(&a, a.passed), utc(2026, 12, 3, 0, 0));
    assert_int_equal(timing_due(&a, utc(2026, 12, 3, 0, 0)), WORK_PASS);
    a.passed = utc(2026, 12, 3, 0, 0);
    assert_int_equal(timing_next(&a, a.passed), utc(2026, 12, 3, 7, 0));
    assert_int_equal(timing_due(&a, utc(2026, 12, 3, 6, 59)), 0);
    assert_int_equal(timing_due(&a, utc(2026, 12, 3, 7, 0)), WORK_REMIND);
    a.reminded = day + 1;
    assert_int_equal(timing_due(&a, utc(2026, 12, 3, 7, 0)), 0);
}

/* Nobody was told yet: before the hour it is waited for, after it made up. */
static void
a_start(void **state)
{
    struct timing a = done_at(utc(2026, 12, 2, 5, 0), DAY_NONE);

    (void)state;
    assert_int_equal(timing_due(&a, utc(2026, 12, 2, 5, 0)), 0);
    assert_int_equal(
        timing_next(&a, utc(2026, 12, 2, 5, 0)), utc(2026, 12, 2, 7, 0));
    assert_int_equal(timing_due(&a, utc(2026, 12, 2, 15, 0)), WORK_REMIND);
}

/* Slept through: all of it, once. */
static void
a_long_sleep(void **state)
{
    struct timing a = done_at(utc(2026, 12, 2, 12, 0), day_of(2026, 12, 2));

    (void)state;
    assert_int_equal(
        timing_due(&a, utc(2026, 12, 9, 8, 0)), WORK_PASS | WORK_REMIND);
    assert_int_equal(timing_due(&a, utc(2026, 12, 9, 6, 0)), WORK_PASS);
}

static void
the_clock_is_set(void **state)
{
    struct timing a = done_at(utc(2036, 12, 2, 12, 0), day_of(2036, 12, 2));

    (void)state;
    /* Ten years back: it is another day, and one to tell people on. */
    assert_int_equal(
        timing_due(&a, utc(2026, 12, 2, 12, 0)), WORK_PASS | WORK_REMIND);
    a = done_at(utc(2026, 12, 2, 12, 0), day_of(2026, 12, 2));
    /* An hour back, on the same day: nothing. */
    assert_int_equal(timing_due(&a, utc(2026, 12, 2, 11, 0)), 0);
    assert_int_equal(
        timing_next(&a, utc(2026, 12, 2, 11, 0)), utc(2026, 12, 2, 23, 0));
}

/* The hour of the reminders on the nights on which clocks change. */
static void
an_hour_that_is_missing_or_comes_twice(void **state)
{
    struct fleet early = isles;
    struct timing a = done_at(utc(2026, 3, 29, 0, 0), day_of(2026, 3, 28));

    (void)state;
    early.n_depots = 1;
    early.site.server.remind_at = 90; /* 01:30 */
    a.fleet = &early;
    /* At 01:00 UTC clocks in London go from 01:00 to 02:00. */
    assert_int_equal(timing_next(&a, a.passed), utc(2026, 3, 29, 1, 0));
    assert_int_equal(timing_due(&a, utc(2026, 3, 29, 0, 59)), 0);
    assert_int_equal(timing_due(&a, utc(2026, 3, 29, 1, 0)), WORK_REMIND);
    /* 01:30 is at 00:30 UTC and once more at 01:30. */
    a = done_at(utc(2026, 10, 25, 0, 0), day_of(2026, 10, 24));
    a.fleet = &early;
    assert_int_equal(timing_next(&a, a.passed), utc(2026, 10, 25, 0, 30));
    assert_int_equal(timing_due(&a, utc(2026, 10, 25, 0, 30)), WORK_REMIND);
    a.reminded = day_of(2026, 10, 25);
    assert_int_equal(timing_due(&a, utc(2026, 10, 25, 1, 30)), 0);
    /* The 25th ends, 25 hours long, at midnight UTC. */
    assert_int_equal(
        timing_next(&a, utc(2026, 10, 25, 1, 30)), utc(2026, 10, 26, 0, 0));
}

/*
 * The nights of the change with a depot in a zone where it falls on midnight.
 * London goes from GMT to BST and back at 01:00 UTC (the last Sunday of March
 * and October); the Azores do at the same moment, an hour west: on 29 March
 * 2026 from 00:00 at UTC-1 to 01:00, so that day has no midnight, and on 25
 * October from 01:00 at UTC back to 00:00, which comes a second time.
 */
static const struct depot islands[] = {
    {.id = "harbour", .time_zone = "Europe/London"},
    {.id = "west", .time_zone = "Atlantic/Azores"},
};

static struct fleet
in_two_zones(void)
{
    struct fleet f = isles;

    f.depots = islands;
    return f;
}

static void
a_midnight_that_is_missing(void **state)
{
    struct fleet f = in_two_zones();
    struct timing a = done_at(utc(2026, 3, 28, 12, 0), day_of(2026, 3, 28));

    (void)state;
    a.fleet = &f;
    assert_int_equal(
        timing_next(&a, utc(2026, 3, 28, 12, 0)), utc(2026, 3, 29, 0, 0));
    a.passed = utc(2026, 3, 29, 0, 0); /* London's */
    assert_int_equal(timing_next(&a, a.passed), utc(2026, 3, 29, 1, 0));
    assert_int_equal(timing_due(&a, utc(2026, 3, 29, 1, 0) - 1), 0);
    assert_int_equal(timing_due(&a, utc(2026, 3, 29, 1, 0)), WORK_PASS);
    a.passed = utc(2026, 3, 29, 1, 0);
    assert_int_equal(timing_due(&a, a.passed), 0);
    /* Seven o'clock in London is an hour earlier from now on, as is its
     * midnight, at 23:00 UTC; that of the Azores is at 00:00 UTC. */
    assert_int_equal(timing_next(&a, a.passed), utc(2026, 3, 29, 6, 0));
    assert_int_equal(
        timing_next(&a, utc(2026, 3, 29, 6, 0)), utc(2026, 3, 29, 23, 0));
    a.passed = utc(2026, 3, 29, 23, 0);
    assert_int_equal(timing_next(&a, a.passed), utc(2026, 3, 30, 0, 0));
    assert_int_equal(timing_due(&a, utc(2026, 3, 30, 0, 0)), WORK_PASS);
}

static void
a_midnight_that_comes_twice(void **state)
{
    struct fleet f = in_two_zones();
    struct timing a = done_at(utc(2026, 10, 24, 12, 0), day_of(2026, 10, 24));

    (void)state;
    a.fleet = &f;
    assert_int_equal(
        timing_next(&a, utc(2026, 10, 24, 12, 0)), utc(2026, 10, 24, 23, 0));
    a.passed = utc(2026, 10, 24, 23, 0); /* London's, still in summer */
    assert_int_equal(timing_next(&a, a.passed), utc(2026, 10, 25, 0, 0));
    assert_int_equal(timing_due(&a, utc(2026, 10, 25, 0, 0)), WORK_PASS);
    a.passed = utc(2026, 10, 25, 0, 0); /* the first of the Azores */
    assert_int_equal(timing_due(&a, utc(2026, 10, 25, 1, 0)), 0);
    assert_int_equal(timing_next(&a, a.passed), utc(2026, 10, 25, 7, 0));
    a.reminded = day_of(2026, 10, 25);
    assert_int_equal(
        timing_next(&a, utc(2026, 10, 25, 7, 0)), utc(2026, 10, 26, 0, 0));
    a.passed = utc(2026, 10, 26, 0, 0);
    assert_int_equal(timing_next(&a, a.passed), utc(2026, 10, 26, 1, 0));
    assert_int_equal(timing_due(&a, utc(2026, 10, 26, 1, 0)), WORK_PASS);
}

/* Days forward and back, between two zones: whatever is another day somewhere
 * is a pass, and each day is told on once. */
static void
the_clock_is_set_by_days(void **state)
{
    struct fleet f = in_two_zones();
    struct timing a = done_at(utc(2026, 7, 1, 12, 0), day_of(2026, 7, 1));

    (void)state;
    a.fleet = &f;
    assert_int_equal(
        timing_due(&a, utc(2026, 7, 4, 12, 0)), WORK_PASS | WORK_REMIND);
    assert_int_equal(
        timing_due(&a, utc(2026, 6, 28, 12, 0)), WORK_PASS | WORK_REMIND);
    /* An hour and a half back from half past midnight in London: it is the day
     * before there, and was so in the Azores all along. */
    a.passed = utc(2026, 7, 1, 23, 30);
    a.reminded = day_of(2026, 7, 1);
    assert_int_equal(timing_due(&a, utc(2026, 7, 1, 22, 0)), WORK_PASS);
}

static void
mail_that_waits(void **state)
{
    struct timing a = done_at(utc(2026, 12, 2, 12, 0), day_of(2026, 12, 2));

    (void)state;
    a.send = utc(2026, 12, 2, 12, 5);
    assert_int_equal(timing_due(&a, utc(2026, 12, 2, 12, 4)), 0);
    assert_int_equal(timing_next(&a, utc(2026, 12, 2, 12, 4)), a.send);
    assert_int_equal(timing_due(&a, a.send), WORK_SEND);
    /* While it is due, what comes next is something else. */
    assert_int_equal(timing_next(&a, a.send), utc(2026, 12, 2, 23, 0));
    /* What was never tried is due at once. */
    a.send = 0;
    assert_int_equal(timing_due(&a, utc(2026, 12, 2, 12, 0)), WORK_SEND);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_quiet_day),
        cmocka_unit_test(a_start),
        cmocka_unit_test(a_long_sleep),
        cmocka_unit_test(the_clock_is_set),
        cmocka_unit_test(an_hour_that_is_missing_or_comes_twice),
        cmocka_unit_test(a_midnight_that_is_missing),
        cmocka_unit_test(a_midnight_that_comes_twice),
        cmocka_unit_test(the_clock_is_set_by_days),
        cmocka_unit_test(mail_that_waits),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
