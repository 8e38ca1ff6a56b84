/* A wider job counts as the narrower ones that it names, and as theirs. */
#include "cover.h"
#include "fixture.h"
#include "test.h"

static void
link_cover(struct world *w, struct job *wide, const struct job *narrow)
{
    const struct job **list = arena_take(w->arena, sizeof *list * 4);

    assert_non_null(list);
    for (size_t i = 0; i < wide->n_covers; i++)
        list[i] = wide->covers[i];
    list[wide->n_covers++] = narrow;
    wide->covers = list;
}

static void
the_wider_job_completes_the_narrower(void **state)
{
    struct world *w = *state;
    struct job *wide = world_job(w, "recalibration", "6 years");
    struct job *narrow = world_job(w, "inspection", "2 years");

    link_cover(w, wide, narrow);
    world_done(w, narrow, "2025-03-01");
    world_done(w, wide, "2025-09-10")->by = "Workshop";
    assert_deadline(w, narrow, "2027-09-10");
    assert_day(world_find(w, narrow, 0)->last_done, "2025-09-10");
    assert_int_equal(world_find(w, narrow, 0)->cycle.record, 2);
    assert_true(says(world_find(w, narrow, 0), "with: recalibration"));
    assert_deadline(w, wide, "2031-09-10");
}

static void
the_narrower_job_completes_nothing_wider(void **state)
{
    struct world *w = *state;
    struct job *wide = world_job(w, "recalibration", "6 years");
    struct job *narrow = world_job(w, "inspection", "2 years");

    link_cover(w, wide, narrow);
    world_done(w, wide, "2025-03-01");
    world_done(w, narrow, "2025-09-10");
    assert_deadline(w, wide, "2031-03-01");
    assert_day(world_find(w, wide, 0)->last_done, "2025-03-01");
}

static void
a_failed_wider_job_completes_nothing(void **state)
{
    struct world *w = *state;
    struct job *wide = world_job(w, "recalibration", "6 years");
    struct job *narrow = world_job(w, "inspection", "2 years");

    link_cover(w, wide, narrow);
    world_done(w, narrow, "2025-03-01");
    world_done(w, wide, "2025-09-10")->kind = RECORD_FAILED;
    assert_deadline(w, narrow, "2027-03-01");
}

/* Large covers medium covers small, and small covers large by mistake. */
static void
covers_of_covers(void **state)
{
    struct world *w = *state;
    struct job *large = world_job(w, "large", "3 years");
    struct job *medium = world_job(w, "medium", "2 years");
    struct job *small = world_job(w, "small", "1 year");
    struct job *other = world_job(w, "other", "1 year");

    link_cover(w, large, medium);
    link_cover(w, medium, small);
    world_group(w);
    struct cover *c = cover_new(&w->fleet);
    assert_non_null(c);
    assert_true(cover_by(c, small)[large->index]);
    assert_true(cover_by(c, small)[medium->index]);
    assert_false(cover_by(c, large)[small->index]);
    assert_false(cover_by(c, large)[medium->index]);
    assert_true(cover_by(c, other)[other->index]);
    assert_false(cover_by(c, other)[large->index]);
    assert_false(cover_by(c, small)[other->index]);
    cover_free(c);

    link_cover(w, small, large);
    c = cover_new(&w->fleet);
    assert_non_null(c);
    assert_true(cover_by(c, medium)[small->index]);
    assert_false(cover_by(c, other)[small->index]);
    cover_free(c);
}

/* The wider job need not be one of the subject's own jobs. */
static void
another_subjects_record_counts_for_nothing(void **state)
{
    struct world *w = *state;
    struct job *wide = world_loose_job(w, "recalibration", "6 years");
    struct job *narrow = world_job(w, "inspection", "2 years");
    struct subject *other = world_subject(w, "K8");

    link_cover(w, wide, narrow);
    world_done(w, narrow, "2025-03-01");
    world_done(w, wide, "2025-09-10")->subject = other;
    assert_deadline(w, narrow, "2027-03-01");
    w->records[1].subject = &w->subjects[0];
    assert_deadline(w, narrow, "2027-09-10");
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        WORLD_TEST(the_wider_job_completes_the_narrower),
        WORLD_TEST(the_narrower_job_completes_nothing_wider),
        WORLD_TEST(a_failed_wider_job_completes_nothing),
        WORLD_TEST(covers_of_covers),
        WORLD_TEST(another_subjects_record_counts_for_nothing),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
