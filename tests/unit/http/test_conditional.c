#include "conditional.h"
#include "etag.h"
#include "test.h"

/* The table of RFC 9110, section 8.8.3.2, for a strong tag on our side. */
static void
strong_and_weak_comparison(void **state)
{
    (void)state;
    assert_true(etag_listed("\"1\"", "\"1\"", 1));
    assert_true(etag_listed("\"1\"", "\"1\"", 0));
    assert_true(etag_listed("W/\"1\"", "\"1\"", 1));
    assert_false(etag_listed("W/\"1\"", "\"1\"", 0));
    assert_false(etag_listed("\"2\"", "\"1\"", 1));
    assert_false(etag_listed("W/\"2\"", "\"1\"", 1));
}

static void
lists(void **state)
{
    static const char *const there[] = {"*", " * ", "\"x\", \"a\"",
        "\"a\",\"x\"", "W/\"x\" , W/\"a\"", ", ,\"a\",", "\"x\",\t\"a\"",
        "\"x,y\", \"a\"", "\"\", \"a\""};
    static const char *const absent[] = {"", "a", "\"a", "a\"", "\"x\"",
        "\"x\" \"a\"", "\"xa\"", "\"a \"", "\"A\"", "w/\"a\"", "* \"a\"",
        "W/ \"a\"", "\"b\", x, \"a\"", "\"x\\\"a\"", "**"};

    (void)state;
    for (size_t i = 0; i < sizeof there / sizeof *there; i++)
        assert_true(etag_listed(there[i], "\"a\"", 1));
    for (size_t i = 0; i < sizeof absent / sizeof *absent; i++)
        assert_false(etag_listed(absent[i], "\"a\"", 1));
}

#define OLDER "Sun, 06 Nov 1994 08:49:36 GMT"
#define SAME "Sun, 06 Nov 1994 08:49:37 GMT"
#define NEWER "Sun, 06 Nov 1994 08:49:38 GMT"

struct asked {
    const char *fields[4][2];
    enum conditional_answer answer;
};

/* What RFC 9110, section 13.2.2, has a server do, for the tag "a" of
 * 1994-11-06T08:49:37Z. */
static const struct asked table[] = {
    {{{"Host", "x"}}, CONDITIONAL_SEND},
    {{{"If-None-Match", "\"a\""}}, CONDITIONAL_SAME},
    {{{"if-none-match", "\"b\", W/\"a\""}}, CONDITIONAL_SAME},
    {{{"If-None-Match", "*"}}, CONDITIONAL_SAME},
    {{{"If-None-Match", "\"b\""}}, CONDITIONAL_SEND},
    /* Two lines are one list, in either order. */
    {{{"If-None-Match", "\"b\""}, {"If-None-Match", "\"a\""}},
        CONDITIONAL_SAME},
    {{{"If-None-Match", "\"a\""}, {"If-None-Match", "\"b\""}},
        CONDITIONAL_SAME},
    {{{"If-Modified-Since", SAME}}, CONDITIONAL_SAME},
    {{{"If-Modified-Since", NEWER}}, CONDITIONAL_SAME},
    {{{"If-Modified-Since", OLDER}}, CONDITIONAL_SEND},
    {{{"If-Modified-Since", "soon"}}, CONDITIONAL_SEND},
    {{{"If-Modified-Since", "1994-11-07"}}, CONDITIONAL_SEND},
    /* The tag beats the date, whichever comes first. */
    {{{"If-None-Match", "\"b\""}, {"If-Modified-Since", NEWER}},
        CONDITIONAL_SEND},
    {{{"If-Modified-Since", NEWER}, {"If-None-Match", "\"b\""}},
        CONDITIONAL_SEND},
    {{{"If-None-Match", "\"a\""}, {"If-Modified-Since", OLDER}},
        CONDITIONAL_SAME},
    {{{"If-Match", "\"a\""}}, CONDITIONAL_SEND},
    {{{"If-Match", "*"}}, CONDITIONAL_SEND},
    {{{"If-Match", "\"b\""}}, CONDITIONAL_FAILED},
    {{{"If-Match", "W/\"a\""}}, CONDITIONAL_FAILED},
    {{{"If-Match", "\"b\""}, {"If-None-Match", "\"a\""}}, CONDITIONAL_FAILED},
    {{{"If-Match", "\"a\""}, {"If-None-Match", "\"a\""}}, CONDITIONAL_SAME},
    {{{"If-Unmodified-Since", OLDER}}, CONDITIONAL_FAILED},
    {{{"If-Unmodified-Since", SAME}}, CONDITIONAL_SEND},
    {{{"If-Unmodified-Since", "soon"}}, CONDITIONAL_SEND},
    {{{"If-Match", "\"a\""}, {"If-Unmodified-Since", OLDER}}, CONDITIONAL_SEND},
};

static enum conditional_answer
ask(const struct asked *a, int64_t modified)
{
    struct conditional c;

    conditional_start(&c, "\"a\"", modified);
    for (int i = 0; i < 4 && a->fields[i][0] != NULL; i++)
        conditional_field(&c, a->fields[i][0], a->fields[i][1]);
    return conditional_decide(&c);
}

static void
what_the_rfc_decides(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof table / sizeof *table; i++)
        if (ask(&table[i], 784111777) != table[i].answer)
            fail_msg("row %zu", i);
}

/* Without a Last-Modified there is nothing to compare a date with. */
static void
dates_ask_nothing_where_none_is_told(void **state)
{
    static const struct asked since = {
        {{"If-Modified-Since", NEWER}}, CONDITIONAL_SEND};
    static const struct asked unmodified = {
        {{"If-Unmodified-Since", OLDER}}, CONDITIONAL_SEND};

    (void)state;
    assert_int_equal(ask(&since, 0), CONDITIONAL_SEND);
    assert_int_equal(ask(&unmodified, 0), CONDITIONAL_SEND);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(strong_and_weak_comparison),
        cmocka_unit_test(lists),
        cmocka_unit_test(what_the_rfc_decides),
        cmocka_unit_test(dates_ask_nothing_where_none_is_told),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
