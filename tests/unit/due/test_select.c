/* Choosing some of a snapshot's dues. */
#include <stdio.h>

#include "fixture.h"
#include "select.h"
#include "test.h"

/* K7 at the harbour carries EX-31; K8 stands at the quarry.  Each has its
 * jobs; the days are working days. */
struct fleet_of_three {
    struct job *test, *oil, *service;
    struct subject *ex31, *k8;
    struct depot quarry;
};

static struct fleet_of_three
three(struct world *w)
{
    struct fleet_of_three f = {
        .test = world_job(w, "test", "12 months"),
        .oil = world_job(w, "oil", "6 months"),
        .service = world_loose_job(w, "service", "12 months"),
        .ex31 = world_subject(w, "EX-31"),
        .k8 = world_subject(w, "K8"),
    };

    f.ex31->carrier = &w->subjects[0];
    f.ex31->depot = NULL;
    world_task(w, f.ex31, f.service);
    world_task(w, f.k8, f.test);
    world_done(w, f.test, "2025-03-03");
    world_done(w, f.oil, "2025-08-04");
    world_done(w, f.service, "2025-02-02")->subject = f.ex31;
    return f;
}

/* The chosen as "subject/job+ahead" words. */
static void
assert_chosen(struct world *w, const struct filter *f, const char *want)
{
    struct selection chosen;
    char got[400] = "";

    assert_int_equal(select_dues(w->snapshot, f, &chosen), 0);
    assert_ptr_equal(chosen.of, w->snapshot);
    for (size_t i = 0; i < chosen.n; i++) {
        const struct due *d = chosen.dues[i];
        size_t len = strlen(got);
        snprintf(got + len, sizeof got - len, "%s%s/%s", i ? " " : "",
            d->task->subject->id, d->task->job->id);
        len = strlen(got);
        if (d->cycle.ahead)
            snprintf(got + len, sizeof got - len, "+%d", d->cycle.ahead);
    }
    assert_string_equal(got, want);
    free(chosen.dues);
}

static void
all_current_ones(void **state)
{
    struct world *w = *state;

    three(w);
    world_snapshot(w, "2026-02-03", "2027-03-03");
    assert_chosen(w, &(struct filter){.states = 0},
        "K8/test EX-31/service K7/oil K7/test");
}

static void
of_a_subject_and_what_it_carries(void **state)
{
    struct world *w = *state;
    struct fleet_of_three f = three(w);

    world_snapshot(w, "2026-02-03", "-");
    assert_chosen(w, &(struct filter){.subject = &w->subjects[0]},
        "EX-31/service K7/oil K7/test");
    assert_chosen(w, &(struct filter){.subject = f.ex31}, "EX-31/service");
    assert_chosen(w, &(struct filter){.subject = f.k8}, "K8/test");
}

static void
of_a_job_a_depot_and_a_state(void **state)
{
    struct world *w = *state;
    struct fleet_of_three f = three(w);

    f.k8->depot = &f.quarry;
    world_snapshot(w, "2026-02-03", "-");
    assert_chosen(w, &(struct filter){.job = f.test}, "K8/test K7/test");
    assert_chosen(w, &(struct filter){.depot = &w->depot},
        "EX-31/service K7/oil K7/test");
    assert_chosen(w, &(struct filter){.depot = &f.quarry}, "K8/test");
    assert_chosen(
        w, &(struct filter){.states = 1u << DUE_OVERDUE}, "EX-31/service");
    assert_chosen(w,
        &(struct filter){.states = 1u << DUE_NO_RECORD | 1u << DUE_NOW},
        "K8/test K7/oil");
    assert_chosen(
        w, &(struct filter){.job = f.test, .depot = &f.quarry}, "K8/test");
}

/* Oil is due Wed 2026-02-04, the test Tue 2026-03-03. */
static void
up_to_a_day(void **state)
{
    struct world *w = *state;

    three(w);
    world_snapshot(w, "2026-02-03", "-");
    assert_chosen(w, &(struct filter){.until = date("2026-02-03")},
        "K8/test EX-31/service");
    assert_chosen(w, &(struct filter){.until = date("2026-02-04")},
        "K8/test EX-31/service K7/oil");
    assert_chosen(w, &(struct filter){.until = date("2026-03-03")},
        "K8/test EX-31/service K7/oil K7/test");
    assert_chosen(w, &(struct filter){.until = DAY_NONE},
        "K8/test EX-31/service K7/oil K7/test");
}

