#include <stdio.h>
#include <string.h>

#include "http_form.h"
#include "test.h"

static void
a_form_as_browsers_send_it(void **state)
{
    static const char body[] =
        "job=Brakes+%26+lamps&by=R.+T%C3%A9al&note=&reading=48210&more"
        "&job=second&a%3Db=c%3dd&lines=one%0D%0Atwo";
    struct http_form *f = http_form_read(body, sizeof body - 1);

    (void)state;
    assert_non_null(f);
    assert_string_equal(http_form_value(f, "job"), "Brakes & lamps");
    assert_string_equal(http_form_value(f, "by"), "R. T\xc3\xa9"
                                                  "al");
    assert_string_equal(http_form_value(f, "note"), "");
    assert_string_equal(http_form_value(f, "reading"), "48210");
    assert_string_equal(http_form_value(f, "more"), "");
    assert_string_equal(http_form_value(f, "a=b"), "c=d");
    assert_string_equal(http_form_value(f, "lines"), "one\r\ntwo");
    assert_null(http_form_value(f, "absent"));
    assert_null(http_form_value(f, "JOB"));
    http_form_free(f);
}

static void
an_empty_form_has_no_fields(void **state)
{
    static const char *const bodies[] = {"", "&", "&&&"};

    (void)state;
    for (size_t i = 0; i < 3; i++) {
        struct http_form *f = http_form_read(bodies[i], strlen(bodies[i]));
        assert_non_null(f);
        assert_null(http_form_value(f, ""));
        http_form_free(f);
    }
    http_form_free(NULL);
}

/* Half an escape, no escape, NUL, controls, and what is no UTF-8: a lone
 * middle, a form longer than needed, a surrogate. */
static void
what_no_browser_sends_is_refused(void **state)
{
    static const char *const bodies[] = {"a=%", "a=%2", "a=%zz", "a=%2g", "%=a",
        "a=%00", "%00=a", "a=b%00c", "a=%01", "a=%7f", "a=\x1b", "a=%80",
        "a=%c0%80", "a=%ed%a0%80", "a=%ff", "a=%c3", "a=b&c=%"};

    (void)state;
    for (size_t i = 0; i < sizeof bodies / sizeof *bodies; i++)
        if (http_form_read(bodies[i], strlen(bodies[i])) != NULL)
            fail_msg("'%s' is not refused", bodies[i]);
    assert_null(http_form_read("a=b\0c=d", 7));
    assert_null(http_form_read("a=b\0", 4));
}

static void
fields_are_counted(void **state)
{
    char body[401 * 3 + 1] = "";
    struct http_form *f;

    (void)state;
    for (int i = 0; i < 401; i++)
        strcat(body, "a=&");
    f = http_form_read(body, 400 * 3);
    assert_non_null(f);
    http_form_free(f);
    assert_null(http_form_read(body, 401 * 3));
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_form_as_browsers_send_it),
        cmocka_unit_test(an_empty_form_has_no_fields),
        cmocka_unit_test(what_no_browser_sends_is_refused),
        cmocka_unit_test(fields_are_counted),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
