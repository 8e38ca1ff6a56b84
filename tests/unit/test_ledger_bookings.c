/* Days that somebody fixed, and the days of the plan kept last. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include <cmocka.h>

#include "arena.h"
#include "bookings.h"
#include "test_ledger.h"

static const struct booking sample = {
    .subject = "K7",
    .job = "annual-test",
    .cycle = "r42",
    .day = 20600,
    .entered = 1700000000,
    .by = "J. Tern",
    .note = "by the early ferry",
};

/* What stands; the texts are in @a. */
static struct booking *
standing(struct ledger *l, struct arena *a, size_t *n)
{
    struct booking *list;
    struct fault f = {0, ""};

    assert_int_equal(bookings_read(l, a, &list, n, &f), 0);
    return list;
}

static void
what_was_booked_is_read(void **state)
{
    struct ledger *l = opened(LEDGER_WRITE);
    struct arena *a = arena_new();
    struct booking bare = {
        .subject = "k8", .job = "oil", .cycle = "none", .day = 20601};
    struct fault f = {0, ""};
    int64_t id = 0;
    size_t n;

    (void)state;
    (void)standing(l, a, &n);
    assert_int_equal(n, 0);
    assert_int_equal(bookings_add(l, &sample, &id, &f), 0);
    assert_int_equal(id, 1);
    assert_int_equal(bookings_add(l, &bare, NULL, &f), 0);
    struct booking *list = standing(l, a, &n);
    assert_int_equal(n, 2);
    assert_string_equal(list[0].subject, "K7");
    assert_string_equal(list[0].job, "annual-test");
    assert_string_equal(list[0].cycle, "r42");
    assert_int_equal(list[0].day, 20600);
    assert_int_equal(list[0].entered, 1700000000);
    assert_string_equal(list[0].by, "J. Tern");
    assert_string_equal(list[0].note, "by the early ferry");
    assert_null(list[1].by);
    assert_null(list[1].note);
    arena_free(a);
    ledger_close(l);
}

static void
a_later_one_replaces_it(void **state)
{
    struct ledger *l = opened(LEDGER_WRITE);
    struct arena *a = arena_new();
    struct booking moved = sample;
    struct fault f = {0, ""};
    size_t n;

    (void)state;
    assert_int_equal(bookings_add(l, &sample, NULL, &f), 0);
    moved.day = 20605;
    moved.replaces = 1;
    assert_int_equal(bookings_add(l, &moved, NULL, &f), 0);
    struct booking *list = standing(l, a, &n);
    assert_int_equal(n, 1);
    assert_int_equal(list[0].id, 2);
    assert_int_equal(list[0].day, 20605);
    /* Only once. */
    assert_int_equal(bookings_add(l, &moved, NULL, &f), -1);
    assert_int_equal(f.code, 65 /* EX_DATAERR */);
    struct booking back = moved;
    back.day = DAY_NONE;
    back.replaces = 2;
    assert_int_equal(bookings_add(l, &back, NULL, &f), 0);
    (void)standing(l, a, &n);
    assert_int_equal(n, 0);
    assert_outside("SELECT count(*) FROM booking", "3");
    arena_free(a);
    ledger_close(l);
}

static void
nothing_is_taken_from_nowhere(void **state)
{
    struct ledger *l = opened(LEDGER_WRITE);
    struct booking back = sample;
    struct fault f = {0, ""};

    (void)state;
    back.day = DAY_NONE;
    assert_int_equal(bookings_add(l, &back, NULL, &f), -1);
    back.replaces = 7;
    assert_int_equal(bookings_add(l, &back, NULL, &f), -1);
    ledger_close(l);
}

static void
they_are_never_changed(void **state)
{
    struct ledger *l = opened(LEDGER_WRITE);
    struct fault f = {0, ""};

    (void)state;
    assert_int_equal(bookings_add(l, &sample, NULL, &f), 0);
    ledger_close(l);
    assert_int_not_equal(run_outside("UPDATE booking SET day = 1"), SQLITE_OK);
    assert_int_not_equal(run_outside("DELETE FROM booking"), SQLITE_OK);
    assert_outside("SELECT day FROM booking", "20600");
}

static void
the_last_plan_is_kept(void **state)
{
    static const struct planned first[] = {
        {"K8", "oil", 20700}, {"K7", "oil", 20710}, {"K7", "oil", 20700}};
    static const struct planned second[] = {{"K7", "test", 20800}};
    struct ledger *l = opened(LEDGER_WRITE);
    struct arena *a = arena_new();
    struct fault f = {0, ""};
    struct planned *days;
    size_t n;

    (void)state;
    assert_int_equal(planned_write(l, first, 3, &f), 0);
    assert_int_equal(planned_read(l, a, &days, &n, &f), 0);
    assert_int_equal(n, 3);
    assert_string_equal(days[0].subject, "K7");
    assert_int_equal(days[0].day, 20700);
    assert_int_equal(days[1].day, 20710);
    assert_string_equal(days[2].subject, "K8");
    assert_int_equal(planned_write(l, second, 1, &f), 0);
    assert_int_equal(planned_read(l, a, &days, &n, &f), 0);
    assert_int_equal(n, 1);
    assert_string_equal(days[0].job, "test");
    arena_free(a);
    ledger_close(l);
}

#define IN_FOLDER(f)                                                           \
    cmocka_unit_test_setup_teardown(f, in_a_folder, out_of_the_folder)

int
main(void)
{
    const struct CMUnitTest tests[] = {
        IN_FOLDER(what_was_booked_is_read),
        IN_FOLDER(a_later_one_replaces_it),
        IN_FOLDER(nothing_is_taken_from_nowhere),
        IN_FOLDER(they_are_never_changed),
        IN_FOLDER(the_last_plan_is_kept),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
