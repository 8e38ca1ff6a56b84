#include <string.h>

#include "http_date.h"
#include "test.h"

/* The one moment that RFC 9110, section 5.6.7, writes in all three forms;
 * 784111777 by date(1). */
static void
the_three_forms_of_the_rfc(void **state)
{
    static const char *const forms[] = {"Sun, 06 Nov 1994 08:49:37 GMT",
        "Sunday, 06-Nov-94 08:49:37 GMT", "Sun Nov  6 08:49:37 1994"};
    char text[HTTP_DATE + 1];

    (void)state;
    for (int i = 0; i < 3; i++) {
        int64_t seconds = 0;
        assert_int_equal(http_date_parse(forms[i], &seconds), 0);
        assert_int_equal(seconds, 784111777);
    }
    http_date_print(784111777, text);
    assert_string_equal(text, forms[0]);
}

static void
a_date_is_read_back(void **state)
{
    char text[HTTP_DATE + 1];
    int64_t back;

    (void)state;
    /* To the last second of 9999, 253402300799 by date(1), in odd steps. */
    for (int64_t s = 0; s <= 253402300799; s += 86399 * 37) {
        http_date_print(s, text);
        assert_int_equal(strlen(text), HTTP_DATE);
        assert_int_equal(http_date_parse(text, &back), 0);
        assert_int_equal(back, s);
    }
    http_date_print(253402300799, text);
    assert_string_equal(text, "Fri, 31 Dec 9999 23:59:59 GMT");
}

static void
odd_dates_that_are_dates(void **state)
{
    int64_t s;

    (void)state;
    assert_int_equal(http_date_parse("Tue, 29 Feb 2000 00:00:00 GMT", &s), 0);
    assert_int_equal(s, 951782400);
    /* A leap second: 1998-12-31T23:59:60Z, the one before 915148800. */
    assert_int_equal(http_date_parse("Thu, 31 Dec 1998 23:59:60 GMT", &s), 0);
    assert_int_equal(s, 915148799);
    /* Two digits: 1970 to 2069. */
    assert_int_equal(
        http_date_parse("Thursday, 01-Jan-70 00:00:00 GMT", &s), 0);
    assert_int_equal(s, 0);
    assert_int_equal(http_date_parse("Tuesday, 01-Jan-69 00:00:00 GMT", &s), 0);
    assert_int_equal(s, 3124224000);
}

static void
what_is_no_date_is_refused(void **state)
{
    static const char *const texts[] = {"", "0", "yesterday", "Sun", "Sun, ",
        "Sun, 06 Nov 1994 08:49:37", "Sun, 06 Nov 1994 08:49:37 GMT ",
        "Sun, 06 Nov 1994 08:49:37 UTC", "Sun, 06 Nov 1994 08:49:37 GMTx",
        "Sun, 6 Nov 1994 08:49:37 GMT", "Sun, 06 Nov 94 08:49:37 GMT",
        "Sun, 06 Nov 1994 24:49:37 GMT", "Sun, 06 Nov 1994 08:60:37 GMT",
        "Sun, 06 Nov 1994 08:49:61 GMT", "Sun, 30 Feb 1994 08:49:37 GMT",
        "Sun, 00 Nov 1994 08:49:37 GMT", "Sun, 32 Nov 1994 08:49:37 GMT",
        "Xxx, 06 Nov 1994 08:49:37 GMT", "Sun, 06 Xxx 1994 08:49:37 GMT",
        "Sun, -6 Nov 1994 08:49:37 GMT", "Sun, 06 Nov 19940 08:49:37 GMT",
        "1994-11-06T08:49:37Z", "Sun Nov 6 08:49:37 1994",
        "Tue, 29 Feb 1900 00:00:00 GMT"};

    (void)state;
    for (size_t i = 0; i < sizeof texts / sizeof *texts; i++) {
        int64_t s = -7;
        assert_int_equal(http_date_parse(texts[i], &s), -1);
        assert_int_equal(s, -7);
    }
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_three_forms_of_the_rfc),
        cmocka_unit_test(a_date_is_read_back),
        cmocka_unit_test(odd_dates_that_are_dates),
        cmocka_unit_test(what_is_no_date_is_refused),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
