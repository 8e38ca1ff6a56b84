/* Equipment that a record moves to another vehicle. */
#include "config/explained.h"

#include "day.h"

static const struct subject *
subject(const char *id)
{
    const struct subject *s = fleet_subject(fleet, id);

    assert_non_null(s);
    return s;
}

static int
is_open(const char *id, const char *job, const char *day)
{
    const struct task *t =
        fleet_task(fleet, subject(id), fleet_job(fleet, job));

    assert_non_null(t);
    assert_non_null(t->calendar);
    return work_calendar_is_open(t->calendar, day_parse(day, 10));
}

/* 11 May 2026 is a Monday.  The workshop has Monday and Tuesday, the yard
 * Wednesday and Tuesday the 12th, the ferry goes on the 11th and the 12th. */
static void
moved(void **state)
{
    (void)state;
    assert_true(is_open("EX-1", "yearly", "2026-05-11"));
    assert_false(is_open("EX-1", "yearly", "2026-05-13"));
    assert_true(is_open("EX-1", "overhaul", "2026-05-11"));
    assert_int_equal(config_move(config, subject("EX-1"), subject("K8")), 0);
    assert_ptr_equal(subject("EX-1")->carrier, subject("K8"));
    assert_string_equal(fleet_depot(subject("EX-1"))->id, "north");
    assert_false(is_open("EX-1", "yearly", "2026-05-11"));
    assert_true(is_open("EX-1", "yearly", "2026-05-13"));
    assert_false(is_open("EX-1", "overhaul", "2026-05-11"));
    assert_true(is_open("EX-1", "overhaul", "2026-05-12"));
    assert_false(is_open("EX-1", "overhaul", "2026-05-13"));
    assert_line("[equipment EX-1]", "  depot            north  (vehicle K8)\n");
    assert_line("[equipment EX-1]", "  carried-by       K8  (a record)\n");
    /* The others stay where they are. */
    assert_true(is_open("EX-2", "yearly", "2026-05-11"));
    assert_true(is_open("K7", "inspection", "2026-05-11"));
    /* And back. */
    assert_int_equal(config_move(config, subject("EX-1"), subject("K7")), 0);
    assert_true(is_open("EX-1", "yearly", "2026-05-11"));
    assert_true(is_open("EX-1", "overhaul", "2026-05-11"));
}

/* What has a depot of its own keeps it. */
static void
moved_but_at_home(void **state)
{
    (void)state;
    assert_int_equal(config_move(config, subject("EX-2"), subject("K8")), 0);
    assert_ptr_equal(subject("EX-2")->carrier, subject("K8"));
    assert_string_equal(fleet_depot(subject("EX-2"))->id, "harbour");
    assert_true(is_open("EX-2", "yearly", "2026-05-11"));
    assert_line(
        "[equipment EX-2]", "  depot            harbour  (fleet.conf:48)\n");
}

static void
not_moved(void **state)
{
    static const struct {
        const char *what;
        const char *carrier;
    } cases[] = {
        {"EX-1", "EX-1"},             /* itself */
        {"EX-1", "EX-2"},             /* equipment */
        {"EX-1", "D1"},               /* a driver */
        {"K7", "K8"},                 /* a vehicle is not carried, */
        {"K7", "K7"}, {"K7", "EX-1"}, /* least of all by what it carries */
        {"D1", "K7"},
        {"EX-1", "K9"}, /* without a depot: no working days for 'yearly' */
    };

    (void)state;
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        const struct subject *what = subject(cases[i].what);
        const struct subject *before = what->carrier;
        assert_int_equal(
            config_move(config, what, subject(cases[i].carrier)), -1);
        assert_ptr_equal(what->carrier, before);
    }
    assert_true(is_open("EX-1", "yearly", "2026-05-11"));
    assert_line("[equipment EX-1]", "  carried-by       K7  (fleet.conf:45)\n");
}

#define WITH_FLEET(test) cmocka_unit_test_setup(test, explained_read)

int
main(void)
{
    const struct CMUnitTest tests[] = {
        WITH_FLEET(moved),
        WITH_FLEET(moved_but_at_home),
        WITH_FLEET(not_moved),
    };

    return cmocka_run_group_tests(tests, explained_begin, explained_end);
}
