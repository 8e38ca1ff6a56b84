/* The condition of a vehicle, by section 8 of the design and its rules. */

#include "condition.h"
#include "fixture.h"

#define TODAY "2026-03-02"

/* The condition of K7 on that day; its reasons are in @c. */
static const struct vehicle_condition *
condition_on(struct world *w, const char *today, struct defects **ds,
    struct conditions **c)
{
    const struct snapshot *s = world_snapshot(w, today, "-");

    if (*ds == NULL)
        *ds = defects_new(&w->fleet);
    conditions_free(*c);
    *c = conditions_new(s, *ds, w->records, w->n_records);
    assert_non_null(*c);
    return conditions_of(*c, &w->subjects[0]);
}

#define CONDITION_IS(day, word, why)                                           \
    do {                                                                       \
        const struct vehicle_condition *v = condition_on(w, (day), &ds, &c);   \
        assert_string_equal(condition_word(v->condition), (word));             \
        assert_string_equal(                                                   \
            v->n_stops ? stop_word(v->stops[0].kind) : "", (why));             \
    } while (0)

static void
nothing_known_against_it_is_fit(void **state)
{
    struct world *w = *state;
    struct defects *ds = NULL;
    struct conditions *c = NULL;

    CONDITION_IS(TODAY, "fit", "");
    conditions_free(c);
    defects_free(ds);
}

/* The deadline 2026-03-01 is past on the 2nd, and not on its own day. */
static void
a_law_job_stops_the_day_after_its_deadline(void **state)
{
    struct world *w = *state;
    struct defects *ds = NULL;
    struct conditions *c = NULL;
    struct job *j = world_job(w, "annual-test", "12 months");

    j->class = CLASS_LAW;
    j->overdue = OVERDUE_STOPS;
    world_done(w, j, "2025-03-01");
    CONDITION_IS("2026-03-01", "fit", "");
    CONDITION_IS(TODAY, "not-to-be-driven", "overdue");
    j->overdue = OVERDUE_WARNS;
    CONDITION_IS(TODAY, "fit", "");
    conditions_free(c);
    defects_free(ds);
}

static void
rule_11_a_law_job_without_a_record_is_not_known(void **state)
{
    struct world *w = *state;
    struct defects *ds = NULL;
    struct conditions *c = NULL;
    struct job *j = world_job(w, "annual-test", "12 months");

    CONDITION_IS(TODAY, "fit", "");
    j->class = CLASS_LAW;
    CONDITION_IS(TODAY, "not-known", "no-record");
    w->subjects[0].kind = SUBJECT_DRIVER;
    assert_null(condition_on(w, TODAY, &ds, &c));
    conditions_free(c);
    defects_free(ds);
}

static void
rule_9_a_failure_stops_until_it_is_released(void **state)
{
    struct world *w = *state;
    struct defects *ds = NULL;
    struct conditions *c = NULL;
    struct job *j = world_job(w, "annual-test", "12 months");

    j->failure = FAILURE_STOPS;
    world_done(w, j, "2026-01-05");
    world_done(w, j, "2026-02-27")->kind = RECORD_FAILED;
    CONDITION_IS(TODAY, "not-to-be-driven", "failed");
    assert_int_equal(
        defects_add(ds,
            &(struct defect_event){
                .id = 3, .kind = EVENT_RELEASED, .about = 2, .by = "ann"}),
        0);
    CONDITION_IS(TODAY, "fit", "");
    conditions_free(c);
    defects_free(ds);
}

/* Both last days of the spell count, and the day after does not. */
static void
a_spell_off_the_road_stops_it(void **state)
{
    struct world *w = *state;
    struct defects *ds = NULL;
    struct conditions *c = NULL;

    world_off_road(w, TODAY, "2026-03-04");
    CONDITION_IS("2026-03-01", "fit", "");
    CONDITION_IS(TODAY, "not-to-be-driven", "off-road");
    CONDITION_IS("2026-03-04", "not-to-be-driven", "off-road");
    CONDITION_IS("2026-03-05", "fit", "");
    conditions_free(c);
    defects_free(ds);
}

/* A minor is an open defect, not known is graver, and what stops is gravest. */
static void
the_gravest_reason_decides_and_all_are_kept(void **state)
{
    struct world *w = *state;
    struct defects *ds = NULL;
    struct conditions *c = NULL;
    struct defect_event e = {.kind = EVENT_REPORTED,
        .id = 1,
        .number = 1,
        .subject = &w->subjects[0],
        .subject_id = "K7",
        .item = "T1",
        .grade = GRADE_MINOR,
        .at = {date(TODAY), 420},
        .until = DAY_NONE};

    CONDITION_IS(TODAY, "fit", "");
    assert_int_equal(defects_add(ds, &e), 0);
    CONDITION_IS(TODAY, "open-defects", "open");
    w->subjects[0].first_use = FIRST_USE_CHECK;
    CONDITION_IS(TODAY, "not-known", "first-use");
    e.id = 2;
    e.number = 2;
    e.item = "L1";
    e.grade = GRADE_MAJOR;
    assert_int_equal(defects_add(ds, &e), 0);
    CONDITION_IS(TODAY, "not-to-be-driven", "defect");
    assert_int_equal(conditions_of(c, &w->subjects[0])->n_stops, 3);
    conditions_free(c);
    defects_free(ds);
}

static void
rule_10_what_left_is_not_to_be_driven(void **state)
{
    struct world *w = *state;
    struct defects *ds = NULL;
    struct conditions *c = NULL;

    world_record(w, RECORD_LEFT, TODAY);
    CONDITION_IS(TODAY, "not-to-be-driven", "left");
    conditions_free(c);
    defects_free(ds);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        WORLD_TEST(nothing_known_against_it_is_fit),
        WORLD_TEST(a_law_job_stops_the_day_after_its_deadline),
        WORLD_TEST(rule_11_a_law_job_without_a_record_is_not_known),
        WORLD_TEST(rule_9_a_failure_stops_until_it_is_released),
        WORLD_TEST(a_spell_off_the_road_stops_it),
        WORLD_TEST(the_gravest_reason_decides_and_all_are_kept),
        WORLD_TEST(rule_10_what_left_is_not_to_be_driven),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
