#include "test.h"
#include "utf8.h"

static size_t
length(const char *bytes, size_t len)
{
    return utf8_length((const unsigned char *)bytes, len);
}

/* The first and last character of each length: RFC 3629, section 4. */
static void
characters_have_one_to_four_bytes(void **state)
{
    (void)state;
    assert_int_equal(length("\x00", 1), 1);
    assert_int_equal(length("\x7f", 1), 1);
    assert_int_equal(length("\xc2\x80", 2), 2);
    assert_int_equal(length("\xdf\xbf", 2), 2);
    assert_int_equal(length("\xe0\xa0\x80", 3), 3);
    assert_int_equal(length("\xed\x9f\xbf", 3), 3);
    assert_int_equal(length("\xee\x80\x80", 3), 3);
    assert_int_equal(length("\xef\xbf\xbf", 3), 3);
    assert_int_equal(length("\xf0\x90\x80\x80", 4), 4);
    assert_int_equal(length("\xf4\x8f\xbf\xbf", 4), 4);
    assert_int_equal(length("\xc3\xa9rest", 6), 2);
}

static void
what_is_no_character_has_no_length(void **state)
{
    (void)state;
    assert_int_equal(length("", 0), 0);
    assert_int_equal(length("\x80", 1), 0);             /* from the middle */
    assert_int_equal(length("\xc1\xbf", 2), 0);         /* U+007F in two */
    assert_int_equal(length("\xe0\x9f\xbf", 3), 0);     /* U+07FF in three */
    assert_int_equal(length("\xf0\x8f\xbf\xbf", 4), 0); /* U+FFFF in four */
    assert_int_equal(length("\xed\xa0\x80", 3), 0);     /* a surrogate */
    assert_int_equal(length("\xf4\x90\x80\x80", 4), 0); /* above U+10FFFF */
    assert_int_equal(length("\xf5\x80\x80\x80", 4), 0);
    assert_int_equal(length("\xff", 1), 0);
    assert_int_equal(length("\xe9 ", 2), 0);     /* e acute of ISO 8859-1 */
    assert_int_equal(length("\xe2\x82 ", 3), 0); /* the third byte is none */
    assert_int_equal(length("\xe2\x82", 2), 0);  /* cut off */
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(characters_have_one_to_four_bytes),
        cmocka_unit_test(what_is_no_character_has_no_length),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
