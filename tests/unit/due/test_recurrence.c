/* RFC 5545 recurrence rules as deadlines; the dates are read off a calendar by
 * the rules of its section 3.3.10. */
#include "fixture.h"
#include "test.h"

/* The first @n deadlines of @rule, as one after another is met on its day. */
static void
assert_series(
    struct world *w, const char *rule, size_t n, const char *const *days)
{
    struct job *j = world_job(w, "round", rule);

    w->n_records = 0;
    j->rule.first =
        (struct first){.origin = ORIGIN_ON, .on = j->rule.every[0].from};
    for (size_t i = 0; i < n; i++) {
        const struct due *d = world_due(w, j, "2026-01-01");
        assert_reasoned(d);
        assert_day(d->deadline, days[i]);
        if (strcmp(days[i], "-") != 0)
            world_done(w, j, days[i]);
    }
}

#define ASSERT_SERIES(w, rule, ...)                                            \
    do {                                                                       \
        const char *const days_[] = {__VA_ARGS__};                             \
        assert_series((w), (rule), sizeof days_ / sizeof *days_, days_);       \
    } while (0)

static void
the_last_friday_of_the_month(void **state)
{
    ASSERT_SERIES(*state, "rule FREQ=MONTHLY;BYDAY=-1FR from 2026-01-30",
        "2026-01-30", "2026-02-27", "2026-03-27", "2026-04-24", "2026-05-29");
}

static void
every_other_tuesday_and_thursday(void **state)
{
    ASSERT_SERIES(*state,
        "rule FREQ=WEEKLY;INTERVAL=2;BYDAY=TU,TH from 2026-01-06", "2026-01-06",
        "2026-01-08", "2026-01-20", "2026-01-22", "2026-02-03", "2026-02-05");
}

/* RFC 5545, section 3.3.10: an invalid date is ignored, not moved. */
static void
the_31st_is_skipped_where_there_is_none(void **state)
{
    ASSERT_SERIES(*state, "rule FREQ=MONTHLY from 2026-01-31", "2026-01-31",
        "2026-03-31", "2026-05-31", "2026-07-31", "2026-08-31");
}

/* RFC 7529: with SKIP=BACKWARD the last day of the month instead. */
static void
the_31st_is_moved_back_when_asked(void **state)
{
    ASSERT_SERIES(*state,
        "rule RSCALE=GREGORIAN;FREQ=MONTHLY;SKIP=BACKWARD from 2026-01-31",
        "2026-01-31", "2026-02-28", "2026-03-31", "2026-04-30");
}

static void
a_rule_that_counts_comes_to_an_end(void **state)
{
    ASSERT_SERIES(*state, "rule FREQ=MONTHLY;COUNT=3 from 2026-01-15",
        "2026-01-15", "2026-02-15", "2026-03-15", "-");
}

static void
a_rule_that_runs_until_a_day(void **state)
{
    ASSERT_SERIES(*state, "rule FREQ=WEEKLY;UNTIL=20260120 from 2026-01-06",
        "2026-01-06", "2026-01-13", "2026-01-20", "-");
}

/* 30 February never comes, and a start that is no day of its rule leaves the
 * days undefined (RFC 5545, 3.8.5.3): both are refused. */
static void
a_rule_that_does_not_hit_its_start(void **state)
{
    static const char *const texts[] = {
        "rule FREQ=YEARLY;BYMONTH=2;BYMONTHDAY=30 from 2026-01-01",
        "rule FREQ=WEEKLY;INTERVAL=2;BYDAY=SU from 2024-02-28",
    };
    struct world *w = *state;

    for (size_t i = 0; i < sizeof texts / sizeof *texts; i++) {
        struct scan s = scan_start(texts[i]);
        struct interval found;
        assert_int_equal(kind_parse(&s, w->arena, &found), -1);
    }
}

/* The first Monday of a week numbered 1 or 27, by a calendar of ISO weeks: week
 * 27 of 2026 begins on 29 June, week 1 of 2027 on 4 January. */
static void
weeks_by_their_number(void **state)
{
    struct world *w = *state;
    struct job *j = world_job(
        w, "round", "rule FREQ=YEARLY;BYWEEKNO=1,27;BYDAY=MO from 2023-01-02");
    struct record *k = world_done(w, j, "2026-04-24");

    assert_deadline(w, j, "2026-06-29");
    k->day = date("2026-06-29");
    assert_deadline(w, j, "2027-01-04");
}

