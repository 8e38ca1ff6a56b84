/* From the facts and limits of a fleet to its plan. */
#include "fleet_plan_fixture.h"
#include "test.h"

/* Twelve weeks from Monday 29 December are due on Monday 23 March, and may be
 * done from 14 days before. */
#define LAST "2025-12-29"
#define DUE "2026-03-23"

static void
one_after_another(void **state)
{
    struct shop *s = *state;
    struct job *j = world_loose_job(s->w, "check", "12 weeks");

    shop_has(s, s->k7, j, LAST);
    shop_plan(s);
    assert_booked(s, s->k7, j, 0, DUE);
    assert_because(s, s->k7, j, "the last working day by its deadline");
    assert_booked(s, s->k7, j, 1, "2026-06-15");
    assert_null(shop_find(s, s->k7, j, 2)); /* due after 30 June */
}

static void
equipment_comes_with_its_carrier(void **state)
{
    struct shop *s = *state;
    struct job *j = world_loose_job(s->w, "check", "12 weeks");
    struct job *kit = world_loose_job(s->w, "kit", "12 weeks");
    struct subject *box = world_subject(s->w, "FA-7");
    struct visits v;

    box->kind = SUBJECT_EQUIPMENT;
    box->carrier = s->k7;
    s->options.until = date("2026-04-30");
    shop_has(s, s->k7, j, LAST);
    shop_has(s, box, kit, "2025-12-31"); /* due on Wednesday 25 March */
    shop_plan(s);
    assert_booked(s, box, kit, 0, DUE);
    assert_because(s, box, kit, "with check, due Mon 2026-03-23");
    assert_ptr_equal(
        fleet_plan_subject(s->plan, shop_find(s, box, kit, 0)->work), s->k7);
    assert_int_equal(visits_make(s->plan, &v), 0);
    assert_int_equal(v.n, 1);
    assert_int_equal(v.list[0].n, 2);
    visits_free(&v);
}

static void
a_place_takes_so_many(void **state)
{
    struct shop *s = *state;
    struct job *j = world_loose_job(s->w, "check", "12 weeks");

    s->places[0].vehicles = 1;
    shop_has(s, s->k7, j, LAST);
    shop_has(s, s->k8, j, LAST);
    shop_plan(s);
    assert_booked(s, s->k7, j, 0, DUE);
    assert_booked(s, s->k8, j, 0, "2026-03-20");
    assert_because(s, s->k8, j,
        "no later day: The yard has its 1 vehicle, as on Mon 2026-03-23");
    assert_int_equal(fleet_plan_problem(s->plan)->places[1].vehicles, 1);
}

/* Two of four hours each do not go into seven. */
static void
a_place_has_so_many_hours(void **state)
{
    struct shop *s = *state;
    struct job *j = world_loose_job(s->w, "check", "12 weeks");

    j->rule.takes = 240;
    s->places[0].minutes = 420;
    shop_has(s, s->k7, j, LAST);
    shop_has(s, s->k8, j, LAST);
    shop_plan(s);
    assert_because(s, s->k8, j,
        "no later day: The yard has not the hours, as on Mon 2026-03-23");
    s->places[0].minutes = 480; /* they would, though not as evenly */
    shop_plan(s);
    assert_because(s, s->k8, j, "less is done then than on the days after it");
}

static void
only_so_many_are_away(void **state)
{
    struct shop *s = *state;
    struct job *j = world_loose_job(s->w, "check", "12 weeks");

    shop_limit(s, 1);
    shop_has(s, s->k7, j, LAST);
    shop_has(s, s->k8, j, LAST);
    shop_plan(s);
    assert_booked(s, s->k8, j, 0, "2026-03-20");
    assert_because(s, s->k8, j,
        "no later day: Buses: no more may be away, as on Mon "
        "2026-03-23");
    j->rule.stays = VEHICLE_STAYS;
    shop_plan(s);
    assert_booked(s, s->k8, j, 0, DUE);
}

/* On the road K8 has its day; while K7 is off, nobody else may be away. */
static void
off_the_road_is_away(void **state)
{
    struct shop *s = *state;
    struct job *j = world_loose_job(s->w, "check", "12 weeks");
    struct job *oil = world_loose_job(s->w, "oil", "16 weeks");

    shop_limit(s, 1);
    shop_has(s, s->k7, oil, LAST); /* due on 20 April */
    shop_has(s, s->k8, j, LAST);
    shop_plan(s);
    assert_booked(s, s->k8, j, 0, DUE);
    world_off_road(s->w, "2026-03-18", "2026-04-10");
    shop_plan(s);
    assert_booked(s, s->k8, j, 0, "2026-03-17");
    assert_because(s, s->k8, j,
        "no later day: Buses: no more may be away, as on Mon "
        "2026-03-23");
}

