/*
 * The records that dues need give the dues that all records give: compared on
 * fleets made by chance, with everything that a ledger can hold of them.
 * SEED=n in the environment repeats a run.
 */
#include <ctype.h>

#include "fixture.h"
#include "ledger.h"
#include "random_task.h"
#include "records.h"
#include "test.h"

#define FLEETS 150
#define VEHICLES 2
#define SUBJECTS 4 /* and two extinguishers */
#define JOBS 6
#define TODAY day_of(2026, 1, 1)

static uint64_t seed = 1;
static uint64_t looking_at; /* that fleet, for the message after a failure */

/* A fleet, and what is put on record of it. */
struct trial {
    struct chance c;
    struct world *w;
    struct ledger *ledger;
    int64_t last; /* record */
};

/* --- a fleet -------------------------------------------------------------- */

/* A few days in eight years, so that things often happen on the same. */
static day_t
some_day(struct chance *c)
{
    return day_of(2018, 1, 1) + 30 * chance_from(c, 0, 96);
}

static const struct job **
one_of_these(struct trial *t, size_t from, size_t to)
{
    const struct job **list = arena_take(t->w->arena, sizeof *list);

    assert_non_null(list);
    list[0] = &t->w->jobs[chance_from(&t->c, (int)from, (int)to)];
    return list;
}

/* A job covers only those after it, so that none covers itself. */
static void
tie_jobs(struct trial *t)
{
    for (size_t i = 0; i < JOBS; i++) {
        struct job *j = &t->w->jobs[i];
        if (i + 1 < JOBS && one_in(&t->c, 3)) {
            j->covers = one_of_these(t, i + 1, JOBS - 1);
            j->n_covers = 1;
        }
        if (i > 0 && one_in(&t->c, 4)) {
            j->follows = one_of_these(t, 0, i - 1);
            j->n_follows = 1;
        } else if (i > 0 && one_in(&t->c, 4)) {
            j->also_counts = (struct also_counts){
                *one_of_these(t, 0, i - 1), chance_from(&t->c, 1, 3)};
        }
    }
}

/* The same rule with other intervals. */
static void
make_metered(struct trial *t, struct rule *rule, const char *every)
{
    struct rule metered;

    world_every(t->w, &metered, every);
    memcpy(rule->every, metered.every, sizeof rule->every);
    rule->n_every = metered.n_every;
}

static void
make_jobs(struct trial *t)
{
    static const char *const names[JOBS] = {"a", "b", "c", "d", "e", "f"};

    for (int i = 0; i < JOBS; i++) {
        struct job *j = world_loose_job(t->w, names[i], "1 day");
        chance_rule(&t->c, t->w, &j->rule);
        if (one_in(&t->c, 4))
            make_metered(t, &j->rule, "5000 km");
        else if (one_in(&t->c, 3))
            make_metered(t, &j->rule, "100 hours");
        if (one_in(&t->c, 2))
            j->rule.runs_from = FROM_COMPLETION;
        if (one_in(&t->c, 3))
            j->rule.reading_within = (struct span){2, STEP_MONTHS};
        chance_ages(&t->c, &j->rule);
    }
    tie_jobs(t);
}

static void
make_tasks(struct trial *t, struct subject *s)
{
    for (int i = 0; i < JOBS; i++) {
        if (one_in(&t->c, 3))
            continue;
        struct task *task = world_task(t->w, s, &t->w->jobs[i]);
        if (one_in(&t->c, 3))
            task->baseline.last = some_day(&t->c);
        if (one_in(&t->c, 3))
            task->baseline.deadline = some_day(&t->c);
        if (task->baseline.last != DAY_NONE && one_in(&t->c, 2))
            for (int m = 0; m < METERS; m++)
                task->baseline.last_reading[m] = chance_from(&t->c, -1, 90000);
    }
}

