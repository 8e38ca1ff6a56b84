/*
 * The table of states in section 8 of the design, a check for each cell: what
 * is expected stands there, row by row.
 */

#include "yard.h"

#define DAY "2026-03-02"
#define AT(hour) ((hour)*60)

/* A major of K7, reported at 7:00 by cai, then brought into that row: decided
 * by bea at 8:00, repaired by fin at 9:00, released by ann at 10:00. */
static struct yard *
in_row(void **state, enum defect_state row)
{
    struct yard *y = *state;

    ENTERED(found(y, K7, GRADE_MAJOR, DAY, AT(7), "cai"));
    if (row >= DEFECT_STOP)
        ENTERED(decided(y, VERDICT_WATCH, DAY, AT(8), "bea"));
    if (row >= DEFECT_REPAIRED)
        ENTERED(done(y, EVENT_REPAIRED, 1, DAY, AT(9), "fin"));
    if (row >= DEFECT_CLOSED)
        ENTERED(done(y, EVENT_RELEASED, 1, DAY, AT(10), "ann"));
    return y;
}

static void
reported_seen_again_stays_and_the_grade_only_rises(void **state)
{
    struct yard *y = in_row(state, DEFECT_REPORTED);

    ENTERED(found(y, K7, GRADE_STOPS, DAY, AT(12), "cai"));
    ENTERED(found(y, K7, GRADE_MINOR, DAY, AT(13), "cai"));
    STATE_IS(1, DEFECT_REPORTED);
    assert_int_equal(numbered(y, 1)->grade, GRADE_STOPS);
    assert_null(defects_numbered(y->defects, 2));
}

static void
reported_assessed_is_decided(void **state)
{
    struct yard *y = in_row(state, DEFECT_REPORTED);

    ENTERED(decided(y, VERDICT_STOP, DAY, AT(11), "cai"));
    STATE_IS(1, DEFECT_STOP);
    ENTERED(put_off(y, "2026-03-06", DAY, AT(12), "bea"));
    STATE_IS(1, DEFECT_UNTIL);
    ENTERED(decided(y, VERDICT_WATCH, DAY, AT(13), "eve"));
    STATE_IS(1, DEFECT_WATCH);
}

static void
reported_repaired_is_repaired(void **state)
{
    struct yard *y = in_row(state, DEFECT_REPORTED);

    ENTERED(done(y, EVENT_REPAIRED, 1, DAY, AT(12), "fin"));
    STATE_IS(1, DEFECT_REPAIRED);
}

static void
reported_released_is_refused(void **state)
{
    struct yard *y = in_row(state, DEFECT_REPORTED);

    REFUSED_AS(
        done(y, EVENT_RELEASED, 1, DAY, AT(12), "ann"), ENTER_NOT_REPAIRED);
}

static void
reported_nothing_is_closed(void **state)
{
    struct yard *y = in_row(state, DEFECT_REPORTED);

    ENTERED(decided(y, VERDICT_NONE, DAY, AT(12), "ann"));
    STATE_IS(1, DEFECT_CLOSED);
}

static void
reported_voided_is_void(void **state)
{
    struct yard *y = in_row(state, DEFECT_REPORTED);

    ENTERED(undone(1, DAY, "ann"));
    STATE_IS(1, DEFECT_VOID);
    ENTERED(found(y, K7, GRADE_MINOR, DAY, AT(12), "cai"));
    STATE_IS(2, DEFECT_REPORTED); /* its number stays used */
    assert_int_equal(numbered(y, 2)->again, 0);
}

static void
decided_seen_again_stays_and_worse_is_reported(void **state)
{
    struct yard *y = in_row(state, DEFECT_WATCH);

    ENTERED(found(y, K7, GRADE_MAJOR, DAY, AT(12), "cai"));
    STATE_IS(1, DEFECT_WATCH);
    ENTERED(found(y, K7, GRADE_STOPS, DAY, AT(13), "cai"));
    STATE_IS(1, DEFECT_REPORTED);
}

static void
decided_assessed_is_decided_anew(void **state)
{
    struct yard *y = in_row(state, DEFECT_WATCH);

    ENTERED(decided(y, VERDICT_STOP, DAY, AT(12), "cai"));
    STATE_IS(1, DEFECT_STOP);
}

static void
decided_repaired_is_repaired(void **state)
{
    struct yard *y = in_row(state, DEFECT_WATCH);

    ENTERED(done(y, EVENT_REPAIRED, 1, DAY, AT(12), "fin"));
    STATE_IS(1, DEFECT_REPAIRED);
}

static void
decided_released_is_refused(void **state)
{
    struct yard *y = in_row(state, DEFECT_WATCH);

    REFUSED_AS(
        done(y, EVENT_RELEASED, 1, DAY, AT(12), "ann"), ENTER_NOT_REPAIRED);
}

static void
decided_nothing_is_closed(void **state)
{
    struct yard *y = in_row(state, DEFECT_WATCH);

    ENTERED(decided(y, VERDICT_NONE, DAY, AT(12), "eve"));
    STATE_IS(1, DEFECT_CLOSED);
}

