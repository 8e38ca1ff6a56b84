/*
 * When clocks in a zone show a time.  The days on which they change are those
 * of tzdata (zdump -v), the moments are worked out beside each row.
 */
#include "clock.h"
#include "test.h"

#define HOUR 3600

/* A moment in UTC. */
static int64_t
utc(int year, int month, int day, int hour, int minute)
{
    return (int64_t)day_of(year, month, day) * 86400 + hour * HOUR +
           minute * 60;
}

static void
the_moment_of_a_time_of_day(void **state)
{
    const struct {
        const char *zone;
        int y, m, d, minute;
        int64_t when;
    } rows[] = {
        {"UTC", 2026, 12, 2, 7 * 60, utc(2026, 12, 2, 7, 0)},
        {"Europe/London", 2026, 12, 2, 7 * 60, utc(2026, 12, 2, 7, 0)},
        /* Summer: an hour ahead. */
        {"Europe/London", 2026, 7, 1, 0, utc(2026, 6, 30, 23, 0)},
        /* The day on which it begins, before and after 01:00. */
        {"Europe/London", 2026, 3, 29, 0, utc(2026, 3, 29, 0, 0)},
        {"Europe/London", 2026, 3, 29, 7 * 60, utc(2026, 3, 29, 6, 0)},
        /* 01:30 is not there: at 01:00 UTC it is 02:00. */
        {"Europe/London", 2026, 3, 29, 90, utc(2026, 3, 29, 1, 0)},
        {"Europe/Berlin", 2027, 3, 28, 150, utc(2027, 3, 28, 1, 0)},
        /* 01:30 comes twice on 25 October: at 00:30 and at 01:30 UTC. */
        {"Europe/London", 2026, 10, 25, 90, utc(2026, 10, 25, 0, 30)},
        {"Europe/London", 2026, 10, 25, 120, utc(2026, 10, 25, 2, 0)},
        /* No midnight: it is 01:00 at 03:00 UTC, with three hours behind. */
        {"America/Sao_Paulo", 2018, 11, 4, 0, utc(2018, 11, 4, 3, 0)},
        /* No such day: the 29th, ten hours behind, then the 31st, fourteen
         * ahead, from 10:00 UTC on. */
        {"Pacific/Apia", 2011, 12, 30, 7 * 60, utc(2011, 12, 30, 10, 0)},
        {"Pacific/Kiritimati", 2026, 12, 2, 0, utc(2026, 12, 1, 10, 0)},
        {"Asia/Kathmandu", 2026, 12, 2, 0, utc(2026, 12, 1, 18, 15)},
    };

    (void)state;
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        if (clock_at(rows[i].zone, day_of(rows[i].y, rows[i].m, rows[i].d),
                rows[i].minute) != rows[i].when)
            fail_msg("row %zu, %s", i, rows[i].zone);
}

/* On a day with a change the minutes since midnight are others. */
static void
the_minute_that_clocks_show(void **state)
{
    const struct {
        const char *zone;
        int64_t when;
        int minute;
    } rows[] = {
        {"UTC", utc(2026, 12, 2, 7, 40), 7 * 60 + 40},
        {"Europe/London", utc(2026, 7, 1, 6, 40), 7 * 60 + 40},
        /* Since 01:00 an hour ahead: 6 h 40 min after midnight. */
        {"Europe/London", utc(2026, 3, 29, 6, 40), 7 * 60 + 40},
        /* Since 02:00 no more: 24 h 30 min after midnight. */
        {"Europe/London", utc(2026, 10, 25, 23, 30), 23 * 60 + 30},
        {"Asia/Kathmandu", utc(2026, 12, 1, 18, 15), 0},
        /* Before 1970 too. */
        {"UTC", utc(1969, 12, 31, 23, 59), 23 * 60 + 59},
    };

    (void)state;
    for (size_t i = 0; i < COUNT(rows); i++)
        assert_int_equal(
            clock_minute(rows[i].zone, rows[i].when), rows[i].minute);
}

static void
the_day_at_a_moment(void **state)
{
    (void)state;
    assert_int_equal(clock_day("Europe/London", utc(2026, 6, 30, 22, 59)),
        day_of(2026, 6, 30));
    assert_int_equal(clock_day("Europe/London", utc(2026, 6, 30, 23, 0)),
        day_of(2026, 7, 1));
    assert_int_equal(clock_day("Pacific/Kiritimati", utc(2026, 12, 1, 10, 0)),
        day_of(2026, 12, 2));
    assert_int_equal(clock_day("Pacific/Pago_Pago", utc(2026, 12, 2, 10, 59)),
        day_of(2026, 12, 1));
}

/* Midnight is the first moment of its day, all year round. */
static void
midnight_begins_the_day(void **state)
{
    static const char *const zones[] = {"Europe/London", "America/New_York",
        "Australia/Lord_Howe", "Africa/Casablanca", "America/St_Johns"};

    (void)state;
    for (size_t z = 0; z < sizeof zones / sizeof *zones; z++)
        for (day_t d = day_of(2026, 1, 1); d < day_of(2027, 1, 1); d++) {
            int64_t when = clock_at(zones[z], d, 0);
            assert_int_equal(clock_day(zones[z], when), d);
            assert_int_equal(clock_day(zones[z], when - 1), d - 1);
        }
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_moment_of_a_time_of_day),
        cmocka_unit_test(the_minute_that_clocks_show),
        cmocka_unit_test(the_day_at_a_moment),
        cmocka_unit_test(midnight_begins_the_day),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