static void
nothing_is_planned_off_the_road(void **state)
{
    struct shop *s = *state;
    struct job *j = world_loose_job(s->w, "check", "12 weeks");
    struct job *before = world_loose_job(s->w, "before", "11 weeks");

    shop_limit(s, 0);
    world_off_road(s->w, "2026-03-10", "2026-03-20");
    shop_has(s, s->k7, before, LAST); /* due on 16 March: before its return */
    shop_plan(s);
    assert_booked(s, s->k7, before, 0, "2026-03-20");
    /* Though due on the first day back, it is not done in the spell. */
    s->limit.n_of = 0;
    shop_has(s, s->k7, j, "2025-12-30"); /* due on 24 March */
    shop_has(s, s->k8, j, LAST);
    s->places[0].vehicles = 1;
    s->fixed[0] = (struct booked){.day = date("2026-03-24"), .by = "Tern"};
    s->options.n_fixed = 1;
    world_group(s->w);
    s->fixed[0].task = shop_task(s, s->k8, j);
    shop_plan(s);
    assert_booked(s, s->k7, j, 0, "2026-03-23");
}

/* Overdue since 24 February, off the road from the day after: it is done in the
 * spell, on the first free day. */
static void
what_is_overdue_is_done_before_the_return(void **state)
{
    struct shop *s = *state;
    struct job *j = world_loose_job(s->w, "check", "12 weeks");

    shop_has(s, s->k7, j, "2025-12-02");
    struct record *k = world_off_road(s->w, "2026-02-25", "2026-03-20");
    shop_plan(s);
    assert_booked(s, s->k7, j, 0, "2026-03-02");
    k->until = DAY_NONE;
    shop_plan(s);
    assert_booked(s, s->k7, j, 0, "2026-03-02");
}

/* The yard is shut for the whole spell.  What is overdue cannot be done before
 * the return: on the first day that is free, a Monday, and late.  What falls
 * due in the spell on 16 March is done before it begins. */
static void
a_yard_shut_for_the_whole_spell(void **state)
{
    struct shop *s = *state;
    struct job *j = world_loose_job(s->w, "check", "12 weeks");
    struct job *before = world_loose_job(s->w, "before", "11 weeks");
    struct change shut = {.kind = CHANGE_SHUT,
        .place = &s->places[0],
        .from = date("2026-03-02"),
        .to = date("2026-03-20")};

    s->options.changes = &shut;
    s->options.n_changes = 1;
    shop_has(s, s->k7, j, "2025-12-02"); /* due on 24 February */
    struct record *k = world_off_road(s->w, "2026-02-25", "2026-03-20");
    shop_plan(s);
    assert_booked(s, s->k7, j, 0, "2026-03-23");
    assert_because(
        s, s->k7, j, "overdue since Tue 2026-02-24: the first free day");
    assert_true(plan_is_late(shop_find(s, s->k7, j, 0)));
    k->subject = s->k8;
    k->day = shut.from = date("2026-03-10");
    shop_has(s, s->k8, before, LAST);
    shop_plan(s);
    assert_booked(s, s->k8, before, 0, "2026-03-09");
}

/* An earlier plan had it on Friday, when all days before were taken; they are
 * free by now. */
static void
what_is_overdue_is_put_off_no_longer_than_needed(void **state)
{
    struct shop *s = *state;
    struct job *j = world_loose_job(s->w, "check", "12 weeks");

    shop_has(s, s->k7, j, "2025-11-24"); /* due on 16 February */
    world_group(s->w);
    s->options.n_kept = 1;
    s->kept[0] =
        (struct fleet_plan_day){shop_task(s, s->k7, j), date("2026-03-06")};
    shop_plan(s);
    assert_booked(s, s->k7, j, 0, "2026-03-02");
    assert_because(
        s, s->k7, j, "overdue since Mon 2026-02-16: the first free day");
}

