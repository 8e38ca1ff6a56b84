/* Records: what goes in comes out, corrections, and what is refused. */
#include <sysexits.h>

#include "arena.h"
#include "days.h"
#include "ledger_fixture.h"
#include "records.h"
#include "test.h"

static const struct subject subjects[] = {
    {.id = "K7", .index = 0}, {.id = "EX-31", .index = 1}};
static const struct job jobs[] = {
    {.id = "annual-test", .index = 0}, {.id = "engine-service", .index = 1}};
static const struct fleet fleet = {
    .jobs = jobs, .n_jobs = 2, .subjects = subjects, .n_subjects = 2};

static struct record
completed(const char *subject, const char *job, const char *on)
{
    return (struct record){.kind = RECORD_COMPLETED,
        .subject_id = subject,
        .job_id = job,
        .day = date(on),
        .until = DAY_NONE,
        .reading = -1,
        .entered = 1767225600}; /* 2026-01-01T00:00:00Z */
}

static struct record
off_road(const char *from, const char *until)
{
    return (struct record){.kind = RECORD_OFF_ROAD,
        .subject_id = "K7",
        .day = date(from),
        .until = date(until),
        .reading = -1,
        .note = "gearbox"};
}

static struct record *
read_all(struct ledger *l, struct arena *a, size_t want)
{
    struct record *list = NULL;
    struct fault f = {0, ""};
    size_t n = 0;

    if (records_read(l, &fleet, a, &list, &n, &f) != 0)
        fail_msg("%s", f.text);
    assert_int_equal(n, want);
    return list;
}

static int64_t
add(struct ledger *l, struct record r)
{
    struct fault f = {0, ""};
    int64_t id = 0;

    if (records_add(l, &r, &id, &f) != 0)
        fail_msg("%s", f.text);
    return id;
}

static void
assert_text(const char *got, const char *want)
{
    if (want == NULL)
        assert_null(got);
    else
        assert_string_equal(got, want);
}

static void
assert_same(const struct record *got, const struct record *want)
{
    assert_int_equal(got->kind, want->kind);
    assert_int_equal(got->meter, want->meter);
    assert_text(got->subject_id, want->subject_id);
    assert_text(got->job_id, want->job_id);
    assert_text(got->other_id, want->other_id);
    assert_int_equal(got->day, want->day);
    assert_int_equal(got->until, want->until);
    assert_int_equal(got->reading, want->reading);
    assert_int_equal(got->entered, want->entered);
    assert_text(got->by, want->by);
    assert_text(got->reference, want->reference);
    assert_text(got->note, want->note);
    assert_int_equal(got->voided_by, 0);
}

static void
every_kind_comes_out_as_it_went_in(void **state)
{
    struct record in[] = {
        completed("K7", "annual-test", "2026-03-14"),
        completed("K7", "engine-service", "1900-01-01"),
        completed("K7", "annual-test", "2199-12-31"),
        {.kind = RECORD_READING,
            .meter = METER_HOURS,
            .subject_id = "EX-31",
            .day = date("1969-12-31"),
            .until = DAY_NONE,
            .reading = 0,
            .entered = -1},
        off_road("2026-02-01", "2026-02-01"),
        off_road("2026-05-01", "-"),
        {.kind = RECORD_REPLACED,
            .meter = METER_DISTANCE,
            .subject_id = "K7",
            .day = date("2026-05-01"),
            .until = DAY_NONE,
            .reading = 12},
        {.kind = RECORD_MOVED,
            .subject_id = "EX-31",
            .other_id = "K7",
            .day = date("2026-05-01"),
            .until = DAY_NONE,
            .reading = -1},
    };
    enum { N = sizeof in / sizeof *in };

    (void)state;
    in[1].kind = RECORD_FAILED;
    in[1].meter = METER_DISTANCE;
    in[1].reading = INT64_MAX;
    in[1].by = "R. Ferrier";
    in[1].reference = "'; DROP TABLE record; --";
    in[1].note = "bremse l\xc3\xb6st nicht\nzweite Zeile";
    struct ledger *l = opened(LEDGER_WRITE);
    for (int i = 0; i < N; i++)
        assert_int_equal(add(l, in[i]), i + 1);
    ledger_close(l);

    l = opened(LEDGER_READ);
    struct arena *a = arena_new();
    struct record *out = read_all(l, a, N);
    for (int i = 0; i < N; i++) {
        assert_int_equal(out[i].id, i + 1);
        assert_same(&out[i], &in[i]);
    }
    arena_free(a);
    ledger_close(l);
}

