#include <string.h>

#include "num.h"
#include "test.h"

static int64_t
parsed(const char *text, int64_t min, int64_t max)
{
    int64_t n = 0;

    if (num_parse(text, strlen(text), min, max, &n))
        fail_msg("'%s' was refused", text);
    return n;
}

static void
refuse(const char *text, int64_t min, int64_t max)
{
    int64_t n = 4711;

    if (num_parse(text, strlen(text), min, max, &n) != -1)
        fail_msg("'%s' was read as a number", text);
    assert_int_equal(n, 4711); /* left alone */
}

static void
whole_numbers_are_read(void **state)
{
    int64_t n;

    (void)state;
    assert_int_equal(parsed("0", 0, 0), 0);
    assert_int_equal(parsed("-0", 0, 0), 0);
    assert_int_equal(parsed("20000", 1, 2000000), 20000);
    assert_int_equal(parsed("-14", -20, 0), -14);
    assert_int_equal(parsed("007", 0, 9), 7);
    assert_int_equal(parsed("999999999999999999", 0, INT64_MAX),
        INT64_C(999999999999999999));
    assert_int_equal(parsed("-999999999999999999", INT64_MIN, 0),
        INT64_C(-999999999999999999));
    /* The length counts, not the NUL. */
    assert_int_equal(num_parse("1234km", 4, 0, 9999, &n), 0);
    assert_int_equal(n, 1234);
}

static void
bounds_are_inclusive(void **state)
{
    (void)state;
    assert_int_equal(parsed("1", 1, 12), 1);
    assert_int_equal(parsed("12", 1, 12), 12);
    refuse("0", 1, 12);
    refuse("13", 1, 12);
    refuse("-1", 1, 12);
}

static void
all_else_is_refused(void **state)
{
    static const char *const wrong[] = {"", "-", "--1", "+1", " 1", "1 ", "1.0",
        "1,000", "1e3", "0x10", "12km", "km", "1-", "\xd9\xa1",
        "1000000000000000000", "99999999999999999999999999"};

    (void)state;
    for (size_t i = 0; i < sizeof wrong / sizeof *wrong; i++)
        refuse(wrong[i], INT64_MIN, INT64_MAX);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(whole_numbers_are_read),
        cmocka_unit_test(bounds_are_inclusive),
        cmocka_unit_test(all_else_is_refused),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
