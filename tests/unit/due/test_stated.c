/* A first deadline that the fleet file states, and older work written down
 * after it: an old card, the test of last year. */
#include "fixture.h"
#include "test.h"

/* A card that runs out on 9 September 2027, good for five years. */
static struct job *
card(struct world *w, enum runs_from runs_from)
{
    struct job *j = world_job(w, "card", "5 years");

    j->rule.runs_from = runs_from;
    if (runs_from == KEEPS_DATE)
        j->rule.window = (struct span){1, STEP_MONTHS};
    w->tasks[w->n_tasks - 1].baseline.deadline = date("2027-09-09");
    return j;
}

/* The old card of 1 September 2022 led to the stated day, whatever it runs
 * from.  The due is the one that it was, so its event does not move. */
static void
the_old_card_does_not_use_it_up(void **state)
{
    struct world *w = *state;

    for (int from = FROM_COMPLETION; from <= KEEPS_DATE; from++) {
        struct job *j = card(w, (enum runs_from)from);
        assert_deadline(w, j, "2027-09-09");
        struct cycle before = world_find(w, j, 0)->cycle;
        world_done(w, j, "2022-09-01");
        assert_deadline(w, j, "2027-09-09");
        const struct due *d = world_find(w, j, 0);
        assert_int_equal(d->cycle.record, before.record);
        assert_int_equal(d->cycle.start, before.start);
        assert_day(d->last_done, "2022-09-01");
        assert_true(says(d, "the fleet file states this deadline"));
        assert_reasoned(d);
    }
}

/* Five years after that the old card would have been due for the next time:
 * 32 is where the program once put it. */
static void
later_work_counts_by_the_usual_rule(void **state)
{
    static const char *const want[][3] = {
        /* completion, deadline, keeping the date; the window of 9 September
         * opens on 10 August, half of the time is over in March 2025 */
        {"2032-08-20", "2032-09-09", "2032-09-09"}, /* done 2027-08-20 */
        {"2031-12-01", "2032-09-09", "2031-12-01"}, /* 2026-12-01 */
        {"2028-01-10", "2027-09-09", "2028-01-10"}, /* 2023-01-10 */
    };
    static const char *const done[] = {
        "2027-08-20", "2026-12-01", "2023-01-10"};
    struct world *w = *state;

    for (int from = FROM_COMPLETION; from <= KEEPS_DATE; from++) {
        struct job *j = card(w, (enum runs_from)from);
        world_done(w, j, "2022-09-01");
        struct record *k = world_done(w, j, "2027-08-20");
        for (size_t i = 0; i < COUNT(done); i++) {
            k->day = date(done[i]);
            assert_deadline(w, j, want[i][from]);
        }
    }
}

/* A window of a month after 9 September 2022: the 8th of October is too early,
 * the 9th is not. */
static void
from_the_deadline_before_and_a_window_on(void **state)
{
    struct world *w = *state;
    struct job *j = card(w, KEEPS_DATE);
    struct record *k = world_done(w, j, "2022-10-08");

    assert_deadline(w, j, "2027-09-09");
    assert_true(says(world_find(w, j, 0), "from Sun 2022-10-09 on"));
    k->day = date("2022-10-09");
    assert_deadline(w, j, "2027-10-09");
}

/* From twelve years of age every six weeks: the deadline before 10 January 2027
 * was 29 November 2026 at the earliest. */
static void
by_the_interval_of_that_age(void **state)
{
    struct world *w = *state;
    struct job *j = world_job(w, "inspection", "10 weeks");

    w->subjects[0].registered = date("2014-12-10");
    j->rule.ages[0] = (struct age_step){{12, STEP_YEARS}, {6, STEP_WEEKS}};
    j->rule.n_ages = 1;
    j->rule.age_from = ORIGIN_REGISTERED;
    w->tasks[0].baseline.deadline = date("2027-01-10");
    struct record *k = world_done(w, j, "2026-11-28");
    assert_deadline(w, j, "2027-01-10");
    k->day = date("2026-11-30");
    assert_deadline(w, j, "2027-01-11");
}

/* Each kind of interval, by the key of the subject and by that of the job; all
 * that is older than an interval before the day leaves it. */
