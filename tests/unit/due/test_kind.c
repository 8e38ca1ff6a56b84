/* Reading one interval of the fleet file, in every form there is. */
#include "arena.h"
#include "buf.h"
#include "days.h"
#include "kind.h"
#include "scan.h"
#include "test.h"

static int
setup(void **state)
{
    *state = arena_new();
    return *state == NULL ? -1 : 0;
}

static int
teardown(void **state)
{
    arena_free(*state);
    return 0;
}

/* All of @text is one interval. */
static struct interval
read_interval(void **state, const char *text)
{
    struct scan s = scan_start(text);
    struct interval out = {.kind = NULL};

    if (kind_parse(&s, *state, &out) != 0 || !scan_end(&s))
        fail_msg("not read: %s", text);
    assert_non_null(out.kind);
    return out;
}

/* Nothing is taken of @text, or something is left over. */
static void
assert_refused(void **state, const char *text)
{
    struct scan s = scan_start(text);
    struct interval out = {.amount = 77};

    if (kind_parse(&s, *state, &out) == 0) {
        if (scan_end(&s))
            fail_msg("read: %s", text);
        return;
    }
    assert_ptr_equal(s.at, text);
    assert_int_equal(out.amount, 77);
}

static void
assert_length(void **state, const char *text, int n, enum step_unit unit)
{
    struct interval i = read_interval(state, text);

    assert_int_equal(i.span.n, n);
    assert_int_equal(i.span.unit, unit);
    assert_int_equal(kind_meter(&i), METER_NONE);
    assert_false(kind_is_calendar_rule(&i));
    assert_string_equal(i.text, text);
}

static void
lengths_of_time(void **state)
{
    assert_length(state, "1 day", 1, STEP_DAYS);
    assert_length(state, "90 days", 90, STEP_DAYS);
    assert_length(state, "1 week", 1, STEP_WEEKS);
    assert_length(state, "6 weeks", 6, STEP_WEEKS);
    assert_length(state, "1 month", 1, STEP_MONTHS);
    assert_length(state, "24 Months", 24, STEP_MONTHS);
    assert_length(state, "1 year", 1, STEP_YEARS);
    assert_length(state, "6 years", 6, STEP_YEARS);
}

static void
lengths_that_are_none(void **state)
{
    assert_refused(state, "");
    assert_refused(state, "12");
    assert_refused(state, "months");
    assert_refused(state, "0 days");
    assert_refused(state, "-1 days");
    assert_refused(state, "1.5 years");
    assert_refused(state, "12months");
    assert_refused(state, "12 moons");
    assert_refused(state, "100001 days");
    assert_refused(state, "99999999999999999999 days");
    assert_refused(state, "6 weeks 2 days");
}

static void
distances(void **state)
{
    struct interval i = read_interval(state, "20000 km");

    assert_int_equal(i.amount, 20000);
    assert_int_equal(i.unit, UNIT_KM);
    assert_int_equal(kind_meter(&i), METER_DISTANCE);
    i = read_interval(state, "12000 miles");
    assert_int_equal(i.amount, 12000);
    assert_int_equal(i.unit, UNIT_MILES);
    i = read_interval(state, "1 mile");
    assert_int_equal(i.unit, UNIT_MILES);
    assert_false(kind_is_calendar_rule(&i));
    assert_refused(state, "0 km");
    assert_refused(state, "-5 km");
    assert_refused(state, "20,000 km");
    assert_refused(state, "20000 kilometres");
    assert_refused(state, "2000001 km");
}

static void
running_hours(void **state)
{
    struct interval i = read_interval(state, "250 hours");

    assert_int_equal(i.amount, 250);
    assert_int_equal(kind_meter(&i), METER_HOURS);
    i = read_interval(state, "1 hour");
    assert_int_equal(i.amount, 1);
    assert_refused(state, "0 hours");
}

static void
a_date_in_each_year(void **state)
{
    struct interval i = read_interval(state, "yearly on 1 nov");

    assert_int_equal(i.day, 1);
    assert_int_equal(i.month, 11);
    assert_true(kind_is_calendar_rule(&i));
    assert_int_equal(kind_meter(&i), METER_NONE);
    i = read_interval(state, "Yearly on 31 December");
    assert_int_equal(i.day, 31);
    assert_int_equal(i.month, 12);
    i = read_interval(state, "yearly on 29 feb");
    assert_int_equal(i.day, 29);
    assert_int_equal(i.month, 2);
    i = read_interval(state, "yearly on 3 may");
    assert_int_equal(i.month, 5);
    i = read_interval(state, "yearly on 30 september");
    assert_int_equal(i.month, 9);
}

static void
dates_that_no_year_has(void **state)
{
    assert_refused(state, "yearly on 30 feb");
    assert_refused(state, "yearly on 31 apr");
    assert_refused(state, "yearly on 32 dec");
    assert_refused(state, "yearly on 0 dec");
    assert_refused(state, "yearly on nov 1");
    assert_refused(state, "yearly on 1");
    assert_refused(state, "yearly");
    assert_refused(state, "yearly 1 nov");
}

