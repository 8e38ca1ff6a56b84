/*
 * The rules below the table of states in section 8 of the design that concern
 * a defect alone, by their numbers there.  Those of vehicles (10, 11) are
 * checked in test_condition; rule 13 is the caller's, who makes the moments.
 */

#include "yard.h"

#define DAY "2026-03-02"
#define AT(hour) ((hour)*60)

/* What lifts needs the right; what imposes needs none; a key only reports. */
static void
rule_1_what_lifts_needs_release(void **state)
{
    struct yard *y = *state;

    ENTERED(found(y, K7, GRADE_MAJOR, DAY, AT(7), NULL));
    REFUSED_AS(
        decided(y, VERDICT_WATCH, DAY, AT(8), "eve"), ENTER_MAY_NOT_LIFT);
    REFUSED_AS(decided(y, VERDICT_NONE, DAY, AT(8), "eve"), ENTER_MAY_NOT_LIFT);
    REFUSED_AS(undone(1, DAY, "eve"), ENTER_MAY_NOT_LIFT);
    REFUSED_AS(decided(y, VERDICT_STOP, DAY, AT(8), NULL), ENTER_NO_PERSON);
    REFUSED_AS(decided(y, VERDICT_STOP, DAY, AT(8), "zoe"), ENTER_NO_PERSON);
    ENTERED(decided(y, VERDICT_STOP, DAY, AT(8), "cai"));
    REFUSED_AS(
        done(y, EVENT_REPAIRED, 1, DAY, AT(9), "eve"), ENTER_MAY_NOT_REPAIR);
    ENTERED(done(y, EVENT_REPAIRED, 1, DAY, AT(9), "fin"));
    REFUSED_AS(
        done(y, EVENT_RELEASED, 1, DAY, AT(10), "fin"), ENTER_MAY_NOT_LIFT);
    ENTERED(done(y, EVENT_RELEASED, 1, DAY, AT(10), "ann"));
}

/* A minor needs only the right to assess, for nothing is lifted. */
static void
rule_1_what_lifts_nothing_needs_assess(void **state)
{
    struct yard *y = *state;

    ENTERED(found(y, K7, GRADE_MINOR, DAY, AT(7), "cai"));
    REFUSED_AS(
        decided(y, VERDICT_WATCH, DAY, AT(8), "fin"), ENTER_MAY_NOT_ASSESS);
    ENTERED(decided(y, VERDICT_WATCH, DAY, AT(8), "eve"));
}

/* A repair, and a report after it, do not lift what somebody stopped. */
static void
rule_1_a_repair_lifts_nothing(void **state)
{
    struct yard *y = *state;

    ENTERED(found(y, K7, GRADE_MINOR, DAY, AT(7), "cai"));
    assert_false(defect_stops(numbered(y, 1), date(DAY)));
    ENTERED(decided(y, VERDICT_STOP, DAY, AT(8), "eve"));
    ENTERED(done(y, EVENT_REPAIRED, 1, DAY, AT(9), "fin"));
    assert_true(defect_stops(numbered(y, 1), date(DAY)));
    ENTERED(found(y, K7, GRADE_MINOR, DAY, AT(10), "cai"));
    STATE_IS(1, DEFECT_REPORTED);
    assert_true(defect_stops(numbered(y, 1), date(DAY)));
}

static void
rule_2_reporter_and_lifter_differ(void **state)
{
    struct yard *y = *state;
    struct defect_event e;

    ENTERED(found(y, K7, GRADE_MAJOR, DAY, AT(7), "ann"));
    e = decided(y, VERDICT_WATCH, DAY, AT(8), "ann");
    REFUSED_AS(e, ENTER_REPORTED_IT);
    e.alone = 1; /* which is not so: bea may */
    REFUSED_AS(e, ENTER_REPORTED_IT);
    y->persons[1].may = 0;
    e.alone = 0;
    REFUSED_AS(e, ENTER_SAY_ALONE);
    e.alone = 1;
    ENTERED(e);
}

static void
rule_2_repairer_and_releaser_differ(void **state)
{
    struct yard *y = *state;

    ENTERED(found(y, K7, GRADE_MINOR, DAY, AT(7), "cai"));
    ENTERED(done(y, EVENT_REPAIRED, 1, DAY, AT(8), "ann"));
    REFUSED_AS(
        done(y, EVENT_RELEASED, 1, DAY, AT(9), "ann"), ENTER_REPAIRED_IT);
    REFUSED_AS(decided(y, VERDICT_NONE, DAY, AT(9), "ann"), ENTER_REPAIRED_IT);
    ENTERED(done(y, EVENT_RELEASED, 1, DAY, AT(9), "bea"));
}