static void
decided_voided_is_as_before(void **state)
{
    struct yard *y = in_row(state, DEFECT_WATCH);

    ENTERED(undone(2, DAY, "cai"));
    STATE_IS(1, DEFECT_REPORTED);
}

static void
repaired_seen_again_is_reported_if_it_happened_later(void **state)
{
    struct yard *y = in_row(state, DEFECT_REPAIRED);

    ENTERED(found(y, K7, GRADE_MAJOR, DAY, AT(8), "cai"));
    STATE_IS(1, DEFECT_REPAIRED);
    ENTERED(found(y, K7, GRADE_MAJOR, DAY, AT(10), "cai"));
    STATE_IS(1, DEFECT_REPORTED);
}

static void
repaired_assessed_is_refused(void **state)
{
    struct yard *y = in_row(state, DEFECT_REPAIRED);

    REFUSED_AS(
        decided(y, VERDICT_WATCH, DAY, AT(12), "ann"), ENTER_IS_REPAIRED);
    REFUSED_AS(decided(y, VERDICT_STOP, DAY, AT(12), "ann"), ENTER_IS_REPAIRED);
}

static void
repaired_repaired_stays(void **state)
{
    struct yard *y = in_row(state, DEFECT_REPAIRED);

    ENTERED(done(y, EVENT_REPAIRED, 1, DAY, AT(12), "ann"));
    STATE_IS(1, DEFECT_REPAIRED);
    assert_string_equal(numbered(y, 1)->repaired.by, "ann");
}

static void
repaired_released_is_closed(void **state)
{
    struct yard *y = in_row(state, DEFECT_REPAIRED);

    ENTERED(done(y, EVENT_RELEASED, 1, DAY, AT(12), "ann"));
    STATE_IS(1, DEFECT_CLOSED);
}

static void
repaired_nothing_is_closed(void **state)
{
    struct yard *y = in_row(state, DEFECT_REPAIRED);

    ENTERED(decided(y, VERDICT_NONE, DAY, AT(12), "ann"));
    STATE_IS(1, DEFECT_CLOSED);
}

static void
repaired_voided_is_as_before(void **state)
{
    struct yard *y = in_row(state, DEFECT_REPAIRED);

    REFUSED_AS(undone(2, DAY, "ann"), ENTER_NOT_LAST);
    ENTERED(undone(3, DAY, "ann"));
    STATE_IS(1, DEFECT_WATCH);
}

static void
closed_seen_again_is_a_new_number(void **state)
{
    struct yard *y = in_row(state, DEFECT_CLOSED);

    ENTERED(found(y, K7, GRADE_MINOR, DAY, AT(12), "cai"));
    STATE_IS(1, DEFECT_CLOSED);
    STATE_IS(2, DEFECT_REPORTED);
    assert_int_equal(numbered(y, 2)->again, 1);
}

static void
closed_refuses_all_else(void **state)
{
    struct yard *y = in_row(state, DEFECT_CLOSED);

    for (int verdict = VERDICT_STOP; verdict <= VERDICT_NONE; verdict++)
        REFUSED_AS(decided(y, (enum defect_verdict)verdict, DAY, AT(12), "ann"),
            ENTER_IS_CLOSED);
    REFUSED_AS(done(y, EVENT_REPAIRED, 1, DAY, AT(12), "fin"), ENTER_IS_CLOSED);
    REFUSED_AS(done(y, EVENT_RELEASED, 1, DAY, AT(12), "ann"), ENTER_IS_CLOSED);
}

static void
closed_voided_is_as_before(void **state)
{
    struct yard *y = in_row(state, DEFECT_CLOSED);

    ENTERED(undone(4, DAY, "cai"));
    STATE_IS(1, DEFECT_REPAIRED);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        YARD_TEST(reported_seen_again_stays_and_the_grade_only_rises),
        YARD_TEST(reported_assessed_is_decided),
        YARD_TEST(reported_repaired_is_repaired),
        YARD_TEST(reported_released_is_refused),
        YARD_TEST(reported_nothing_is_closed),
        YARD_TEST(reported_voided_is_void),
        YARD_TEST(decided_seen_again_stays_and_worse_is_reported),
        YARD_TEST(decided_assessed_is_decided_anew),
        YARD_TEST(decided_repaired_is_repaired),
        YARD_TEST(decided_released_is_refused),
        YARD_TEST(decided_nothing_is_closed),
        YARD_TEST(decided_voided_is_as_before),
        YARD_TEST(repaired_seen_again_is_reported_if_it_happened_later),
        YARD_TEST(repaired_assessed_is_refused),
        YARD_TEST(repaired_repaired_stays),
        YARD_TEST(repaired_released_is_closed),
        YARD_TEST(repaired_nothing_is_closed),
        YARD_TEST(repaired_voided_is_as_before),
        YARD_TEST(closed_seen_again_is_a_new_number),
        YARD_TEST(closed_refuses_all_else),
        YARD_TEST(closed_voided_is_as_before),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
