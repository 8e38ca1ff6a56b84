#include <string.h>

#include "buf.h"
#include "problem.h"
#include "test.h"

static int
setup(void **state)
{
    *state = problems_new();
    return *state == NULL;
}

static int
teardown(void **state)
{
    problems_free(*state);
    return 0;
}

static void
assert_printed(struct problems *ps, const char *want)
{
    struct buf *out = buf_new();

    assert_non_null(out);
    problems_print(ps, 1, out);
    assert_string_equal(buf_str(out), want);
    buf_free(out);
}

static void
no_problem_prints_nothing(void **state)
{
    assert_int_equal(problems_count(*state, PROBLEM_ERROR), 0);
    assert_int_equal(problems_count(*state, PROBLEM_WARNING), 0);
    assert_printed(*state, "");
    problems_free(NULL);
}

/* They come in any order and are shown as one would read the files; those of
 * one line stay as they came. */
static void
problems_are_shown_by_file_and_line(void **state)
{
    struct problems *ps = *state;
    int fleet = problems_file(ps, "fleet.conf");
    int rules = problems_file(ps, "rules.d/uk.conf");

    problems_add(ps, PROBLEM_ERROR, (struct place){rules, 2}, "no job '%s'",
        "anual-test");
    problems_add(ps, PROBLEM_WARNING, (struct place){fleet, 30}, "b");
    problems_add(ps, PROBLEM_ERROR, (struct place){fleet, 30}, "a");
    problems_add(ps, PROBLEM_ERROR, (struct place){fleet, 4}, "c");
    problems_add(ps, PROBLEM_ERROR, (struct place){fleet, 0}, "unreadable");
    assert_printed(ps, "fleet.conf: error: unreadable\n"
                       "fleet.conf:4: error: c\n"
                       "fleet.conf:30: warning: b\n"
                       "fleet.conf:30: error: a\n"
                       "rules.d/uk.conf:2: error: no job 'anual-test'\n");
    assert_int_equal(problems_count(ps, PROBLEM_ERROR), 4);
    assert_int_equal(problems_count(ps, PROBLEM_WARNING), 1);
}

static void
a_file_keeps_its_number_and_name(void **state)
{
    struct problems *ps = *state;
    char name[] = "a.conf";
    int a = problems_file(ps, name);

    name[0] = 'b';
    int b = problems_file(ps, name);
    for (int i = 0; i < 50; i++) {
        char other[] = "0.conf";
        other[0] = (char)('0' + i);
        problems_file(ps, other);
    }
    assert_int_not_equal(a, b);
    assert_int_equal(problems_file(ps, "a.conf"), a);
    assert_int_equal(problems_file(ps, "b.conf"), b);
    assert_string_equal(problems_name(ps, a), "a.conf");
    assert_string_equal(problems_name(ps, b), "b.conf");
    assert_string_equal(problems_name(ps, -1), "");
    assert_string_equal(problems_name(ps, 999), "");
}

static void
many_problems_are_all_kept(void **state)
{
    struct problems *ps = *state;
    int file = problems_file(ps, "f");

    for (int line = 1000; line > 0; line--)
        problems_add(
            ps, PROBLEM_ERROR, (struct place){file, line}, "n%d", line);
    assert_int_equal(problems_count(ps, PROBLEM_ERROR), 1000);
    struct buf *out = buf_new();
    assert_non_null(out);
    problems_print(ps, 1, out);
    const char *at = buf_str(out);
    assert_int_equal(strncmp(at, "f:1: error: n1\nf:2: error: n2\n", 30), 0);
    assert_non_null(strstr(at, "\nf:999: error: n999\nf:1000: error: n1000\n"));
    buf_free(out);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(
            no_problem_prints_nothing, setup, teardown),
        cmocka_unit_test_setup_teardown(
            problems_are_shown_by_file_and_line, setup, teardown),
        cmocka_unit_test_setup_teardown(
            a_file_keeps_its_number_and_name, setup, teardown),
        cmocka_unit_test_setup_teardown(
            many_problems_are_all_kept, setup, teardown),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