/* Examples of RFC 5545, section 3.8.5.3, with the days that it gives. */
static void
the_examples_of_the_standard(void **state)
{
    ASSERT_SERIES(*state, "rule FREQ=YEARLY;BYMONTH=1;BYDAY=SU from 1998-01-04",
        "1998-01-04", "1998-01-11", "1998-01-18", "1998-01-25", "1999-01-03");
    ASSERT_SERIES(*state,
        "rule FREQ=WEEKLY;INTERVAL=2;COUNT=4;BYDAY=TU,SU;WKST=MO from "
        "1997-08-05",
        "1997-08-05", "1997-08-10", "1997-08-19", "1997-08-24", "-");
    ASSERT_SERIES(*state,
        "rule FREQ=WEEKLY;INTERVAL=2;COUNT=4;BYDAY=TU,SU;WKST=SU from "
        "1997-08-05",
        "1997-08-05", "1997-08-17", "1997-08-19", "1997-08-31", "-");
    ASSERT_SERIES(*state, "rule FREQ=MONTHLY;BYMONTHDAY=-3 from 1997-09-28",
        "1997-09-28", "1997-10-29", "1997-11-28", "1997-12-29", "1998-01-29",
        "1998-02-26");
    ASSERT_SERIES(*state,
        "rule FREQ=YEARLY;INTERVAL=3;COUNT=10;BYYEARDAY=1,100,200 from "
        "1997-01-01",
        "1997-01-01", "1997-04-10", "1997-07-19", "2000-01-01", "2000-04-09",
        "2000-07-18", "2003-01-01", "2003-04-10", "2003-07-19", "2006-01-01",
        "-");
}

static void
more_examples_of_the_standard(void **state)
{
    ASSERT_SERIES(*state, "rule FREQ=YEARLY;BYDAY=20MO from 1997-05-19",
        "1997-05-19", "1998-05-18", "1999-05-17");
    ASSERT_SERIES(*state,
        "rule FREQ=YEARLY;BYWEEKNO=20;BYDAY=MO from 1997-05-12", "1997-05-12",
        "1998-05-11", "1999-05-17");
    ASSERT_SERIES(*state,
        "rule FREQ=MONTHLY;BYDAY=FR;BYMONTHDAY=13 from 1998-02-13",
        "1998-02-13", "1998-03-13", "1998-11-13", "1999-08-13", "2000-10-13");
    ASSERT_SERIES(*state,
        "rule FREQ=YEARLY;INTERVAL=4;BYMONTH=11;BYDAY=TU;BYMONTHDAY=2,3,4,5,6,"
        "7,8 from 1996-11-05",
        "1996-11-05", "2000-11-07", "2004-11-02");
    ASSERT_SERIES(*state,
        "rule FREQ=MONTHLY;COUNT=3;BYDAY=TU,WE,TH;BYSETPOS=3 from 1997-09-04",
        "1997-09-04", "1997-10-07", "1997-11-06", "-");
    ASSERT_SERIES(*state,
        "rule FREQ=MONTHLY;BYDAY=MO,TU,WE,TH,FR;BYSETPOS=-2 from 1997-09-29",
        "1997-09-29", "1997-10-30", "1997-11-27", "1997-12-30", "1998-01-29",
        "1998-02-26", "1998-03-30");
}

/* Work done long after a rule's last day before the end of our range. */
static void
a_rule_ends_with_the_days_we_know(void **state)
{
    struct world *w = *state;
    struct job *j =
        world_job(w, "round", "rule FREQ=YEARLY;INTERVAL=300 from 2026-01-01");

    world_done(w, j, "2026-01-01");
    const struct due *d = world_due(w, j, "2026-02-01");
    assert_day(d->deadline, "-");
    assert_int_equal(d->warnings & WARN_OUT_OF_RANGE, WARN_OUT_OF_RANGE);
}

/* What the RFC forbids, and calendars and moves that we do not know. */
static void
what_is_no_rule_is_refused(void **state)
{
    static const char *const texts[] = {
        "rule FREQ=MONTHLY;BYWEEKNO=1 from 2026-01-01",
        "rule FREQ=MONTHLY;BYYEARDAY=1 from 2026-01-01",
        "rule FREQ=WEEKLY;BYMONTHDAY=1 from 2026-01-01",
        "rule FREQ=WEEKLY;BYDAY=1TH from 2026-01-01",
        "rule FREQ=YEARLY;BYWEEKNO=1;BYDAY=1TH from 2026-01-01",
        "rule FREQ=DAILY;BYSETPOS=1 from 2026-01-01",
        "rule FREQ=YEARLY;BYMONTH=-12 from 2026-01-01",
        "rule FREQ=MONTHLY;BYMONTHDAY=32,1 from 2026-01-01",
        "rule FREQ=HOURLY from 2026-01-01",
        "rule RSCALE=HEBREW;FREQ=YEARLY from 2026-01-01",
        "rule RSCALE=GREGORIAN;FREQ=MONTHLY;SKIP=FORWARD from 2026-01-01",
        "rule FREQ=DAILY;UNTIL=20251231 from 2026-01-01",
    };
    struct world *w = *state;

    for (size_t i = 0; i < sizeof texts / sizeof *texts; i++) {
        struct scan s = scan_start(texts[i]);
        struct interval found;
        if (kind_parse(&s, w->arena, &found) != -1)
            fail_msg("%s", texts[i]);
    }
}

