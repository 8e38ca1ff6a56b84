#include <string.h>
#include <sysexits.h>

#include "import_day.h"
#include "test.h"

#define DEC_2 20789  /* 2026-12-02: date -ud 2026-12-02 +%s, by 86400 */
#define FEB_12 20496 /* 2026-02-12 */

static void
reads(enum day_order order, const char *text, day_t day)
{
    struct fault f = {0};

    assert_int_equal(import_day(order, text, &f), day);
    assert_int_equal(f.code, 0);
}

static void
refuses(enum day_order order, const char *text, const char *part)
{
    struct fault f = {0};

    assert_int_equal(import_day(order, text, &f), DAY_NONE);
    assert_int_equal(f.code, EX_DATAERR);
    if (strstr(f.text, part) == NULL)
        fail_msg("'%s' does not say '%s'", f.text, part);
}

static void
orders_have_names(void **state)
{
    enum day_order order = DAYS_ISO;

    (void)state;
    assert_int_equal(import_day_order("month-first", &order), 0);
    assert_int_equal(order, DAYS_MONTH_FIRST);
    assert_int_equal(import_day_order("day-first", &order), 0);
    assert_int_equal(order, DAYS_DAY_FIRST);
    assert_int_equal(import_day_order("iso", &order), 0);
    assert_int_equal(order, DAYS_ISO);
    assert_int_equal(import_day_order("dmy", &order), -1);
}

static void
the_order_decides(void **state)
{
    (void)state;
    reads(DAYS_ISO, "2026-12-02", DEC_2);
    reads(DAYS_DAY_FIRST, "02/12/2026", DEC_2);
    reads(DAYS_MONTH_FIRST, "02/12/2026", FEB_12);
    reads(DAYS_DAY_FIRST, "2.12.2026", DEC_2);
    reads(DAYS_DAY_FIRST, "2-12-2026", DEC_2);
    reads(DAYS_MONTH_FIRST, "2/12/2026", FEB_12);
}

static void
no_other_order_is_guessed(void **state)
{
    (void)state;
    refuses(DAYS_ISO, "02/12/2026", "--days day-first or --days month-first");
    refuses(DAYS_DAY_FIRST, "2026-12-02", "expected 2/12/2026 for 2 December");
    refuses(DAYS_DAY_FIRST, "12/25/2026", "is the sheet month-first?");
    refuses(DAYS_MONTH_FIRST, "25/12/2026", "is the sheet day-first?");
}

static void
a_year_has_four_digits(void **state)
{
    (void)state;
    refuses(DAYS_ISO, "02/12/26", "all four");
    refuses(DAYS_DAY_FIRST, "02/12/26", "all four");
    refuses(DAYS_MONTH_FIRST, "2.12.26", "all four");
    refuses(DAYS_DAY_FIRST, "02/12/026", "expected");
    refuses(DAYS_DAY_FIRST, "02/12/02026", "expected");
}

static void
what_is_no_day_is_refused(void **state)
{
    (void)state;
    refuses(DAYS_ISO, "2026-02-30", "'2026-02-30' is none");
    refuses(DAYS_ISO, "2026-12-02T00:00:00", "expected 2026-12-02");
    refuses(DAYS_ISO, "2026-1-2", "expected 2026-12-02");
    refuses(DAYS_DAY_FIRST, "30/02/2026", "is none");
    refuses(DAYS_DAY_FIRST, "0/12/2026", "is none");
    refuses(DAYS_DAY_FIRST, "2/12-2026", "is none");
    refuses(DAYS_DAY_FIRST, "2/12", "is none");
    refuses(DAYS_DAY_FIRST, "2//2026", "is none");
    refuses(DAYS_DAY_FIRST, "2/12/2026 10:00", "is none");
    refuses(DAYS_DAY_FIRST, "002/12/2026", "is none");
    refuses(DAYS_DAY_FIRST, "1/1/1899", "is none");
    refuses(DAYS_DAY_FIRST, "soon", "is none");
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(orders_have_names),
        cmocka_unit_test(the_order_decides),
        cmocka_unit_test(no_other_order_is_guessed),
        cmocka_unit_test(a_year_has_four_digits),
        cmocka_unit_test(what_is_no_day_is_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
