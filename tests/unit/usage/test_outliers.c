/* Which readings count at all, by the days of a vehicle that is read every
 * hundred days. */
#include "days.h"
#include "outliers.h"
#include "test.h"

#define MANY 31

/* Fifty a day, the last time on 25 November 2026: its three years begin on
 * 25 November 2023, 1096 days before. */
static size_t
counted(day_t asked, int twice)
{
    static struct reading list[2 * MANY];
    static struct screened s;
    struct usage u = {.readings = list};

    for (int i = 0; i < MANY; i++)
        for (int k = 0; k <= twice; k++)
            list[u.n++] = (struct reading){
                date("2026-11-25") - 100 * (MANY - 1 - i), 5000 * i};
    outliers_screen(&s, &u, asked);
    assert_int_equal(s.left_out, 0);
    return s.n;
}

/* Eleven, of 0 to 1000 days before the newest, and six before these. */
static void
three_years_and_six_before(void **state)
{
    (void)state;
    assert_int_equal(counted(date("2026-11-25"), 0), 17);
}

static void
what_is_read_twice_is_one_day(void **state)
{
    (void)state;
    assert_int_equal(counted(date("2026-11-25"), 1), 17);
}

/* Twenty-one since 2000 days before, and six before these; and all of them. */
static void
since_the_day_that_is_asked_for(void **state)
{
    (void)state;
    assert_int_equal(counted(date("2026-11-25") - 2000, 0), 27);
    assert_int_equal(counted(date("2010-01-01"), 0), MANY);
}

/* Three years before a leap day ends with February. */
static void
three_years_before_a_leap_day(void **state)
{
    (void)state;
    assert_day(usage_since(date("2028-02-29"), DAY_NONE), "2025-02-28");
    assert_day(usage_since(DAY_NONE, date("2024-05-05")), "2024-05-05");
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(three_years_and_six_before),
        cmocka_unit_test(what_is_read_twice_is_one_day),
        cmocka_unit_test(since_the_day_that_is_asked_for),
        cmocka_unit_test(three_years_before_a_leap_day),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