static void
what_has_no_day_is_listed(void **state)
{
    struct shop *s = *state;
    struct job *j = world_loose_job(s->w, "check", "12 weeks");
    size_t n;

    world_task(s->w, s->k7, j); /* nothing on record */
    shop_has(s, s->k8, j, LAST);
    world_off_road(s->w, "2026-03-10", "-")->subject = s->k8;
    shop_plan(s);
    const struct fleet_plan_undated *u = fleet_plan_undated(s->plan, &n);
    assert_int_equal(n, 2);
    assert_int_equal(u[0].state, DUE_NO_RECORD);
    assert_true(u[1].no_return);
    assert_ptr_equal(u[1].task->subject, s->k8);
    assert_int_equal(fleet_plan_problem(s->plan)->n_works, 0);
}

/* The overhaul of 25 March does for the service of the same time, and the next
 * of that runs from the earliest day that the overhaul can be done on. */
static void
a_wider_job_does_for_a_narrow_one(void **state)
{
    struct shop *s = *state;
    struct job *narrow = world_loose_job(s->w, "service", "12 weeks");
    struct job *wide = world_loose_job(s->w, "overhaul", "5 years");
    const struct job *covers[] = {narrow};

    wide->covers = covers;
    wide->n_covers = 1;
    wide->rule.early = (struct span){1, STEP_WEEKS};
    shop_has(s, s->k7, narrow, "2025-12-31"); /* 25 March */
    shop_has(s, s->k7, wide, "2021-03-25");   /* 25 March 2026 */
    shop_plan(s);
    assert_booked(s, s->k7, wide, 0, "2026-03-25");
    /* From 18 March: 12 weeks are 10 June. */
    assert_booked(s, s->k7, narrow, 0, "2026-06-10");
}

/* The wider job is long overdue and done today, 2 March; the narrow one's fixed
 * rhythm has 25 August next, and its window of a month opens on 26 July: work
 * of 2 March counts for nothing there. */
static void
what_is_done_too_early_is_not_covered(void **state)
{
    struct shop *s = *state;
    struct job *narrow = world_loose_job(s->w, "narrow", "1 year");
    struct job *wide = world_loose_job(s->w, "wide", "5 years");
    const struct job *covers[] = {narrow};
    size_t n;

    wide->covers = covers;
    wide->n_covers = 1;
    narrow->rule.runs_from = FROM_DEADLINE;
    narrow->rule.window = (struct span){1, STEP_MONTHS};
    shop_has(s, s->k7, narrow, "2025-08-25");
    shop_has(s, s->k7, wide, "2020-02-01");
    s->options.until = date("2026-12-31");
    shop_plan(s);
    assert_booked(s, s->k7, wide, 0, "2026-03-02");
    assert_booked(s, s->k7, narrow, 0, "2026-08-25");
    (void)fleet_plan_covered(s->plan, &n);
    assert_int_equal(n, 0);
}

/* Which of two vehicles has the last day goes by their names, and not by which
 * of them the file has first. */
static void
the_order_of_the_file_decides_nothing(void **state)
{
    struct shop *s = *state;
    struct job *j = world_loose_job(s->w, "check", "12 weeks");

    s->places[0].vehicles = 1;
    shop_has(s, s->k7, j, LAST);
    shop_has(s, s->k8, j, LAST);
    shop_plan(s);
    assert_booked(s, s->k7, j, 0, DUE);
    assert_booked(s, s->k8, j, 0, "2026-03-20");
    s->k7->id = "K9"; /* now the first in the file is the last by name */
    shop_plan(s);
    assert_booked(s, s->k8, j, 0, DUE);
    assert_booked(s, s->k7, j, 0, "2026-03-20");
}

static void
a_fixed_day_is_kept(void **state)
{
    struct shop *s = *state;
    struct job *j = world_loose_job(s->w, "check", "12 weeks");

    shop_has(s, s->k7, j, LAST);
    s->options.n_fixed = 1;
    s->fixed[0] = (struct booked){
        .day = date("2026-03-11"), .by = "J. Tern", .note = "ramp is free"};
    world_group(s->w);
    s->fixed[0].task = shop_task(s, s->k7, j);
    shop_plan(s);
    assert_booked(s, s->k7, j, 0, "2026-03-11");
    assert_because(
        s, s->k7, j, "booked for that day by J. Tern (ramp is free)");
    assert_booked(s, s->k7, j, 1, "2026-06-03"); /* 12 weeks from there */
    s->fixed[0].day = date("2026-03-30");        /* a week late, by choice */
    shop_plan(s);
    assert_booked(s, s->k7, j, 0, "2026-03-30");
    s->fixed[0].day = date("2026-06-01"); /* the next time */
    shop_plan(s);
    assert_booked(s, s->k7, j, 0, DUE);
    assert_booked(s, s->k7, j, 1, "2026-06-01");
    s->fixed[0].cycle = "r99"; /* a cycle that is over */
    shop_plan(s);
    assert_booked(s, s->k7, j, 1, "2026-06-15");
    s->fixed[0].cycle = "d" LAST "+1"; /* as the next one is called */
    shop_plan(s);
    assert_booked(s, s->k7, j, 1, "2026-06-01");
}