static void
make_fleet(struct trial *t)
{
    static const char *const names[SUBJECTS] = {"K7", "K8", "EX-31", "EX-32"};

    world_calendar(t->w, &(struct work_calendar_plan){.works = WEEKDAYS});
    make_jobs(t);
    for (int i = 0; i < SUBJECTS; i++) {
        struct subject *s = world_subject(t->w, names[i]);
        s->registered = chance_day(&t->c, 2012, 2017);
        if (one_in(&t->c, 2))
            s->yearly_distance = chance_from(&t->c, 1000, 60000);
        if (i >= VEHICLES)
            s->carrier = s->first_carrier = &t->w->subjects[i - VEHICLES];
        make_tasks(t, s);
    }
}

/* --- its ledger ----------------------------------------------------------- */

/* The id as somebody might have typed it, now and then of no one known. */
static const char *
typed(struct trial *t, const char *id)
{
    char *text = arena_text(t->w->arena, id, strlen(id));

    assert_non_null(text);
    if (one_in(&t->c, 20))
        return "gone";
    for (char *p = text; *p != '\0' && one_in(&t->c, 2); p++)
        *p = (char)tolower((unsigned char)*p);
    return text;
}

static struct record
record_of(struct trial *t, const struct subject *s, enum record_kind kind)
{
    return (struct record){.kind = kind,
        .subject_id = typed(t, s->id),
        .day = some_day(&t->c),
        .until = DAY_NONE,
        .reading = -1,
        .by = one_in(&t->c, 2) ? "R. Ferrier" : "A. Whimbrel",
        .reference = one_in(&t->c, 2) ? "T-9" : NULL};
}

static void
put(struct trial *t, struct record r)
{
    struct fault f = {0, ""};

    if (records_add(t->ledger, &r, &t->last, &f))
        fail_msg("%s", f.text);
    if (one_in(&t->c, 10))
        assert_int_equal(
            records_void(t->ledger, t->last, NULL, "wrong", 0, NULL), 0);
}

/* What the meter shows is as good as any number here. */
static void
read_meter(struct trial *t, struct record *r)
{
    r->meter = one_in(&t->c, 4) ? METER_HOURS : METER_DISTANCE;
    r->reading =
        1000 + (r->day - day_of(2018, 1, 1)) * 30 + chance_from(&t->c, 0, 500);
}

static void
put_work(struct trial *t, const struct subject *s)
{
    struct record r =
        record_of(t, s, one_in(&t->c, 5) ? RECORD_FAILED : RECORD_COMPLETED);

    r.job_id = typed(t, t->w->jobs[chance_from(&t->c, 0, JOBS - 1)].id);
    if (one_in(&t->c, 3))
        read_meter(t, &r);
    put(t, r);
}

static void
put_reading(struct trial *t, const struct subject *s)
{
    struct record r =
        record_of(t, s, one_in(&t->c, 20) ? RECORD_REPLACED : RECORD_READING);

    r.day += chance_from(&t->c, 0, 29);
    read_meter(t, &r);
    if (r.kind == RECORD_REPLACED)
        r.reading = chance_from(&t->c, 0, 50);
    put(t, r);
}

static void
put_away(struct trial *t, const struct subject *s)
{
    struct record r = record_of(t, s, RECORD_OFF_ROAD);

    if (!one_in(&t->c, 6))
        r.until = r.day + chance_from(&t->c, 0, 90);
    put(t, r);
}

static void
put_move(struct trial *t, const struct subject *s)
{
    struct record r = record_of(t, s, RECORD_MOVED);

    r.other_id = typed(t, t->w->subjects[chance_from(&t->c, 0, 1)].id);
    if (strcasecmp(r.other_id, r.subject_id) != 0)
        put(t, r);
}

/* Some fleets are read often, some hardly ever. */
static void
make_ledger(struct trial *t)
{
    int often = chance_from(&t->c, 0, 2) * 30;

    assert_int_equal(ledger_begin(t->ledger, NULL), 0);
    for (int i = 0; i < SUBJECTS; i++) {
        const struct subject *s = &t->w->subjects[i];
        for (int n = chance_from(&t->c, 0, 25); n > 0; n--)
            put_work(t, s);
        for (int n = often + chance_from(&t->c, 0, 8); n > 0; n--)
            put_reading(t, s);
        for (int n = chance_from(&t->c, 0, 2); n > 0; n--)
            put_away(t, s);
        for (int n = i < VEHICLES ? 0 : chance_from(&t->c, 0, 2); n > 0; n--)
            put_move(t, s);
    }
    assert_int_equal(ledger_commit(t->ledger, NULL), 0);
}

