/* When what failed is tried again, and when it is trouble. */
#include "retry.h"
#include "test.h"

#define NOW INT64_C(1796169600)
#define PASSES 1
#define STAYS 0

static void
nothing_has_failed(void **state)
{
    struct retry r = retry_nothing();

    (void)state;
    assert_int_equal(retry_due(&r, 0, NOW), 0);
    assert_int_equal(
        retry_due(&r, WORK_REMIND | WORK_SEND, NOW), WORK_REMIND | WORK_SEND);
    assert_int_equal(retry_next(&r, NOW + 500, NOW), NOW + 500);
}

static void
what_failed_waits_a_minute(void **state)
{
    struct retry r = retry_nothing();

    (void)state;
    assert_true(retry_failed(&r, STAYS, NOW));
    assert_int_equal(retry_due(&r, WORK_PASS | WORK_SEND, NOW), WORK_SEND);
    assert_int_equal(retry_next(&r, NOW + 500, NOW), NOW + 60);
    assert_int_equal(retry_next(&r, NOW + 5, NOW), NOW + 5);
    assert_int_equal(retry_due(&r, 0, NOW + 59), 0);
    assert_int_equal(retry_due(&r, 0, NOW + 60), WORK_PASS);
    retry_went_well(&r, 0, NOW + 60);
    assert_int_equal(retry_due(&r, 0, NOW + 120), 0);
    retry_went_well(&r, 1, NOW + 120);
    assert_int_equal(retry_due(&r, 0, NOW + 180), WORK_PASS);
}

/* Another process is in the way: a second, and no trouble for ten minutes. */
static void
what_passes_is_trouble_when_it_lasts(void **state)
{
    struct retry r = retry_nothing();

    (void)state;
    assert_false(retry_failed(&r, PASSES, NOW));
    assert_int_equal(retry_next(&r, NOW + 500, NOW), NOW + 1);
    assert_int_equal(retry_due(&r, 0, NOW + 1), WORK_PASS);
    assert_false(retry_failed(&r, PASSES, NOW + 600));
    assert_true(retry_failed(&r, PASSES, NOW + 601));
    retry_went_well(&r, 0, NOW + 602);
    assert_false(retry_failed(&r, PASSES, NOW + 700));
    assert_false(retry_failed(&r, PASSES, NOW + 1300));
    assert_true(retry_failed(&r, PASSES, NOW + 1301));
}

/* An hour back: it is tried at once, and ten minutes count from there. */
static void
the_clock_is_set_back(void **state)
{
    struct retry r = retry_nothing();
    int64_t then = NOW - 3600;

    (void)state;
    assert_true(retry_failed(&r, STAYS, NOW));
    r.mail = NOW + 5;
    assert_int_equal(retry_due(&r, WORK_SEND, then), WORK_SEND | WORK_PASS);
    assert_int_equal(retry_next(&r, then + 500, then), then + 500);
    assert_false(retry_failed(&r, PASSES, then));
    assert_true(retry_failed(&r, PASSES, then + 601));
}

static void
mail_pauses_alone(void **state)
{
    struct retry r = retry_nothing();

    (void)state;
    retry_mail(&r, 0, NOW);
    assert_int_equal(retry_due(&r, WORK_SEND | WORK_PASS, NOW), WORK_PASS);
    assert_int_equal(retry_next(&r, NOW + 500, NOW), NOW + 5);
    assert_int_equal(retry_due(&r, WORK_SEND, NOW + 5), WORK_SEND);
    retry_mail(&r, 1, NOW + 5);
    assert_int_equal(retry_due(&r, WORK_SEND, NOW + 64), 0);
    assert_int_equal(retry_due(&r, WORK_SEND, NOW + 65), WORK_SEND);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(nothing_has_failed),
        cmocka_unit_test(what_failed_waits_a_minute),
        cmocka_unit_test(what_passes_is_trouble_when_it_lasts),
        cmocka_unit_test(the_clock_is_set_back),
        cmocka_unit_test(mail_pauses_alone),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
