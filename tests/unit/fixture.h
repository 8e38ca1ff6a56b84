#ifndef FIXTURE_H
#define FIXTURE_H

/*
 * A fleet in a few lines, for tests of the due layer.  It starts with one
 * vehicle, K7, at one depot that works Monday to Friday and has no holidays;
 * nothing of the vehicle is known.
 */

#include "arena.h"
#include "days.h"
#include "kind.h"
#include "reasoned.h"
#include "record.h"
#include "scan.h"
#include "snapshot.h"
#include "test.h"
#include "work_calendar.h"

#include <stdlib.h>
#include <string.h>

#define WORLD_SUBJECTS 8
#define WORLD_JOBS 8
#define WORLD_TASKS 32
#define WORLD_RECORDS 400
#define WEEKDAYS 0x1fu /* Monday to Friday */

struct world {
    struct arena *arena;
    struct work_calendar *calendar;
    struct depot depot;
    struct subject subjects[WORLD_SUBJECTS];
    struct job jobs[WORLD_JOBS];
    struct task tasks[WORLD_TASKS];       /* as added */
    struct task grouped[WORLD_TASKS];     /* by subject, as a fleet has them */
    struct record records[WORLD_RECORDS]; /* as added */
    struct record sorted[WORLD_RECORDS];
    size_t first[WORLD_SUBJECTS + 1];
    size_t n_subjects, n_jobs, n_tasks, n_records;
    struct fleet fleet;
    struct facts facts;
    struct snapshot *snapshot; /* the last one made */
};

static inline struct subject *
world_subject(struct world *w, const char *id)
{
    struct subject *s = &w->subjects[w->n_subjects];

    assert_true(w->n_subjects < WORLD_SUBJECTS);
    *s = (struct subject){.id = id,
        .index = w->n_subjects++,
        .registered = DAY_NONE,
        .built = DAY_NONE,
        .in_service = DAY_NONE,
        .depot = &w->depot};
    return s;
}

/* The depot's calendar, made anew from that plan; also each task's. */
static inline void
world_calendar(struct world *w, const struct work_calendar_plan *plan)
{
    struct work_calendar *made = work_calendar_new(plan);

    assert_non_null(made);
    for (size_t i = 0; i < w->n_tasks; i++)
        if (w->tasks[i].calendar == w->calendar)
            w->tasks[i].calendar = made;
    work_calendar_free(w->calendar);
    w->calendar = made;
    w->depot.calendar = made;
}

/* A world whose depot has no calendar yet, nor any subject. */
static inline struct world *
world_bare(void)
{
    struct world *w = calloc(1, sizeof *w);

    assert_non_null(w);
    w->arena = arena_new();
    assert_non_null(w->arena);
    w->depot = (struct depot){.id = "harbour", .time_zone = "UTC"};
    return w;
}

static inline struct world *
world_new(void)
{
    struct world *w = world_bare();

    world_calendar(w, &(struct work_calendar_plan){.works = WEEKDAYS});
    world_subject(w, "K7");
    return w;
}

static inline void
world_free(struct world *w)
{
    snapshot_free(w->snapshot);
    work_calendar_free(w->calendar);
    arena_free(w->arena);
    free(w);
}

/* A world of its own for each test that is listed as a WORLD_TEST. */
static inline int
world_setup(void **state)
{
    *state = world_new();
    return 0;
}

static inline int
world_teardown(void **state)
{
    world_free(*state);
    return 0;
}

#define WORLD_TEST(f)                                                          \
    cmocka_unit_test_setup_teardown(f, world_setup, world_teardown)

/* What is left to set of a rule is zero: the first word of each choice. */
static inline void
world_every(struct world *w, struct rule *rule, const char *text)
{
    struct scan s = scan_start(text);

    *rule = (struct rule){.first.on = DAY_NONE};
    do {
        assert_true(rule->n_every < RULE_INTERVALS);
        if (kind_parse(&s, w->arena, &rule->every[rule->n_every++]))
            fail_msg("no kind reads: %s", text);
    } while (scan_word(&s, "or"));
    assert_true(scan_end(&s));
}

/* A job that no subject has yet. */
static inline struct job *
world_loose_job(struct world *w, const char *id, const char *every)
{
    struct job *j = &w->jobs[w->n_jobs];

    assert_true(w->n_jobs < WORLD_JOBS);
    *j = (struct job){
        .id = id, .title = id, .class = CLASS_OWN, .index = w->n_jobs++};
    world_every(w, &j->rule, every);
    return j;
}