/* --- both readings of it -------------------------------------------------- */

/* What is read: all, what the dues need, or what one task needs. */
enum read_what { ALL, NEEDED, ONE };

static void
read_records(struct trial *t, enum read_what what, const struct task *only,
    struct record **out, size_t *n)
{
    struct fault f = {0, ""};
    const struct fleet *fleet = &t->w->fleet;

    if (what == ALL
            ? records_read(t->ledger, fleet, t->w->arena, out, n, &f)
            : records_needed(t->ledger, fleet, only, t->w->arena, out, n, &f))
        fail_msg("%s", f.text);
}

/* The dues of what that reading finds; how many records in @n. */
static struct snapshot *
dues_by(struct trial *t, enum read_what what, const struct task *only,
    size_t *n, struct facts *facts)
{
    struct record *all;
    struct snapshot_options options = {.today = TODAY,
        .horizon = day_of(2027, 6, 1),
        .reasons = 1,
        .only = only};
    size_t *first = arena_take(t->w->arena, (SUBJECTS + 1) * sizeof *first);
    size_t standing = 0;

    assert_non_null(first);
    read_records(t, what, only, &all, n);
    for (size_t i = 0; i < *n; i++)
        if (all[i].voided_by == 0)
            all[standing++] = all[i];
    *facts = facts_of(&t->w->fleet, all, standing, first);
    struct snapshot *s = snapshot_new(facts, &options);
    assert_non_null(s);
    return s;
}

static void
assert_same_reasons(const struct due *a, const struct due *b)
{
    assert_int_equal(a->n_reasons, b->n_reasons);
    for (size_t i = 0; i < a->n_reasons; i++) {
        assert_int_equal(a->reasons[i].step, b->reasons[i].step);
        assert_int_equal(a->reasons[i].before, b->reasons[i].before);
        assert_int_equal(a->reasons[i].after, b->reasons[i].after);
        assert_string_equal(a->reasons[i].text, b->reasons[i].text);
    }
}

static void
assert_same(const struct due *a, const struct due *b)
{
    assert_ptr_equal(a->task, b->task);
    assert_int_equal(a->cycle.record, b->cycle.record);
    assert_int_equal(a->cycle.start, b->cycle.start);
    assert_int_equal(a->cycle.ahead, b->cycle.ahead);
    assert_int_equal(a->state, b->state);
    assert_int_equal(a->warnings, b->warnings);
    assert_int_equal(a->no_return, b->no_return);
    assert_int_equal(a->deadline, b->deadline);
    assert_int_equal(a->plan_day, b->plan_day);
    assert_int_equal(a->book_by, b->book_by);
    assert_int_equal(a->last_done, b->last_done);
    assert_int_equal(a->due_reading, b->due_reading);
    assert_int_equal(a->forecast.basis, b->forecast.basis);
    assert_int_equal(a->forecast.early, b->forecast.early);
    assert_int_equal(a->forecast.likely, b->forecast.likely);
    assert_int_equal(a->forecast.late, b->forecast.late);
    assert_same_reasons(a, b);
}

/* How many records were read in either way, and dues compared. */
struct counts {
    size_t all;
    size_t needed;
    size_t alone; /* for one task, of all of them */
    size_t dues;
};

/* Each task by itself has the dues that it has among the @n at @all. */
static void
compare_alone(
    struct trial *t, const struct due *all, size_t n, struct counts *counts)
{
    const struct fleet *f = &t->w->fleet;

    for (size_t k = 0; k < f->n_tasks; k++) {
        struct facts facts;
        size_t read;
        size_t n_alone;
        size_t at = 0;
        struct snapshot *s = dues_by(t, ONE, &f->tasks[k], &read, &facts);
        const struct due *alone = snapshot_dues(s, &n_alone);
        for (size_t i = 0; i < n; i++)
            if (all[i].task == &f->tasks[k]) {
                assert_true(at < n_alone);
                assert_same(&all[i], &alone[at++]);
            }
        assert_int_equal(at, n_alone);
        counts->alone += read;
        snapshot_free(s);
    }
}