/* Completions before, on and after the day, as for any rhythm. */
static void
done_early_late_and_twice(void **state)
{
    struct world *w = *state;
    struct job *j =
        world_job(w, "round", "rule FREQ=MONTHLY;BYDAY=-1FR from 2026-01-30");

    j->rule.first =
        (struct first){.origin = ORIGIN_ON, .on = date("2026-01-30")};
    /* Four weeks lie between the first two, so half of the time before the
     * first begins on 16 January. */
    struct record *k = world_done(w, j, "2026-01-15");
    assert_deadline(w, j, "2026-01-30");
    k->day = date("2026-01-16");
    assert_deadline(w, j, "2026-02-27");
    k->day = date("2026-02-10"); /* late */
    assert_deadline(w, j, "2026-02-27");
    k->day = date("2026-04-01"); /* two missed */
    assert_deadline(w, j, "2026-04-24");
    k->day = date("2026-01-16");
    world_done(w, j, "2026-01-20"); /* an extra */
    assert_deadline(w, j, "2026-02-27");
}

static void
with_nothing_pending_the_next_one_stands(void **state)
{
    struct world *w = *state;
    struct job *j =
        world_job(w, "round", "rule FREQ=MONTHLY;BYDAY=-1FR from 2026-01-30");
    struct record *k = world_done(w, j, "2026-02-27");

    assert_deadline(w, j, "2026-03-27");
    k->day = date("2026-02-26");
    assert_deadline(w, j, "2026-02-27");
    k->day = date("2025-02-26"); /* before the rule begins */
    assert_deadline(w, j, "2026-01-30");
}

static void
the_first_is_on_or_after_the_first_day(void **state)
{
    struct world *w = *state;
    struct job *j =
        world_job(w, "round", "rule FREQ=MONTHLY;BYDAY=-1FR from 2026-01-30");

    assert_int_equal(world_due(w, j, "2026-01-01")->state, DUE_NO_RECORD);
    j->rule.first =
        (struct first){.origin = ORIGIN_ON, .on = date("2026-02-27")};
    assert_deadline(w, j, "2026-02-27");
    j->rule.first.on = date("2026-02-28");
    assert_deadline(w, j, "2026-03-27");
}

/* Looking from the middle of a rule finds what running from its start does.
 * Every 17th day from 2026-01-01 is plain counting. */
static void
looking_from_the_middle(void **state)
{
    struct world *w = *state;
    struct job *j =
        world_job(w, "round", "rule FREQ=DAILY;INTERVAL=17 from 2026-01-01");
    struct record *k = world_done(w, j, "2026-01-01");
    day_t start = date("2026-01-01");

    for (int n = 0; n < 2000; n++) {
        k->day = start + n;
        world_snapshot(w, "2026-01-01", "-");
        assert_int_equal(
            world_find(w, j, 0)->deadline, start + (n / 17 + 1) * 17);
    }
}

/* Every third Monday by weeks, and every 5 months on the 29th by counting
 * months from January 2026: May 2027 is 16 on, and so on. */
static void
looking_from_the_middle_by_weeks_and_months(void **state)
{
    struct world *w = *state;
    struct job *j = world_job(
        w, "round", "rule FREQ=WEEKLY;INTERVAL=3;BYDAY=MO from 2026-01-05");
    struct job *m =
        world_job(w, "months", "rule FREQ=MONTHLY;INTERVAL=5 from 2026-01-28");
    struct record *k = world_done(w, j, "2026-01-05");
    struct record *l = world_done(w, m, "2026-01-05");
    day_t start = date("2026-01-05");

    for (int n = 0; n < 1500; n++) {
        k->day = start + n;
        l->day = date("2026-01-28") + n;
        world_snapshot(w, "2026-01-01", "-");
        assert_int_equal(
            world_find(w, j, 0)->deadline, start + (n / 21 + 1) * 21);
        day_t next = l->day;
        for (int i = 0; next <= l->day; i++)
            next = step_months(date("2026-01-28"), 5 * i, MONTH_END_CLAMP);
        assert_int_equal(world_find(w, m, 0)->deadline, next);
    }
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        WORLD_TEST(the_last_friday_of_the_month),
        WORLD_TEST(every_other_tuesday_and_thursday),
        WORLD_TEST(the_31st_is_skipped_where_there_is_none),
        WORLD_TEST(the_31st_is_moved_back_when_asked),
        WORLD_TEST(a_rule_that_counts_comes_to_an_end),
        WORLD_TEST(a_rule_that_runs_until_a_day),
        WORLD_TEST(a_rule_that_does_not_hit_its_start),
        WORLD_TEST(weeks_by_their_number),
        WORLD_TEST(the_examples_of_the_standard),
        WORLD_TEST(more_examples_of_the_standard),
        WORLD_TEST(a_rule_ends_with_the_days_we_know),
        WORLD_TEST(what_is_no_rule_is_refused),
        WORLD_TEST(done_early_late_and_twice),
        WORLD_TEST(with_nothing_pending_the_next_one_stands),
        WORLD_TEST(the_first_is_on_or_after_the_first_day),
        WORLD_TEST(looking_from_the_middle),
        WORLD_TEST(looking_from_the_middle_by_weeks_and_months),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