static void
an_earlier_plan_is_held_to(void **state)
{
    struct shop *s = *state;
    struct job *j = world_loose_job(s->w, "check", "12 weeks");

    shop_has(s, s->k7, j, LAST);
    s->options.n_kept = 2;
    world_group(s->w);
    s->kept[0] = s->kept[1] = (struct fleet_plan_day){
        .task = shop_task(s, s->k7, j), .day = date("2026-03-18")};
    s->kept[1].day = date("2026-03-06"); /* too early by now */
    shop_plan(s);
    assert_booked(s, s->k7, j, 0, "2026-03-18");
    assert_because(s, s->k7, j, "as the plan before had it");
}

/* Every four weeks, and up to 27 days early: on 4 March the first time, which
 * is due on 9 March, the second may follow two days later, and did in the plan
 * before.  The first is not put off to the second's day. */
static void
each_call_keeps_its_own_day(void **state)
{
    struct shop *s = *state;
    struct job *j = world_loose_job(s->w, "check", "4 weeks");

    j->rule.early = (struct span){27, STEP_DAYS};
    shop_has(s, s->k7, j, "2026-02-09");
    world_group(s->w);
    s->options.n_kept = 2;
    s->kept[0] =
        (struct fleet_plan_day){shop_task(s, s->k7, j), date("2026-03-04")};
    s->kept[1] =
        (struct fleet_plan_day){shop_task(s, s->k7, j), date("2026-03-06")};
    shop_plan(s);
    assert_booked(s, s->k7, j, 0, "2026-03-04");
    assert_booked(s, s->k7, j, 1, "2026-03-06");
}

/* Ten working days from 2 March are 16 March. */
static void
no_sooner_than_it_can_be_arranged(void **state)
{
    struct shop *s = *state;
    struct job *j = world_loose_job(s->w, "check", "12 weeks");
    struct job *lift = world_loose_job(s->w, "lift", "12 weeks");

    lift->rule.lead = (struct lead){{10, STEP_DAYS}, 1};
    shop_has(s, s->k7, j, "2025-12-19"); /* 13 March */
    shop_has(s, s->k7, lift, LAST);
    shop_plan(s);
    assert_booked(s, s->k7, j, 0, "2026-03-13");
    assert_booked(s, s->k7, lift, 0, DUE);
    lift->rule.lead.span.n = 9;
    shop_plan(s);
    assert_booked(s, s->k7, lift, 0, "2026-03-13");
}

/* Overdue: on the first day, and told. */
static void
what_is_overdue_comes_first(void **state)
{
    struct shop *s = *state;
    struct job *j = world_loose_job(s->w, "check", "12 weeks");
    size_t n;

    shop_has(s, s->k7, j, "2025-11-24"); /* due on 16 February */
    shop_plan(s);
    assert_booked(s, s->k7, j, 0, "2026-03-02");
    assert_because(
        s, s->k7, j, "overdue since Mon 2026-02-16: the first free day");
    (void)plan_clashes(fleet_plan_solution(s->plan), &n);
    assert_int_equal(n, 1);
}

/* Two on one day in a yard for one that is shut on all the days before but
 * Monday 2 March, a week sooner than either likes; or on that one too. */
static void
what_would_help_is_told(void **state)
{
    struct shop *s = *state;
    struct job *j = world_loose_job(s->w, "check", "12 weeks");
    struct change shut = {.kind = CHANGE_SHUT,
        .place = &s->places[0],
        .from = date("2026-03-03"),
        .to = date("2026-03-20")};
    struct buf *said = buf_new();
    size_t n;

    s->places[0].vehicles = 1;
    s->options.changes = &shut;
    s->options.n_changes = 1;
    shop_has(s, s->k7, j, LAST);
    shop_has(s, s->k8, j, LAST);
    shop_plan(s);
    assert_booked(s, s->k8, j, 0, "2026-03-02");
    assert_because(s, s->k8, j,
        "no later day: The yard has its 1 vehicle, as on Mon 2026-03-23, "
        "sooner than Mon 2026-03-09, which wastes some of its interval");
    shut.from = date("2026-03-02");
    shop_plan(s);
    const struct plan_clash *c = plan_clashes(fleet_plan_solution(s->plan), &n);
    assert_int_equal(n, 1);
    plan_words_cure(s->plan, c, said);
    assert_string_equal(buf_str(said),
        "one more vehicle at The yard on Mon 2026-03-23 would do");
    buf_free(said);
    assert_booked(s, s->k8, j, 0, "2026-03-24");
    assert_because(s, s->k8, j,
        "too late, no day was free by Mon 2026-03-23: The yard has its 1 "
        "vehicle, as on Mon 2026-03-23");
}