static inline struct task *
world_task(struct world *w, struct subject *s, struct job *j)
{
    struct task *t = &w->tasks[w->n_tasks++];

    assert_true(w->n_tasks <= WORLD_TASKS);
    *t = (struct task){.subject = s,
        .job = j,
        .rule = &j->rule,
        .calendar = w->calendar,
        .baseline = {.last = DAY_NONE,
            .deadline = DAY_NONE,
            .last_reading = {-1, -1, -1}}};
    return t;
}

/* A job of the vehicle K7; the caller changes its rule as the test needs. */
static inline struct job *
world_job(struct world *w, const char *id, const char *every)
{
    struct job *j = world_loose_job(w, id, every);

    world_task(w, &w->subjects[0], j);
    return j;
}

static inline struct record *
world_record(struct world *w, enum record_kind kind, const char *day)
{
    struct record *k = &w->records[w->n_records++];

    assert_true(w->n_records <= WORLD_RECORDS);
    *k = (struct record){.id = (int64_t)w->n_records,
        .kind = kind,
        .subject = &w->subjects[0],
        .subject_id = "K7",
        .day = date(day),
        .until = DAY_NONE,
        .reading = -1};
    return k;
}

/* The job was done on that day; the caller may change the record. */
static inline struct record *
world_done(struct world *w, const struct job *j, const char *day)
{
    struct record *k = world_record(w, RECORD_COMPLETED, day);

    k->job = j;
    k->job_id = j->id;
    return k;
}

static inline struct record *
world_reading(struct world *w, const char *day, int64_t value)
{
    struct record *k = world_record(w, RECORD_READING, day);

    k->meter = METER_DISTANCE;
    k->reading = value;
    return k;
}

static inline struct record *
world_off_road(struct world *w, const char *from, const char *until)
{
    struct record *k = world_record(w, RECORD_OFF_ROAD, from);

    k->until = date(until);
    return k;
}

/* Bring the lists into the order that a fleet has. */
static inline void
world_group(struct world *w)
{
    size_t n = 0;

    for (size_t s = 0; s < w->n_subjects; s++) {
        w->subjects[s].first_task = n;
        for (size_t i = 0; i < w->n_tasks; i++)
            if (w->tasks[i].subject == &w->subjects[s])
                w->grouped[n++] = w->tasks[i];
        w->subjects[s].n_tasks = n - w->subjects[s].first_task;
    }
    memcpy(w->sorted, w->records, w->n_records * sizeof *w->records);
    w->fleet = (struct fleet){.depots = &w->depot,
        .n_depots = 1,
        .jobs = w->jobs,
        .n_jobs = w->n_jobs,
        .subjects = w->subjects,
        .n_subjects = w->n_subjects,
        .tasks = w->grouped,
        .n_tasks = n};
    w->facts = facts_of(&w->fleet, w->sorted, w->n_records, w->first);
}

/* All dues on @today, with reasons, projected up to @horizon. */
static inline const struct snapshot *
world_snapshot_to(struct world *w, day_t today, day_t horizon)
{
    struct snapshot_options options = {
        .today = today, .horizon = horizon, .reasons = 1};

    world_group(w);
    snapshot_free(w->snapshot);
    w->snapshot = snapshot_new(&w->facts, &options);
    assert_non_null(w->snapshot);
    return w->snapshot;
}

static inline const struct snapshot *
world_snapshot(struct world *w, const char *today, const char *horizon)
{
    return world_snapshot_to(w, date(today), date(horizon));
}

/* The due of the last snapshot for that job, so many cycles ahead, or NULL;
 * of the subject with that number. */
static inline const struct due *
world_find_of(
    const struct world *w, size_t subject, const struct job *j, int ahead)
{
    size_t n;
    const struct due *dues = snapshot_dues(w->snapshot, &n);

    for (size_t i = 0; i < n; i++)
        if (dues[i].task->job == j && dues[i].cycle.ahead == ahead &&
            dues[i].task->subject == &w->subjects[subject])
            return &dues[i];
    return NULL;
}

static inline const struct due *
world_find(const struct world *w, const struct job *j, int ahead)
{
    return world_find_of(w, 0, j, ahead);
}

/* The due of K7's job as things stand on @today; NULL when never due. */
static inline const struct due *
world_due(struct world *w, const struct job *j, const char *today)
{
    world_snapshot(w, today, "-");
    return world_find(w, j, 0);
}

/* Fail unless K7's job, looked at on 2026-01-01, has that deadline. */
#define assert_deadline(w, j, text)                                            \
    do {                                                                       \
        const struct due *due_ = world_due((w), (j), "2026-01-01");            \
        assert_non_null(due_);                                                 \
        assert_reasoned(due_);                                                 \
        assert_day(due_->deadline, (text));                                    \
    } while (0)

#endif
