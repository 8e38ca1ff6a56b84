#include <string.h>

#include "suggest.h"
#include "test.h"

static const char *
guess(const char *word)
{
    static const char *const known[] = {
        "calendar", "carried-by", "class", "closed", "depot", "every", "works"};
    struct suggest n = suggest_start(word);

    for (size_t i = 0; i < sizeof known / sizeof *known; i++)
        suggest_offer(&n, known[i]);
    return suggest_best(&n);
}

static void
a_slip_finds_its_word(void **state)
{
    (void)state;
    assert_string_equal(guess("calender"), "calendar"); /* a wrong letter */
    assert_string_equal(guess("calndar"), "calendar");  /* one left out */
    assert_string_equal(guess("evvery"), "every");      /* one too many */
    assert_string_equal(guess("carreid-by"), "carried-by");
    assert_string_equal(guess("DEPOT"), "depot");
    assert_string_equal(guess("works"), "works");
    assert_string_equal(guess("work"), "works");
}

/* "close" is one letter from "closed" and two from "class". */
static void
the_closest_word_wins(void **state)
{
    (void)state;
    assert_string_equal(guess("close"), "closed");
    assert_string_equal(guess("clas"), "class");
}

static void
another_word_finds_nothing(void **state)
{
    (void)state;
    assert_null(guess("holidays"));
    assert_null(guess("xyzzy"));
    assert_null(guess(""));
}

/* Levenshtein's own yardstick: kitten and sitting are three apart, which is
 * the most that six letters forgive. */
static void
a_third_of_the_letters_may_be_wrong(void **state)
{
    struct suggest n = suggest_start("kitten");

    (void)state;
    suggest_offer(&n, "sitting");
    assert_string_equal(suggest_best(&n), "sitting");
    n = suggest_start("kitten");
    suggest_offer(&n, "sittings");
    assert_null(suggest_best(&n));
}

static void
words_beyond_measure_are_passed_over(void **state)
{
    char longest[64];
    char longer[65];

    (void)state;
    memset(longest, 'a', 63);
    longest[63] = '\0';
    memset(longer, 'a', 64);
    longer[64] = '\0';
    struct suggest n = suggest_start(longest);
    suggest_offer(&n, longer);
    assert_null(suggest_best(&n));
    suggest_offer(&n, longest);
    assert_ptr_equal(suggest_best(&n), longest);
    n = suggest_start(longer);
    suggest_offer(&n, longest);
    assert_null(suggest_best(&n));
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_slip_finds_its_word),
        cmocka_unit_test(the_closest_word_wins),
        cmocka_unit_test(another_word_finds_nothing),
        cmocka_unit_test(a_third_of_the_letters_may_be_wrong),
        cmocka_unit_test(words_beyond_measure_are_passed_over),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