static void
rule_3_times_are_compared(void **state)
{
    struct yard *y = *state;

    ENTERED(found(y, K7, GRADE_MAJOR, DAY, AT(7), "cai"));
    REFUSED_AS(
        done(y, EVENT_REPAIRED, 1, DAY, AT(7) - 1, "fin"), ENTER_BEFORE_REPORT);
    ENTERED(done(y, EVENT_REPAIRED, 1, DAY, AT(7), "fin"));
    REFUSED_AS(
        done(y, EVENT_RELEASED, 1, DAY, AT(6), "ann"), ENTER_BEFORE_REPORT);
}

static struct defect_event
checked(struct yard *y, int subject, int paper)
{
    return (struct defect_event){.kind = EVENT_CHECKED,
        .subject = &y->subjects[subject],
        .subject_id = y->subjects[subject].id,
        .at = {date(DAY), AT(12)},
        .by = "cai",
        .paper = paper};
}

static void
rule_4_a_live_form_answers_what_is_watched(void **state)
{
    struct yard *y = *state;
    const int64_t one = 1;
    struct defect_event check = checked(y, K7, 0);

    ENTERED(found(y, X1, GRADE_MINOR, DAY, AT(7), "cai")); /* carried by K7 */
    ENTERED(check);
    ENTERED(decided(y, VERDICT_WATCH, DAY, AT(8), "ann"));
    REFUSED_AS(check, ENTER_UNANSWERED);
    ENTERED(checked(y, M2, 0));
    ENTERED(checked(y, K7, 1));
    check.answered = &one;
    check.n_answered = 1;
    ENTERED(check);
    STATE_IS(1, DEFECT_WATCH); /* a nil releases nothing */
}

static void
rule_5_late_paper_joins_what_was_open_then(void **state)
{
    struct yard *y = *state;
    struct defect_event paper = found(y, K7, GRADE_MINOR, DAY, AT(7), "cai");

    ENTERED(found(y, K7, GRADE_MAJOR, DAY, AT(7), "cai"));
    ENTERED(done(y, EVENT_REPAIRED, 1, DAY, AT(9), "fin"));
    ENTERED(done(y, EVENT_RELEASED, 1, DAY, AT(10), "ann"));
    paper.paper = 1;
    paper.at.minute = AT(8);
    ENTERED(paper); /* mended since: it says nothing new */
    assert_null(defects_numbered(y->defects, 2));
    paper.grade = GRADE_STOPS; /* worse than what was mended */
    ENTERED(paper);
    STATE_IS(2, DEFECT_REPORTED);
    assert_true(numbered(y, 2)->late_paper);
    assert_true(defect_stops(numbered(y, 2), date(DAY)));
}

/* Four weeks from Monday 2 March are Monday 30 March. */
static void
rule_6_until_has_a_day_and_lapses_at_its_end(void **state)
{
    struct yard *y = *state;

    ENTERED(found(y, K7, GRADE_MAJOR, DAY, AT(7), "cai"));
    REFUSED_AS(
        put_off(y, "2026-03-31", DAY, AT(8), "ann"), ENTER_UNTIL_TOO_LONG);
    y->inspection = date("2026-03-20");
    REFUSED_AS(
        put_off(y, "2026-03-21", DAY, AT(8), "ann"), ENTER_UNTIL_INSPECTION);
    REFUSED_AS(put_off(y, "2026-03-01", DAY, AT(8), "ann"), ENTER_UNTIL_PAST);
    REFUSED_AS(put_off(y, "-", DAY, AT(8), "ann"), ENTER_UNTIL_PAST);
    ENTERED(put_off(y, "2026-03-20", DAY, AT(8), "ann"));
    assert_false(defect_stops(numbered(y, 1), date("2026-03-20")));
    assert_false(defect_lapsed(numbered(y, 1), date("2026-03-20")));
    assert_true(defect_stops(numbered(y, 1), date("2026-03-21")));
    assert_true(defect_lapsed(numbered(y, 1), date("2026-03-21")));
}