static void
compare(struct trial *t, struct counts *counts)
{
    struct facts facts[2];
    size_t n[2];
    size_t all;
    size_t needed;

    world_group(t->w);
    struct snapshot *a = dues_by(t, ALL, NULL, &all, &facts[0]);
    struct snapshot *b = dues_by(t, NEEDED, NULL, &needed, &facts[1]);
    const struct due *one = snapshot_dues(a, &n[0]);
    const struct due *other = snapshot_dues(b, &n[1]);
    assert_int_equal(n[0], n[1]);
    for (size_t i = 0; i < n[0]; i++)
        assert_same(&one[i], &other[i]);
    compare_alone(t, one, n[0], counts);
    counts->all += all;
    counts->needed += needed;
    counts->dues += n[0];
    snapshot_free(a);
    snapshot_free(b);
}

static void
what_dues_need_gives_the_same_dues(void **state)
{
    const char *text = getenv("SEED");
    struct counts counts = {0};

    (void)state;
    if (text != NULL)
        seed = strtoull(text, NULL, 10);
    for (uint64_t i = 0; i < FLEETS; i++) {
        struct trial t = {.c = chance_of(seed, i), .w = world_bare()};
        looking_at = i;
        /* It is not there, and so is held nowhere but here. */
        t.ledger = ledger_open("/nowhere/ledger.db", LEDGER_TRIAL, NULL);
        assert_non_null(t.ledger);
        make_fleet(&t);
        make_ledger(&t);
        compare(&t, &counts);
        ledger_close(t.ledger);
        world_free(t.w);
    }
    print_message("# %zu dues from %zu of %zu records, task by task from %zu\n",
        counts.dues, counts.needed, counts.all, counts.alone);
    assert_true(counts.dues > 3000);
    assert_true(counts.needed < counts.all);
}

/* Looking ahead begins on the day it was due, which a roll may have brought
 * from Saturday the 2nd, the day it was done, back to Tuesday the 29th. */
static void
a_roll_may_go_back_behind_the_last_time(void **state)
{
    struct named_day closed[11];
    struct trial t = {.w = world_bare()};
    struct counts counts = {0};
    struct fault f = {0, ""};
    struct record r = {.subject_id = "K7",
        .kind = RECORD_READING,
        .meter = METER_DISTANCE,
        .until = DAY_NONE};

    (void)state;
    for (int i = 0; i < 11; i++)
        closed[i] = (struct named_day){date("2018-05-30") + i, "closed"};
    world_calendar(
        t.w, &(struct work_calendar_plan){
                 .works = WEEKDAYS, .closed = closed, .n_closed = 11});
    world_subject(t.w, "K7");
    world_job(t.w, "a", "5000 km")->rule.roll = ROLL_NEAREST;
    t.ledger = ledger_open("/nowhere/ledger.db", LEDGER_TRIAL, NULL);
    assert_non_null(t.ledger);
    for (r.day = date("2018-01-01"); r.day < TODAY; r.day++) {
        r.reading = 5150 + (r.day - date("2018-01-01")) * 52 + r.day % 3 * 10;
        assert_int_equal(records_add(t.ledger, &r, NULL, &f), 0);
    }
    r.kind = RECORD_COMPLETED;
    r.job_id = "a";
    r.day = date("2018-06-02");
    r.reading = 8000; /* so that 13000, due next, was there that very day */
    assert_int_equal(records_add(t.ledger, &r, NULL, &f), 0);
    compare(&t, &counts);
    ledger_close(t.ledger);
    world_free(t.w);
}

static int
say_which(void **state)
{
    (void)state;
    print_message("# fleet %llu of SEED=%llu was the last\n",
        (unsigned long long)looking_at, (unsigned long long)seed);
    return 0;
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_teardown(
            what_dues_need_gives_the_same_dues, say_which),
        cmocka_unit_test(a_roll_may_go_back_behind_the_last_time),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