/* The same, where it is the hours or the number away that are short. */
static void
what_is_short_is_named(void **state)
{
    struct shop *s = *state;
    struct job *j = world_loose_job(s->w, "check", "12 weeks");
    struct change shut = {.kind = CHANGE_SHUT,
        .place = &s->places[0],
        .from = date("2026-03-02"),
        .to = date("2026-03-20")};
    struct buf *said = buf_new();
    size_t n;

    j->rule.takes = 60;
    s->places[0].minutes = 60;
    s->options.changes = &shut;
    s->options.n_changes = 1;
    shop_has(s, s->k7, j, LAST);
    shop_has(s, s->k8, j, LAST);
    shop_plan(s);
    plan_words_cure(
        s->plan, plan_clashes(fleet_plan_solution(s->plan), &n), said);
    assert_int_equal(n, 1);
    assert_string_equal(
        buf_str(said), "more hours at The yard on Mon 2026-03-23 would do");
    buf_clear(said);
    s->places[0].minutes = 0;
    shop_limit(s, 1);
    shop_plan(s);
    plan_words_cure(
        s->plan, plan_clashes(fleet_plan_solution(s->plan), &n), said);
    assert_int_equal(n, 1);
    assert_string_equal(
        buf_str(said), "one more away of Buses on Mon 2026-03-23 would do");
    buf_free(said);
}

static void
what_if(void **state)
{
    struct shop *s = *state;
    struct job *j = world_loose_job(s->w, "check", "12 weeks");
    struct change c = {.kind = CHANGE_HOLIDAY,
        .from = date("2026-03-20"),
        .to = date("2026-03-23")};

    s->options.changes = &c;
    s->options.n_changes = 1;
    shop_has(s, s->k7, j, LAST);
    shop_has(s, s->k8, j, LAST);
    shop_plan(s);
    assert_booked(s, s->k7, j, 0, "2026-03-19");
    c = (struct change){.kind = CHANGE_SOLD, .subject = s->k7};
    shop_plan(s);
    assert_null(shop_find(s, s->k7, j, 0));
    assert_booked(s, s->k8, j, 0, DUE);
    c = (struct change){
        .kind = CHANGE_VEHICLES, .place = &s->places[0], .amount = 1};
    shop_plan(s);
    assert_booked(s, s->k8, j, 0, "2026-03-20");
    shop_limit(s, 2);
    c = (struct change){.kind = CHANGE_AWAY, .limit = &s->limit, .amount = 1};
    shop_plan(s);
    assert_booked(s, s->k8, j, 0, "2026-03-20");
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        SHOP_TEST(one_after_another),
        SHOP_TEST(equipment_comes_with_its_carrier),
        SHOP_TEST(a_place_takes_so_many),
        SHOP_TEST(a_place_has_so_many_hours),
        SHOP_TEST(only_so_many_are_away),
        SHOP_TEST(off_the_road_is_away),
        SHOP_TEST(nothing_is_planned_off_the_road),
        SHOP_TEST(what_is_overdue_is_done_before_the_return),
        SHOP_TEST(a_yard_shut_for_the_whole_spell),
        SHOP_TEST(what_is_overdue_is_put_off_no_longer_than_needed),
        SHOP_TEST(what_has_no_day_is_listed),
        SHOP_TEST(a_wider_job_does_for_a_narrow_one),
        SHOP_TEST(what_is_done_too_early_is_not_covered),
        SHOP_TEST(the_order_of_the_file_decides_nothing),
        SHOP_TEST(a_fixed_day_is_kept),
        SHOP_TEST(an_earlier_plan_is_held_to),
        SHOP_TEST(each_call_keeps_its_own_day),
        SHOP_TEST(no_sooner_than_it_can_be_arranged),
        SHOP_TEST(what_is_overdue_comes_first),
        SHOP_TEST(what_would_help_is_told),
        SHOP_TEST(what_is_short_is_named),
        SHOP_TEST(what_if),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
