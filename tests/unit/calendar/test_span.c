/* Lengths of time as people write them. */
#include <stdio.h>

#include "scan.h"
#include "span.h"
#include "test.h"

static void
spans_are_read_in_either_number(void **state)
{
    static const struct {
        const char *text;
        struct span span;
    } spans[] = {
        {"6 weeks", {6, STEP_WEEKS}},
        {"1 month", {1, STEP_MONTHS}},
        {"1 months", {1, STEP_MONTHS}},
        {"0 days", {0, STEP_DAYS}},
        {"12 month", {12, STEP_MONTHS}},
        {" 2\tYears ", {2, STEP_YEARS}},
        {"1 day", {1, STEP_DAYS}},
        {"100000 days", {SPAN_MOST, STEP_DAYS}},
    };

    (void)state;
    for (size_t i = 0; i < sizeof spans / sizeof *spans; i++) {
        struct scan s = scan_start(spans[i].text);
        struct span got = {-1, STEP_DAYS};
        assert_true(span_scan(&s, &got));
        assert_int_equal(got.n, spans[i].span.n);
        assert_int_equal(got.unit, spans[i].span.unit);
        assert_true(scan_end(&s));
    }
}

static void
what_is_no_span_is_not_taken(void **state)
{
    static const char *const wrong[] = {"", "6", "weeks", "six weeks",
        "-1 days", "100001 days", "6weeks", "6 working days", "1.5 months",
        "6, weeks", "20000 km"};

    (void)state;
    for (size_t i = 0; i < sizeof wrong / sizeof *wrong; i++) {
        struct scan s = scan_start(wrong[i]);
        struct span got = {-1, STEP_DAYS};
        if (span_scan(&s, &got))
            fail_msg("'%s' was read as a span", wrong[i]);
        assert_int_equal(got.n, -1);
        assert_ptr_equal(s.at, wrong[i]);
    }
}

static void
a_span_leaves_what_follows(void **state)
{
    struct scan s = scan_start("12 months or 20000 km");
    struct span got;

    (void)state;
    assert_true(span_scan(&s, &got));
    assert_true(scan_word(&s, "or"));
}

static void
spans_are_written_as_people_say_them(void **state)
{
    char out[SPAN_TEXT];

    (void)state;
    assert_string_equal(
        span_text((struct span){6, STEP_WEEKS}, out), "6 weeks");
    assert_string_equal(span_text((struct span){1, STEP_WEEKS}, out), "1 week");
    assert_string_equal(span_text((struct span){1, STEP_DAYS}, out), "1 day");
    assert_string_equal(span_text((struct span){1, STEP_YEARS}, out), "1 year");
    assert_string_equal(
        span_text((struct span){1, STEP_MONTHS}, out), "1 month");
    assert_string_equal(span_text((struct span){0, STEP_DAYS}, out), "0 days");
    assert_string_equal(
        span_text((struct span){24, STEP_MONTHS}, out), "24 months");
    assert_string_equal(span_text((struct span){-2147483647, STEP_MONTHS}, out),
        "-2147483647 months");
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(spans_are_read_in_either_number),
        cmocka_unit_test(what_is_no_span_is_not_taken),
        cmocka_unit_test(a_span_leaves_what_follows),
        cmocka_unit_test(spans_are_written_as_people_say_them),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