/* RFC 5545 writes lists with commas: they belong to the rule. */
static void
recurrence_rules(void **state)
{
    struct interval i =
        read_interval(state, "rule FREQ=MONTHLY;BYDAY=-1FR from 2026-01-30");

    assert_string_equal(i.recurrence, "FREQ=MONTHLY;BYDAY=-1FR");
    assert_day(i.from, "2026-01-30");
    assert_true(kind_is_calendar_rule(&i));
    i = read_interval(state, "rule FREQ=WEEKLY;BYDAY=TU,TH from 2026-01-01");
    assert_string_equal(i.recurrence, "FREQ=WEEKLY;BYDAY=TU,TH");
    assert_string_equal(i.text, "rule FREQ=WEEKLY;BYDAY=TU,TH from 2026-01-01");
}

static void
recurrence_rules_that_are_none(void **state)
{
    assert_refused(state, "rule");
    assert_refused(state, "rule FREQ=MONTHLY");
    assert_refused(state, "rule FREQ=MONTHLY from");
    assert_refused(state, "rule FREQ=MONTHLY from 2026-02-30");
    assert_refused(state, "rule FREQ=MONTHLY from 2026-1-30");
    assert_refused(state, "rule FREQ=MONTHLY from 2026-01-30T10");
    assert_refused(state, "rule BYDAY=MO from 2026-01-30");
    assert_refused(state, "rule FREQ=FORTNIGHTLY from 2026-01-30");
    assert_refused(state, "rule FREQ=WEEKLY;BYDAY=XX from 2026-01-30");
    assert_refused(state, "rule FREQ=WEEKLY;INTERVAL=0 from 2026-01-30");
    assert_refused(state, "rule FREQ=WEEKLY;INTERVAL=x from 2026-01-30");
    assert_refused(state, "rule FREQ=MONTHLY;BYMONTHDAY=32 from 2026-01-30");
    assert_refused(state, "rule FREQ=WEEKLY;EVERY=2 from 2026-01-30");
    assert_refused(state, "rule FREQ=HOURLY from 2026-01-30");
}

static void
so_many_within_a_length(void **state)
{
    struct interval i = read_interval(state, "4 within 12 months");

    assert_int_equal(i.amount, 4);
    assert_int_equal(i.span.n, 12);
    assert_int_equal(i.span.unit, STEP_MONTHS);
    assert_int_equal(kind_meter(&i), METER_NONE);
    assert_refused(state, "1 within 12 months");
    assert_refused(state, "4 within");
    assert_refused(state, "4 within 0 months");
    assert_refused(state, "4 within 12");
    assert_refused(state, "401 within 12 months");
}

static void
when_needed(void **state)
{
    struct interval i = read_interval(state, "when needed");

    assert_int_equal(kind_meter(&i), METER_NONE);
    assert_refused(state, "when");
    assert_refused(state, "needed");
}

static void
one_interval_ends_at_or(void **state)
{
    struct scan s = scan_start("12 months or 20000 km or 500 hours");
    struct interval i;

    assert_int_equal(kind_parse(&s, *state, &i), 0);
    assert_string_equal(i.text, "12 months");
    assert_true(scan_word(&s, "or"));
    assert_int_equal(kind_parse(&s, *state, &i), 0);
    assert_string_equal(i.text, "20000 km");
    assert_true(scan_word(&s, "or"));
    assert_int_equal(kind_parse(&s, *state, &i), 0);
    assert_string_equal(i.text, "500 hours");
    assert_true(scan_end(&s));
}

/* What is offered when nothing fits: one form a kind, none twice. */
static void
every_kind_shows_its_form(void **state)
{
    size_t n = 0;

    (void)state;
    while (kind_form(n) != NULL) {
        assert_true(strlen(kind_form(n)) > 3);
        for (size_t i = 0; i < n; i++)
            assert_string_not_equal(kind_form(i), kind_form(n));
        n++;
    }
    assert_int_equal(n, 7);
}

/* What a kind prints it would also read, and nothing is left out. */
static void
printed_in_words_that_are_read_back(void **state)
{
    static const char *const pairs[][2] = {
        {"24 Months", "24 months"},
        {"4 within 12 months", "4 within 12 months"},
        {"4 within 12 months, apart 4 months",
            "4 within 12 months, apart 4 months"},
        {"20000 KM", "20000 km"},
        {"1 mile", "1 miles"},
        {"250 hours", "250 hours"},
        {"yearly on 29 February", "yearly on 29 feb"},
        {"rule FREQ=MONTHLY;BYDAY=-1FR from 2026-01-30",
            "rule FREQ=MONTHLY;BYDAY=-1FR from 2026-01-30"},
        {"when  needed", "when needed"},
    };

    for (size_t i = 0; i < sizeof pairs / sizeof *pairs; i++) {
        struct buf *out = buf_new();
        struct interval written = read_interval(state, pairs[i][0]);
        kind_print(&written, out);
        assert_string_equal(buf_str(out), pairs[i][1]);
        struct interval again = read_interval(state, buf_str(out));
        assert_ptr_equal(again.kind, written.kind);
        buf_free(out);
    }
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(lengths_of_time),
        cmocka_unit_test(lengths_that_are_none),
        cmocka_unit_test(distances),
        cmocka_unit_test(running_hours),
        cmocka_unit_test(a_date_in_each_year),
        cmocka_unit_test(dates_that_no_year_has),
        cmocka_unit_test(recurrence_rules),
        cmocka_unit_test(recurrence_rules_that_are_none),
        cmocka_unit_test(so_many_within_a_length),
        cmocka_unit_test(when_needed),
        cmocka_unit_test(one_interval_ends_at_or),
        cmocka_unit_test(every_kind_shows_its_form),
        cmocka_unit_test(printed_in_words_that_are_read_back),
    };

    return cmocka_run_group_tests(tests, setup, teardown);
}