/* What needs a reading may be due any day. */
static void
a_needed_reading_is_always_in_time(void **state)
{
    struct world *w = *state;
    struct fleet_of_three f = three(w);

    world_every(w, &f.test->rule, "12 months or 20000 km");
    world_snapshot(w, "2026-02-03", "-");
    assert_chosen(w,
        &(struct filter){.until = date("2026-02-03"), .job = f.test},
        "K8/test K7/test");
    /* One cycle on is 2027-03-03, by the time alone, and no matter yet. */
    world_snapshot(w, "2026-02-03", "2028-01-01");
    assert_chosen(w,
        &(struct filter){
            .until = date("2027-03-02"), .job = f.test, .projected = 1},
        "K8/test K7/test");
    assert_chosen(w,
        &(struct filter){
            .until = date("2027-03-03"), .job = f.test, .projected = 1},
        "K8/test K7/test K7/test+1");
}

/* What was done on a day to come, or failed, may be due any day too. */
static void
what_matters_at_once_is_always_in_time(void **state)
{
    struct world *w = *state;
    struct fleet_of_three f = three(w);
    struct filter tests = {.until = date("2026-02-03"), .job = f.test};

    world_snapshot(w, "2026-02-03", "-");
    assert_chosen(w, &tests, "K8/test");
    world_done(w, f.test, "2026-02-02")->kind = RECORD_FAILED;
    world_snapshot(w, "2026-02-03", "2028-01-01");
    assert_chosen(w, &tests, "K7/test K8/test");
    /* A calendar has it too, and nothing further off. */
    tests.projected = 1;
    assert_chosen(w, &tests, "K7/test K8/test");
}

static void
coming_cycles_when_asked(void **state)
{
    struct world *w = *state;
    struct fleet_of_three f = three(w);

    /* 2026-02-04 and then half a year on, twice. */
    world_snapshot(w, "2026-02-03", "2027-02-28");
    assert_chosen(w, &(struct filter){.job = f.oil}, "K7/oil");
    assert_chosen(w, &(struct filter){.job = f.oil, .projected = 1},
        "K7/oil K7/oil+1 K7/oil+2");
    assert_chosen(w,
        &(struct filter){
            .job = f.oil, .projected = 1, .until = date("2026-08-04")},
        "K7/oil K7/oil+1");
    assert_chosen(w,
        &(struct filter){
            .job = f.oil, .projected = 1, .from = date("2026-08-04")},
        "K7/oil K7/oil+1 K7/oil+2");
    assert_chosen(w,
        &(struct filter){
            .job = f.oil, .projected = 1, .from = date("2026-08-05")},
        "K7/oil K7/oil+2");
}

static void
by_any_of_several_scopes(void **state)
{
    struct world *w = *state;
    struct fleet_of_three f = three(w);
    struct scope scopes[] = {{SCOPE_JOB, f.oil}, {SCOPE_SUBJECT, f.k8}};
    struct scope all = {SCOPE_ALL, NULL};
    struct scope bus = {SCOPE_SUBJECT, &w->subjects[0]};
    struct scope depot = {SCOPE_DEPOT, &w->depot};

    f.k8->depot = &f.quarry;
    world_snapshot(w, "2026-02-03", "-");
    assert_chosen(
        w, &(struct filter){.scopes = scopes, .n_scopes = 2}, "K8/test K7/oil");
    assert_chosen(w, &(struct filter){.scopes = &all, .n_scopes = 1},
        "K8/test EX-31/service K7/oil K7/test");
    assert_chosen(w, &(struct filter){.scopes = &bus, .n_scopes = 1},
        "EX-31/service K7/oil K7/test");
    assert_chosen(w, &(struct filter){.scopes = &depot, .n_scopes = 1},
        "EX-31/service K7/oil K7/test");
    /* What a person is told of, who is told of the first two scopes. */
    const struct person fitter = {.told = scopes, .n_told = 2};
    const struct person nobody = {.n_told = 0};
    struct scope persons[] = {{SCOPE_PERSON, &nobody}, {SCOPE_PERSON, &fitter}};
    assert_chosen(w, &(struct filter){.scopes = persons, .n_scopes = 2},
        "K8/test K7/oil");
    assert_chosen(w, &(struct filter){.scopes = persons, .n_scopes = 1}, "");
}

static void
the_day_a_due_is_listed_by(void **state)
{
    struct due d = {.plan_day = 5, .deadline = 9};

    (void)state;
    assert_int_equal(select_day(&d), 5);
    d.plan_day = DAY_NONE;
    assert_int_equal(select_day(&d), 9);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        WORLD_TEST(all_current_ones),
        WORLD_TEST(of_a_subject_and_what_it_carries),
        WORLD_TEST(of_a_job_a_depot_and_a_state),
        WORLD_TEST(up_to_a_day),
        WORLD_TEST(a_needed_reading_is_always_in_time),
        WORLD_TEST(what_matters_at_once_is_always_in_time),
        WORLD_TEST(coming_cycles_when_asked),
        WORLD_TEST(by_any_of_several_scopes),
        WORLD_TEST(the_day_a_due_is_listed_by),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