static struct defect_event
moved(struct yard *y, int what, int onto)
{
    return (struct defect_event){.kind = EVENT_MOVED,
        .subject = &y->subjects[what],
        .subject_id = y->subjects[what].id,
        .other = &y->subjects[onto],
        .at = {date(DAY), 0},
        .whole_day = 1};
}

static void
rule_7_a_defect_goes_with_the_equipment(void **state)
{
    struct yard *y = *state;
    struct defect_event move = moved(y, X1, M2);

    ENTERED(found(y, X1, GRADE_STOPS, DAY, AT(7), "cai"));
    assert_non_null(defects_open_on(y->defects, &y->subjects[K7], NULL));
    REFUSED_AS(move, ENTER_NEEDS_SURE);
    move.sure = 1;
    ENTERED(move);
    assert_null(defects_open_on(y->defects, &y->subjects[K7], NULL));
    assert_non_null(defects_open_on(y->defects, &y->subjects[M2], NULL));
}

static void
rule_7_what_is_moved_off_is_missing_unless_another_arrives(void **state)
{
    struct yard *y = *state;
    struct defect_event off = moved(y, X1, M2);
    struct move_brings b = missing_by_move(y->defects, &off);

    assert_ptr_equal(b.lacking, &y->subjects[K7]);
    assert_string_equal(b.item->code, "F1");
    ENTERED(moved(y, X2, K7)); /* another first: K7 lacks nothing */
    b = missing_by_move(y->defects, &off);
    assert_null(b.lacking);
    assert_int_equal(b.excused_by, 1);
}

static void
rule_8_a_check_is_not_voided_over_its_defects(void **state)
{
    struct yard *y = *state;
    struct defect_event report = found(y, K7, GRADE_MINOR, DAY, AT(7), "cai");

    ENTERED(checked(y, K7, 0));
    report.cause = 1;
    ENTERED(report);
    REFUSED_AS(undone(1, DAY, "ann"), ENTER_HAS_DEFECTS);
    ENTERED(undone(2, DAY, "ann"));
    ENTERED(undone(1, DAY, "ann"));
}

static void
rule_9_a_failed_job_is_its_own_stop(void **state)
{
    struct yard *y = *state;
    struct defect_event failed = checked(y, K7, 0);
    struct defect_event release = undone(1, DAY, "ann");

    failed.kind = EVENT_FAILED;
    ENTERED(failed);
    assert_null(defects_released_failure(y->defects, 1));
    release.kind = EVENT_RELEASED;
    release.at.minute = AT(13);
    release.by = "fin";
    REFUSED_AS(release, ENTER_MAY_NOT_LIFT);
    release.by = "ann";
    ENTERED(release);
    assert_non_null(defects_released_failure(y->defects, 1));
    REFUSED_AS(release, ENTER_IS_CLOSED);
}

static void
rule_12_a_major_stops_until_assessed_and_a_minor_does_not(void **state)
{
    struct yard *y = *state;

    ENTERED(found(y, K7, GRADE_MAJOR, DAY, AT(7), "cai"));
    ENTERED(found(y, M2, GRADE_MINOR, DAY, AT(7), "cai"));
    assert_true(defect_stops(numbered(y, 1), date(DAY)));
    assert_false(defect_stops(numbered(y, 2), date(DAY)));
    ENTERED(decided(y, VERDICT_WATCH, DAY, AT(8), "ann"));
    assert_false(defect_stops(numbered(y, 1), date(DAY)));
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        YARD_TEST(rule_1_what_lifts_needs_release),
        YARD_TEST(rule_1_what_lifts_nothing_needs_assess),
        YARD_TEST(rule_1_a_repair_lifts_nothing),
        YARD_TEST(rule_2_reporter_and_lifter_differ),
        YARD_TEST(rule_2_repairer_and_releaser_differ),
        YARD_TEST(rule_3_times_are_compared),
        YARD_TEST(rule_4_a_live_form_answers_what_is_watched),
        YARD_TEST(rule_5_late_paper_joins_what_was_open_then),
        YARD_TEST(rule_6_until_has_a_day_and_lapses_at_its_end),
        YARD_TEST(rule_7_a_defect_goes_with_the_equipment),
        YARD_TEST(rule_7_what_is_moved_off_is_missing_unless_another_arrives),
        YARD_TEST(rule_8_a_check_is_not_voided_over_its_defects),
        YARD_TEST(rule_9_a_failed_job_is_its_own_stop),
        YARD_TEST(rule_12_a_major_stops_until_assessed_and_a_minor_does_not),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