static void
subjects_and_jobs_are_found_in_either_case(void **state)
{
    (void)state;
    struct ledger *l = opened(LEDGER_WRITE);
    add(l, completed("k7", "Annual-Test", "2026-03-14"));
    add(l, completed("EX-31", "engine-service", "2026-03-14"));
    add(l, completed("sold", "annual-test", "2026-03-14"));
    add(l, completed("K7", "no-longer-done", "2026-03-14"));
    add(l, off_road("2026-05-01", "-"));
    struct record moved = off_road("2026-05-01", "-");
    moved.kind = RECORD_MOVED;
    moved.other_id = "ex-31";
    add(l, moved);
    moved.other_id = "sold";
    add(l, moved);
    struct arena *a = arena_new();
    struct record *out = read_all(l, a, 7);
    assert_ptr_equal(out[0].subject, &subjects[0]);
    assert_ptr_equal(out[0].job, &jobs[0]);
    assert_string_equal(out[0].subject_id, "k7");
    assert_string_equal(out[0].job_id, "Annual-Test");
    assert_ptr_equal(out[1].subject, &subjects[1]);
    assert_ptr_equal(out[1].job, &jobs[1]);
    assert_null(out[2].subject);
    assert_string_equal(out[2].subject_id, "sold");
    assert_null(out[3].job);
    assert_string_equal(out[3].job_id, "no-longer-done");
    assert_null(out[4].job);
    assert_null(out[4].other);
    assert_ptr_equal(out[5].other, &subjects[1]);
    assert_null(out[6].other);
    assert_string_equal(out[6].other_id, "sold");
    arena_free(a);
    ledger_close(l);
}

static void
more_records_than_one_block_of_memory(void **state)
{
    (void)state;
    struct ledger *l = opened(LEDGER_WRITE);
    assert_int_equal(ledger_begin(l, NULL), 0);
    for (int i = 0; i < 1000; i++) {
        struct record r = completed("K7", "annual-test", "2000-01-01");
        r.day += i;
        add(l, r);
    }
    assert_int_equal(ledger_commit(l, NULL), 0);
    struct arena *a = arena_new();
    struct record *out = read_all(l, a, 1000);
    for (int i = 0; i < 1000; i++) {
        assert_int_equal(out[i].id, i + 1);
        assert_int_equal(out[i].day, date("2000-01-01") + i);
        assert_ptr_equal(out[i].subject, &subjects[0]);
    }
    arena_free(a);
    ledger_close(l);
}

static void
a_voided_record_stays_and_says_so(void **state)
{
    struct fault f = {0, ""};

    (void)state;
    struct ledger *l = opened(LEDGER_WRITE);
    add(l, completed("K7", "annual-test", "2026-03-14"));
    add(l, completed("K7", "annual-test", "2026-03-15"));
    assert_int_equal(records_void(l, 1, "R. Ferrier", "wrong day", 5, &f), 0);
    assert_int_equal(add(l, off_road("2026-05-01", "-")), 4);
    struct arena *a = arena_new();
    struct record *out = read_all(l, a, 3);
    assert_int_equal(out[0].voided_by, 3);
    assert_int_equal(out[1].voided_by, 0);
    assert_int_equal(out[2].id, 4);
    assert_int_equal(out[2].voided_by, 0);
    assert_outside("SELECT kind || ' ' || voids || ' ' || entered || ' ' ||"
                   " by_whom || ', ' || note FROM event WHERE id = 3",
        "voided 1 5 R. Ferrier, wrong day");
    arena_free(a);
    ledger_close(l);
}

static void
only_a_record_that_stands_can_be_voided(void **state)
{
    static const int64_t unknown[] = {2, 3, 0, -1, INT64_MAX};
    struct fault f = {0, ""};

    (void)state;
    struct ledger *l = opened(LEDGER_WRITE);
    add(l, completed("K7", "annual-test", "2026-03-14"));
    assert_int_equal(records_void(l, 1, NULL, NULL, 5, &f), 0);
    assert_int_equal(records_void(l, 1, NULL, NULL, 6, &f), -1);
    assert_fault(&f, EX_DATAERR);
    assert_non_null(strstr(f.text, "record 1 "));
    assert_non_null(strstr(f.text, "record 2 "));
    /* 2 is the voiding itself, the others are not there. */
    for (size_t i = 0; i < sizeof unknown / sizeof *unknown; i++) {
        f.code = 0;
        assert_int_equal(records_void(l, unknown[i], NULL, NULL, 6, &f), -1);
        assert_fault(&f, EX_DATAERR);
    }
    struct record r = off_road("2026-05-01", "-");
    assert_int_equal(records_replace(l, 1, &r, NULL, &f), -1);
    assert_outside("SELECT count(*) FROM event", "2");
    ledger_close(l);
}

