/* What if: the words for a change, and two plans side by side. */
#include "change.h"
#include "compare.h"
#include "fleet_plan_fixture.h"
#include "test.h"

/* The changes that @text comes to for the fleet of the shop. */
static size_t
read_changes(struct shop *s, const char *text, struct change *out)
{
    char fault[CHANGE_FAULT] = "";
    size_t n;

    shop_limit(s, 1);
    shop_plan(s);
    if (change_read(&s->w->fleet, text, out, &n, fault))
        fail_msg("%s", fault);
    return n;
}

static void
each_kind_is_read(void **state)
{
    struct shop *s = *state;
    struct change c[CHANGES_MOST];

    assert_int_equal(read_changes(s,
                         "place STATION 2, hours yard 7.5,away buses 0,sold k8,"
                         " shut yard 2026-03-10..2026-03-20, holiday "
                         "2026-03-30",
                         c),
        6);
    assert_int_equal(c[0].kind, CHANGE_VEHICLES);
    assert_ptr_equal(c[0].place, &s->places[1]);
    assert_int_equal(c[0].amount, 2);
    assert_int_equal(c[1].kind, CHANGE_MINUTES);
    assert_ptr_equal(c[1].place, &s->places[0]);
    assert_int_equal(c[1].amount, 450);
    assert_int_equal(c[2].kind, CHANGE_AWAY);
    assert_ptr_equal(c[2].limit, &s->limit);
    assert_int_equal(c[2].amount, 0);
    assert_int_equal(c[3].kind, CHANGE_SOLD);
    assert_ptr_equal(c[3].subject, s->k8);
    assert_int_equal(c[4].kind, CHANGE_SHUT);
    assert_day(c[4].from, "2026-03-10");
    assert_day(c[4].to, "2026-03-20");
    assert_int_equal(c[5].kind, CHANGE_HOLIDAY);
    assert_day(c[5].from, "2026-03-30");
    assert_day(c[5].to, "2026-03-30");
}

#define FORMS                                                                  \
    "; expected place PLACE N, hours PLACE HOURS, away LIMIT N, sold "         \
    "SUBJECT, shut PLACE DAY..DAY or holiday DAY"

static void
what_is_wrong_is_said(void **state)
{
    static const struct {
        const char *text;
        const char *fault;
    } cases[] = {
        {"", "'' is no change" FORMS},
        {"sell K7", "'sell K7' is no change" FORMS},
        {"place", "'place' names no place" FORMS},
        {"place yrd 2",
            "the fleet file has no calendar 'yrd'; did you mean 'yard'?"},
        {"place yard", "'place yard' says no number from 0 to 1000" FORMS},
        {"place yard -1",
            "'place yard -1' says no number from 0 to 1000" FORMS},
        {"hours yard 7.25",
            "'hours yard 7.25' says no hours such as 7 or 7.5" FORMS},
        {"away bus 1",
            "the fleet file has no limit 'bus'; did you mean 'buses'?"},
        {"sold K6", "the fleet file has no subject 'K6'; did you mean 'K7'?"},
        {"shut yard 2026-03-20..2026-03-10",
            "'shut yard 2026-03-20..2026-03-10' says no days such as "
            "2027-02-01..2027-02-14" FORMS},
        {"holiday 2026-02-30", "'holiday 2026-02-30' says no days such as "
                               "2027-02-01..2027-02-14" FORMS},
        {"sold K7 soon", "'sold K7 soon' goes on too long" FORMS},
    };
    struct shop *s = *state;
    struct change c[CHANGES_MOST];
    char fault[CHANGE_FAULT];
    size_t n;

    shop_limit(s, 1);
    shop_plan(s);
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        assert_int_equal(
            change_read(&s->w->fleet, cases[i].text, c, &n, fault), -1);
        assert_string_equal(fault, cases[i].fault);
    }
}

/* K7 is sold and two holidays taken: of four bookings two are no more; K8,
 * which was on the Friday that K7 left free, moves to the Thursday, and its
 * next time with it. */
static void
two_plans_are_compared(void **state)
{
    struct shop *s = *state;
    struct job *j = world_loose_job(s->w, "check", "12 weeks");
    struct change c[2];
    struct comparison d;

    shop_has(s, s->k7, j, "2025-12-29");
    shop_has(s, s->k8, j, "2025-12-29");
    shop_plan(s);
    struct fleet_plan *before = s->plan;
    c[0] = (struct change){.kind = CHANGE_SOLD, .subject = s->k7};
    c[1] = (struct change){.kind = CHANGE_HOLIDAY,
        .from = date("2026-03-20"),
        .to = date("2026-03-23")};
    s->options.changes = c;
    s->options.n_changes = 2;
    struct fleet_plan *after = fleet_plan_new(&s->w->facts, &s->options);
    assert_non_null(after);
    assert_int_equal(compare_plans(before, after, &d), 0);
    assert_int_equal(d.gone, 2);
    assert_int_equal(d.moved, 2);
    assert_int_equal(d.added, 0);
    assert_int_equal(d.n, 4);
    assert_int_equal(d.late_before, 0);
    assert_int_equal(d.late_after, 0);
    assert_ptr_equal(d.list[0].task->subject, s->k7);
    assert_null(d.list[0].after);
    assert_ptr_equal(d.list[2].task->subject, s->k8);
    assert_day(d.list[2].before->day, "2026-03-20");
    assert_day(d.list[2].after->day, "2026-03-19");
    free(d.list);
    /* The other way round they are new. */
    assert_int_equal(compare_plans(after, before, &d), 0);
    assert_int_equal(d.added, 2);
    free(d.list);
    fleet_plan_free(after);
}

static void
what_gets_late_is_counted(void **state)
{
    struct shop *s = *state;
    struct job *j = world_loose_job(s->w, "check", "12 weeks");
    struct change c = {.kind = CHANGE_SHUT,
        .place = &s->places[0],
        .from = date("2026-03-02"),
        .to = date("2026-03-23")};
    struct comparison d;

    shop_has(s, s->k7, j, "2025-12-29");
    shop_plan(s);
    s->options.changes = &c;
    s->options.n_changes = 1;
    struct fleet_plan *after = fleet_plan_new(&s->w->facts, &s->options);
    assert_int_equal(compare_plans(s->plan, after, &d), 0);
    assert_int_equal(d.late_before, 0);
    assert_int_equal(d.late_after, 1);
    assert_int_equal(d.newly_late, 1);
    free(d.list);
    fleet_plan_free(after);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        SHOP_TEST(each_kind_is_read),
        SHOP_TEST(what_is_wrong_is_said),
        SHOP_TEST(two_plans_are_compared),
        SHOP_TEST(what_gets_late_is_counted),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
