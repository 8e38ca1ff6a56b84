#include <string.h>

#include "scan.h"
#include "test.h"

static const char *const units[] = {"day", "week", "month", NULL};

static void
a_value_is_read_word_by_word(void **state)
{
    struct scan s = scan_start("  12 months\tor\n20000 KM ");
    int64_t n;

    (void)state;
    assert_true(scan_number(&s, 1, 999, &n));
    assert_int_equal(n, 12);
    assert_false(scan_word(&s, "month")); /* the whole word, or nothing */
    assert_false(scan_word(&s, "monthsx"));
    assert_true(scan_word(&s, "months"));
    assert_true(scan_word(&s, "or"));
    assert_false(scan_number(&s, 1, 999, &n)); /* too large: not taken */
    assert_true(scan_number(&s, 1, 99999, &n));
    assert_int_equal(n, 20000);
    assert_false(scan_end(&s));
    assert_true(scan_word(&s, "km"));
    assert_true(scan_end(&s));
}

static void
commas_and_colons_stand_alone(void **state)
{
    struct scan s = scan_start("1 jan,substitute: x");
    char word[16];

    (void)state;
    assert_true(scan_word(&s, "1"));
    assert_true(scan_any(&s, word, sizeof word));
    assert_string_equal(word, "jan");
    assert_true(scan_word(&s, ","));
    assert_true(scan_word(&s, "substitute"));
    assert_true(scan_any(&s, word, sizeof word));
    assert_string_equal(word, ":");
    assert_true(scan_word(&s, "x"));
    assert_true(scan_end(&s));
}

static void
a_number_is_a_whole_word(void **state)
{
    struct scan s = scan_start("12km -3");
    int64_t n = 5;

    (void)state;
    assert_false(scan_number(&s, 0, 99, &n));
    assert_int_equal(n, 5);
    assert_true(scan_word(&s, "12km"));
    assert_true(scan_number(&s, -9, 0, &n));
    assert_int_equal(n, -3);
}

static void
a_word_that_does_not_fit_stays(void **state)
{
    struct scan s = scan_start("week");
    char word[5] = "";

    (void)state;
    assert_false(scan_any(&s, word, 4));
    assert_true(scan_any(&s, word, 5));
    assert_string_equal(word, "week");
    assert_false(scan_any(&s, word, 5));
}

static void
a_choice_is_its_place_in_the_list(void **state)
{
    struct scan s = scan_start("Week day year");

    (void)state;
    assert_int_equal(scan_choice(&s, units), 1);
    assert_int_equal(scan_choice(&s, units), 0);
    assert_int_equal(scan_choice(&s, units), -1);
    assert_true(scan_word(&s, "year"));
    assert_int_equal(scan_choice(&s, units), -1);
}

static void
the_rest_is_taken_without_its_blanks(void **state)
{
    struct scan s = scan_start("2026-06-15  Regatta day, all: shut \t ");
    size_t len;

    (void)state;
    assert_true(scan_word(&s, "2026-06-15"));
    const char *rest = scan_rest(&s, &len);
    assert_int_equal(len, strlen("Regatta day, all: shut"));
    assert_memory_equal(rest, "Regatta day, all: shut", len);
    assert_true(scan_end(&s));
    scan_rest(&s, &len);
    assert_int_equal(len, 0);
}

static void
peeking_takes_nothing(void **state)
{
    struct scan s = scan_start(" \r\n easter -2");
    size_t len;

    (void)state;
    assert_memory_equal(scan_peek(&s, &len), "easter", 6);
    assert_int_equal(len, 6);
    assert_memory_equal(scan_peek(&s, &len), "easter", 6);
    s = scan_start(" ");
    scan_peek(&s, &len);
    assert_int_equal(len, 0);
    assert_true(scan_end(&s));
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_value_is_read_word_by_word),
        cmocka_unit_test(commas_and_colons_stand_alone),
        cmocka_unit_test(a_number_is_a_whole_word),
        cmocka_unit_test(a_word_that_does_not_fit_stays),
        cmocka_unit_test(a_choice_is_its_place_in_the_list),
        cmocka_unit_test(the_rest_is_taken_without_its_blanks),
        cmocka_unit_test(peeking_takes_nothing),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