static void
a_spell_that_ends_replaces_the_open_one(void **state)
{
    struct record closed = off_road("2026-05-01", "2026-05-20");
    struct fault f = {0, ""};
    int64_t id = 0;

    (void)state;
    struct ledger *l = opened(LEDGER_WRITE);
    add(l, off_road("2026-05-01", "-"));
    assert_int_equal(records_replace(l, 1, &closed, &id, &f), 0);
    assert_int_equal(id, 2);
    struct arena *a = arena_new();
    struct record *out = read_all(l, a, 2);
    assert_int_equal(out[0].voided_by, 2);
    assert_same(&out[1], &closed);

    /* The new record is no good: the old one goes on standing. */
    closed.until = date("2026-04-30");
    assert_int_equal(records_replace(l, 2, &closed, &id, &f), -1);
    assert_fault(&f, EX_DATAERR);
    out = read_all(l, a, 2);
    assert_int_equal(out[1].voided_by, 0);
    arena_free(a);
    ledger_close(l);
}

static void
assert_refused(struct ledger *l, struct record r)
{
    struct fault f = {0, ""};

    assert_int_equal(records_add(l, &r, NULL, &f), -1);
    assert_fault(&f, EX_DATAERR);
}

static void
a_record_that_contradicts_itself_is_refused(void **state)
{
    struct ledger *l = opened(LEDGER_WRITE);
    struct record good = completed("K7", "annual-test", "2026-03-14");
    struct record bad = good;

    (void)state;
    bad.subject_id = "";
    assert_refused(l, bad);
    bad.subject_id = NULL;
    assert_refused(l, bad);
    bad = good;
    bad.job_id = NULL;
    assert_refused(l, bad);
    bad.job_id = "";
    assert_refused(l, bad);
    bad = good;
    bad.day = DAY_NONE;
    assert_refused(l, bad);
    bad.day = DAY_LAST + 1;
    assert_refused(l, bad);
    bad.day = DAY_FIRST - 1;
    assert_refused(l, bad);
    bad = good;
    bad.until = date("2026-03-15"); /* a job is done on one day */
    assert_refused(l, bad);
    bad = good;
    bad.reading = 5; /* of no meter */
    assert_refused(l, bad);
    bad = off_road("2026-05-02", "2026-05-01");
    assert_refused(l, bad);
    bad = off_road("2026-05-02", "-");
    bad.until = DAY_LAST + 1;
    assert_refused(l, bad);
    bad.until = DAY_NONE;
    bad.job_id = "annual-test";
    assert_refused(l, bad);
    bad = good;
    bad.kind = RECORD_READING;
    bad.job_id = NULL; /* and no reading */
    assert_refused(l, bad);
    bad.kind = RECORD_REPLACED;
    assert_refused(l, bad);
    bad.kind = RECORD_MOVED; /* to nowhere */
    assert_refused(l, bad);
    bad.other_id = "";
    assert_refused(l, bad);
    bad.other_id = "k7"; /* to itself */
    assert_refused(l, bad);
    bad = good;
    bad.other_id = "K8";
    assert_refused(l, bad);
    struct arena *a = arena_new();
    read_all(l, a, 0);
    arena_free(a);
    ledger_close(l);
}

static void
records_cannot_be_changed_even_from_outside(void **state)
{
    (void)state;
    struct ledger *l = opened(LEDGER_WRITE);
    add(l, completed("K7", "annual-test", "2026-03-14"));
    ledger_close(l);
    assert_int_equal(
        run_outside("UPDATE event SET day = day + 1"), SQLITE_CONSTRAINT);
    assert_int_equal(run_outside("DELETE FROM event"), SQLITE_CONSTRAINT);
    assert_int_equal(
        run_outside("INSERT OR REPLACE INTO event(id, kind, subject, job, day,"
                    " entered) VALUES (1, 'completed', 'K7', 'x', 0, 0)"),
        SQLITE_CONSTRAINT);
    assert_int_equal(run_outside("INSERT INTO event(id, kind, voids, entered)"
                                 " VALUES (9, 'voided', 9, 0)"),
        SQLITE_CONSTRAINT);
    assert_outside("SELECT day FROM event", "20526"); /* 2026-03-14 */
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        TEST(every_kind_comes_out_as_it_went_in),
        TEST(subjects_and_jobs_are_found_in_either_case),
        TEST(more_records_than_one_block_of_memory),
        TEST(a_voided_record_stays_and_says_so),
        TEST(only_a_record_that_stands_can_be_voided),
        TEST(a_spell_that_ends_replaces_the_open_one),
        TEST(a_record_that_contradicts_itself_is_refused),
        TEST(records_cannot_be_changed_even_from_outside),
    };

    return cmocka_run_group_tests_name("ledger_records", tests, NULL, NULL);
}
