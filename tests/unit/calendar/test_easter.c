/* Easter Sunday.  tests/reference/dateutil compares every year. */
#include "days.h"
#include "easter.h"
#include "test.h"

/* J. Meeus, "Astronomical Algorithms", chapter 8, and the two years in which
 * Gauss's rule of 1816 needs its exceptions, 1954 and 1981: all from memory. */
static void
known_easters(void **state)
{
    static const char *const sundays[] = {"1954-04-18", "1981-04-19",
        "1991-03-31", "1992-04-19", "1993-04-11", "2000-04-23"};

    (void)state;
    for (size_t i = 0; i < sizeof sundays / sizeof *sundays; i++)
        assert_day(easter_of(day_ymd(date(sundays[i])).year), sundays[i]);
}

/* The canon: a Sunday from 22 March to 25 April. */
static void
easter_keeps_its_bounds(void **state)
{
    (void)state;
    for (int year = 1900; year <= 2199; year++) {
        day_t d = easter_of(year);
        assert_int_equal(day_weekday(d), 6);
        assert_true(d >= day_of(year, 3, 22) && d <= day_of(year, 4, 25));
    }
}

static void
other_years_have_no_day(void **state)
{
    (void)state;
    assert_int_equal(easter_of(1899), DAY_NONE);
    assert_int_equal(easter_of(2200), DAY_NONE);
    assert_int_equal(easter_of(-1), DAY_NONE);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(known_easters),
        cmocka_unit_test(easter_keeps_its_bounds),
        cmocka_unit_test(other_years_have_no_day),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
