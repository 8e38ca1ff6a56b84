/*
 * From facts in memory to a sorted snapshot of dues, without reasons: rate,
 * memory a due, and how both grow from a thousand dues to a million.  The peer
 * in the same run is the least that any answer takes: sorting as many dues of
 * the same size by day.
 */
#include "arena.h"
#include "kind.h"
#include "scan.h"
#include "snapshot.h"

#include <malloc.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

/* A minibus's jobs, as a workshop has them. */
static const struct {
    const char *every;
    enum ends ends;
    enum runs_from from;
    int done; /* completions on record */
} jobs[] = {
    {"12 months", ENDS_DAY_BEFORE, KEEPS_DATE, 4},
    {"6 weeks", ENDS_WEEK_END, FROM_COMPLETION, 9},
    {"10 weeks", ENDS_WEEK_END, FROM_COMPLETION, 5},
    {"2 years", ENDS_SAME_DAY, FROM_COMPLETION, 2},
    {"6 years", ENDS_SAME_DAY, FROM_COMPLETION, 1},
    {"6 months", ENDS_SAME_DAY, FROM_DEADLINE, 4},
    {"12 months", ENDS_SAME_DAY, FROM_COMPLETION, 2},
    {"5 years", ENDS_SAME_DAY, FROM_COMPLETION, 1},
    {"4 within 12 months", ENDS_SAME_DAY, FROM_COMPLETION, 6},
    {"12 months", ENDS_MONTH_END, KEEPS_DATE, 3},
    {"90 days", ENDS_SAME_DAY, FROM_COMPLETION, 4},
    {"28 days", ENDS_SAME_DAY, FROM_COMPLETION, 6},
    {"3 months", ENDS_SAME_DAY, FROM_COMPLETION, 0},
};
#define JOBS (sizeof jobs / sizeof jobs[0])
#define TODAY 20789 /* 2026-12-02 */

static double
seconds(void)
{
    struct timespec t;

    clock_gettime(CLOCK_MONOTONIC, &t);
    return (double)t.tv_sec + (double)t.tv_nsec / 1e9;
}

static size_t
heap_bytes(void)
{
    struct mallinfo2 m = mallinfo2();

    return m.uordblks + m.hblkhd;
}

static uint32_t
next_random(uint32_t *state)
{
    *state = *state * 1664525u + 1013904223u;
    return *state >> 8;
}

static void
make_jobs(struct arena *a, struct job *out)
{
    for (size_t i = 0; i < JOBS; i++) {
        struct scan s = scan_start(jobs[i].every);
        out[i] = (struct job){.id = arena_print(a, "job-%zu", i),
            .title = jobs[i].every,
            .class = CLASS_OWN,
            .index = i};
        struct rule *r = &out[i].rule;
        if (kind_parse(&s, a, &r->every[0]))
            abort();
        r->n_every = 1;
        r->ends = r->first_ends = jobs[i].ends;
        r->runs_from = jobs[i].from;
        r->window = (struct span){1, STEP_MONTHS};
        r->lead = (struct lead){{10, STEP_DAYS}, 1};
        r->first =
            (struct first){ORIGIN_REGISTERED, {3, STEP_MONTHS}, DAY_NONE};
    }
}

struct world {
    struct arena *arena;
    struct work_calendar *calendar;
    struct job jobs[JOBS];
    struct depot depot;
    struct subject *subjects;
    struct task *tasks;
    struct record *records;
    size_t *first;
    struct fleet fleet;
    struct facts facts;
};

static size_t
add_records(struct world *w, const struct subject *s, size_t n, uint32_t *seed)
{
    for (size_t k = 0; k < JOBS; k++)
        for (int i = 0; i < jobs[k].done; i++, n++)
            w->records[n] = (struct record){.id = (int64_t)n + 1,
                .kind = RECORD_COMPLETED,
                .subject = s,
                .job = &w->jobs[k],
                .day = TODAY - (day_t)(next_random(seed) % 1400),
                .until = DAY_NONE,
                .reading = -1};
    return n;
}