static void
whatever_the_interval_and_the_history(void **state)
{
    static const struct {
        const char *every;
        const char *stated;
        const char *before; /* one interval earlier */
    } kinds[] = {
        {"12 months", "2027-03-31", "2026-03-31"},
        {"13 weeks", "2026-12-20", "2026-09-20"},
        {"yearly on 1 nov", "2027-11-01", "2026-11-01"},
        {"rule FREQ=MONTHLY;INTERVAL=3 from 2020-02-01", "2027-02-01",
            "2026-11-01"},
        {"rule FREQ=MONTHLY;INTERVAL=3 from 2027-02-01", "2027-02-01",
            "2026-11-04"}, /* 89 days lie between the first two */
        {"4 within 12 months", "2027-01-10", "2026-10-10"},
        {"12 months or yearly on 31 mar", "2027-03-31", "2026-03-31"},
    };
    struct world *w = *state;

    for (size_t i = 0; i < COUNT(kinds) * 2; i++) {
        const char *stated = kinds[i / 2].stated;
        world_free(w);
        *state = w = world_new();
        struct job *j = world_job(w, "job", kinds[i / 2].every);
        if (i % 2)
            j->rule.first =
                (struct first){.origin = ORIGIN_ON, .on = date(stated)};
        else
            w->tasks[0].baseline.deadline = date(stated);
        for (int from = FROM_COMPLETION; from <= FROM_DEADLINE; from++) {
            j->rule.runs_from = (enum runs_from)from;
            w->n_records = 0;
            for (int n = 1; n <= 40; n++) {
                struct record *k = world_done(w, j, "2000-01-01");
                k->day = date(kinds[i / 2].before) - n * n;
                assert_deadline(w, j, stated);
            }
        }
    }
}

/* Four tests are on record, the last three months and more before the day; a
 * fifth counts, and the fourth last is then that of 1 May. */
static void
a_count_begins_with_work_for_the_day(void **state)
{
    static const char *const done[] = {
        "2026-02-01", "2026-05-01", "2026-08-01", "2026-09-01"};
    struct world *w = *state;
    struct job *j = world_job(w, "brakes", "4 within 12 months");

    w->tasks[0].baseline.deadline = date("2027-01-10");
    for (size_t i = 0; i < COUNT(done); i++) {
        world_done(w, j, done[i]);
        assert_deadline(w, j, "2027-01-10");
    }
    world_done(w, j, "2026-10-10");
    assert_deadline(w, j, "2027-05-01");
}

/* A stated day is one of the calendar: a meter counts from what was done last.
 * 20000 km after 10000 are long over. */
static void
a_meter_counts_from_older_work_all_the_same(void **state)
{
    struct world *w = *state;
    struct job *j = world_job(w, "oil", "12 months or 20000 km");

    w->tasks[0].baseline.deadline = date("2027-03-31");
    struct record *k = world_done(w, j, "2024-01-10");
    k->meter = METER_DISTANCE;
    k->reading = 10000;
    world_reading(w, "2026-11-01", 40000);
    const struct due *d = world_due(w, j, "2026-11-02");
    assert_day(d->deadline, "2026-11-01");
    assert_int_equal(d->due_reading, 30000);
}

/* Beside the day on which it was last done, the day is that of a certificate:
 * a record of the same day leaves it, and so does one before. */
static void
a_certificate_stands(void **state)
{
    struct world *w = *state;
    struct job *j = world_job(w, "test", "12 months");

    w->tasks[0].baseline.last = date("2026-03-14");
    w->tasks[0].baseline.deadline = date("2027-03-31");
    world_done(w, j, "2026-03-14");
    assert_deadline(w, j, "2027-03-31");
    world_done(w, j, "2025-11-01");
    assert_deadline(w, j, "2027-03-31");
}

/* What was done since is newer than the certificate: too early for its
 * deadline, it moves it no later, in whatever rhythm.  13 weeks before 17
 * November 2023 is 18 August. */
static void
nor_is_it_used_up_by_work_after_it(void **state)
{
    struct world *w = *state;
    struct job *j = world_job(w, "inspection", "13 weeks");

    j->rule.runs_from = FROM_DEADLINE;
    w->tasks[0].baseline.last = date("2022-01-31");
    w->tasks[0].baseline.deadline = date("2023-11-17");
    world_done(w, j, "2023-01-20");
    assert_deadline(w, j, "2023-11-17");
    world_done(w, j, "2023-08-17");
    assert_deadline(w, j, "2023-11-17");
    world_done(w, j, "2023-11-01");
    assert_deadline(w, j, "2024-02-16");
}

/* But an earlier day is taken: twelve months from the newer work. */
static void
newer_work_may_bring_an_earlier_day(void **state)
{
    struct world *w = *state;
    struct job *j = world_job(w, "test", "12 months");

    w->tasks[0].baseline.last = date("2026-01-10");
    w->tasks[0].baseline.deadline = date("2027-06-30");
    world_done(w, j, "2026-05-01");
    assert_deadline(w, j, "2027-05-01");
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        WORLD_TEST(the_old_card_does_not_use_it_up),
        WORLD_TEST(later_work_counts_by_the_usual_rule),
        WORLD_TEST(from_the_deadline_before_and_a_window_on),
        WORLD_TEST(by_the_interval_of_that_age),
        WORLD_TEST(whatever_the_interval_and_the_history),
        WORLD_TEST(a_count_begins_with_work_for_the_day),
        WORLD_TEST(a_meter_counts_from_older_work_all_the_same),
        WORLD_TEST(a_certificate_stands),
        WORLD_TEST(nor_is_it_used_up_by_work_after_it),
        WORLD_TEST(newer_work_may_bring_an_earlier_day),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