static void
make_world(struct world *w, size_t vehicles)
{
    size_t per_vehicle = 0;
    size_t n = 0;
    uint32_t seed = 1;
    struct work_calendar_plan plan = {.works = 0x1f};

    for (size_t k = 0; k < JOBS; k++)
        per_vehicle += (size_t)jobs[k].done;
    w->arena = arena_new();
    w->calendar = work_calendar_new(&plan);
    make_jobs(w->arena, w->jobs);
    w->depot = (struct depot){
        .id = "d", .title = "d", .time_zone = "UTC", .calendar = w->calendar};
    w->subjects = calloc(vehicles, sizeof *w->subjects);
    w->tasks = calloc(vehicles * JOBS, sizeof *w->tasks);
    w->records = calloc(vehicles * per_vehicle, sizeof *w->records);
    w->first = calloc(vehicles + 1, sizeof *w->first);
    for (size_t v = 0; v < vehicles; v++) {
        struct subject *s = &w->subjects[v];
        *s = (struct subject){.id = "v",
            .index = v,
            .registered = TODAY - 3000,
            .built = DAY_NONE,
            .in_service = DAY_NONE,
            .depot = &w->depot,
            .first_task = v * JOBS,
            .n_tasks = JOBS};
        for (size_t k = 0; k < JOBS; k++)
            w->tasks[v * JOBS + k] =
                (struct task){s, &w->jobs[k], &w->jobs[k].rule, w->calendar,
                    {DAY_NONE, DAY_NONE, {-1, -1, -1}, UNIT_KM}};
        n = add_records(w, s, n, &seed);
    }
    w->fleet = (struct fleet){.jobs = w->jobs,
        .n_jobs = JOBS,
        .subjects = w->subjects,
        .n_subjects = vehicles,
        .tasks = w->tasks,
        .n_tasks = vehicles * JOBS};
    w->facts = facts_of(&w->fleet, w->records, n, w->first);
}

static void
free_world(struct world *w)
{
    free(w->first);
    free(w->records);
    free(w->tasks);
    free(w->subjects);
    work_calendar_free(w->calendar);
    arena_free(w->arena);
}

static int
by_deadline(const void *left, const void *right)
{
    const struct due *a = left;
    const struct due *b = right;

    return (a->deadline > b->deadline) - (a->deadline < b->deadline);
}

/* Seconds to sort a shuffled copy of the dues. */
static double
time_of_sort(const struct due *dues, size_t n)
{
    struct due *copy = malloc(n * sizeof *copy);
    uint32_t seed = 7;

    memcpy(copy, dues, n * sizeof *copy);
    for (size_t i = n; i > 1; i--) {
        size_t j = next_random(&seed) % i;
        struct due t = copy[i - 1];
        copy[i - 1] = copy[j];
        copy[j] = t;
    }
    double start = seconds();
    qsort(copy, n, sizeof *copy, by_deadline);
    double took = seconds() - start;
    free(copy);
    return took;
}

int
main(void)
{
    static const size_t vehicles[] = {77, 770, 7700, 77000};

    puts("      dues   dues/s   bytes/due   a qsort of them takes");
    for (size_t i = 0; i < sizeof vehicles / sizeof vehicles[0]; i++) {
        struct world w;
        struct snapshot_options options = {.today = TODAY, .horizon = DAY_NONE};
        make_world(&w, vehicles[i]);
        size_t before = heap_bytes();
        double start = seconds();
        struct snapshot *s = snapshot_new(&w.facts, &options);
        double took = seconds() - start;
        size_t n;
        const struct due *dues = snapshot_dues(s, &n);
        double sort = time_of_sort(dues, n);
        printf("%10zu  %6.2f M  %10.1f   %4.0f %% of that time\n", n,
            (double)n / took / 1e6, (double)(heap_bytes() - before) / (double)n,
            100 * sort / took);
        snapshot_free(s);
        free_world(&w);
    }
    return 0;
}
