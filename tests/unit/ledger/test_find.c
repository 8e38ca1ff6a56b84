/* Finding a record that says the same, and the readings around a day. */
#include "days.h"
#include "ledger_fixture.h"
#include "records.h"
#include "test.h"

static struct record
completed(void)
{
    return (struct record){.kind = RECORD_COMPLETED,
        .subject_id = "K7",
        .job_id = "annual-test",
        .day = date("2026-03-14"),
        .until = DAY_NONE,
        .meter = METER_DISTANCE,
        .reading = 41250,
        .entered = 1767225600,
        .by = "R. Ferrier",
        .reference = "T-9",
        .note = "two tyres"};
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

static int64_t
find(struct ledger *l, struct record r)
{
    int64_t id = 0;
    int found = records_find(l, &r, &id, NULL);

    assert_int_equal(found, id != 0);
    return id;
}

static void
a_record_is_found_by_what_it_says(void **state)
{
    struct record same = completed();

    (void)state;
    struct ledger *l = opened(LEDGER_WRITE);
    assert_int_equal(find(l, same), 0);
    add(l, same);
    /* Who wrote what when is not what it says, nor are capital letters. */
    same.by = same.note = NULL;
    same.entered = 0;
    same.subject_id = "k7";
    same.job_id = "Annual-Test";
    assert_int_equal(find(l, same), 1);

    struct record other = completed();
    other.kind = RECORD_FAILED;
    assert_int_equal(find(l, other), 0);
    other = completed();
    other.subject_id = "K70";
    assert_int_equal(find(l, other), 0);
    other = completed();
    other.job_id = "engine-service";
    assert_int_equal(find(l, other), 0);
    other = completed();
    other.day++;
    assert_int_equal(find(l, other), 0);
    other = completed();
    other.meter = METER_HOURS;
    assert_int_equal(find(l, other), 0);
    other = completed();
    other.reading = 41251;
    assert_int_equal(find(l, other), 0);
    other.reading = -1;
    assert_int_equal(find(l, other), 0);
    other = completed();
    other.reference = NULL;
    assert_int_equal(find(l, other), 0);
    ledger_close(l);
}

static void
what_has_no_value_is_found_too(void **state)
{
    struct record spell = {.kind = RECORD_OFF_ROAD,
        .subject_id = "K7",
        .day = date("2026-03-14"),
        .until = DAY_NONE,
        .reading = -1};
    struct record moved = {.kind = RECORD_MOVED,
        .subject_id = "EX-31",
        .other_id = "K8",
        .day = date("2026-03-14"),
        .until = DAY_NONE,
        .reading = -1};

    (void)state;
    struct ledger *l = opened(LEDGER_WRITE);
    add(l, spell);
    add(l, moved);
    assert_int_equal(find(l, spell), 1);
    assert_int_equal(find(l, moved), 2);
    spell.until = spell.day;
    assert_int_equal(find(l, spell), 0);
    moved.other_id = "K7";
    assert_int_equal(find(l, moved), 0);
    ledger_close(l);
}

static void
a_voided_record_is_found_as_well(void **state)
{
    (void)state;
    struct ledger *l = opened(LEDGER_WRITE);
    add(l, completed());
    assert_int_equal(records_void(l, 1, NULL, NULL, 0, NULL), 0);
    assert_int_equal(find(l, completed()), 1);
    add(l, completed());
    assert_int_equal(find(l, completed()), 3);
    ledger_close(l);
}

/* --- readings --------------------------------------------------------------
 */

static int64_t
read_meter(struct ledger *l, enum record_kind kind, const char *on, int64_t n)
{
    return add(l, (struct record){.kind = kind,
                      .meter = METER_DISTANCE,
                      .subject_id = "K7",
                      .day = date(on),
                      .until = DAY_NONE,
                      .reading = n});
}

/* The records around the day are @before and @after, 0 for none. */
static void
around(struct ledger *l, const char *day, int64_t before, int64_t after)
{
    struct known_reading a;
    struct known_reading b;

    assert_int_equal(records_readings_around(
                         l, "k7", METER_DISTANCE, date(day), &a, &b, NULL),
        0);
    assert_int_equal(a.id, before);
    assert_int_equal(a.found, before != 0);
    assert_int_equal(b.id, after);
    assert_int_equal(b.found, after != 0);
}

static void
readings_lie_before_and_after(void **state)
{
    struct known_reading a;
    struct known_reading b;

    (void)state;
    struct ledger *l = opened(LEDGER_WRITE);
    around(l, "2026-03-14", 0, 0);
    add(l, completed()); /* 1: 41250 on 2026-03-14 */
    read_meter(l, RECORD_READING, "2026-05-01", 43000); /* 2 */
    read_meter(l, RECORD_READING, "2026-04-01", 42000); /* 3 */
    around(l, "2026-03-13", 0, 1);
    around(l, "2026-03-14", 1, 3);
    around(l, "2026-03-31", 1, 3);
    around(l, "2026-04-01", 3, 2);
    around(l, "2026-05-01", 2, 0);
    around(l, "2199-12-31", 2, 0);
    assert_int_equal(records_readings_around(l, "K7", METER_DISTANCE,
                         date("2026-04-01"), &a, &b, NULL),
        0);
    assert_int_equal(a.value, 42000);
    assert_int_equal(a.day, date("2026-04-01"));
    assert_int_equal(b.value, 43000);
    assert_int_equal(b.day, date("2026-05-01"));
    assert_int_equal(records_readings_around(l, "K7", METER_HOURS,
                         date("2026-04-01"), &a, &b, NULL),
        0);
    assert_false(a.found || b.found);

    /* What is voided is not there; of one day the last entered counts. */
    assert_int_equal(records_void(l, 3, NULL, NULL, 0, NULL), 0);
    around(l, "2026-04-01", 1, 2);
    read_meter(l, RECORD_READING, "2026-03-14", 41260); /* 5 */
    around(l, "2026-03-20", 5, 2);
    around(l, "2026-03-13", 0, 1);
    ledger_close(l);
}

static void
another_instrument_is_another_matter(void **state)
{
    struct known_reading a;
    struct known_reading b;

    (void)state;
    struct ledger *l = opened(LEDGER_WRITE);
    read_meter(l, RECORD_READING, "2026-03-01", 90000); /* 1 */
    read_meter(l, RECORD_READING, "2026-04-01", 91000); /* 2 */
    read_meter(l, RECORD_REPLACED, "2026-04-01", 15);   /* 3 */
    read_meter(l, RECORD_READING, "2026-05-01", 1200);  /* 4 */
    around(l, "2026-02-01", 0, 1);
    around(l, "2026-03-15", 1, 2);
    around(l, "2026-04-15", 3, 4);
    assert_int_equal(records_readings_around(l, "K7", METER_DISTANCE,
                         date("2026-04-15"), &a, &b, NULL),
        0);
    assert_int_equal(a.value, 15);
    assert_true(a.fitted);
    assert_false(b.fitted);
    /* With the last of the old one void, nothing comes after on it. */
    assert_int_equal(records_void(l, 2, NULL, NULL, 0, NULL), 0);
    around(l, "2026-03-15", 1, 0);
    /* It was not replaced after all. */
    assert_int_equal(records_void(l, 3, NULL, NULL, 0, NULL), 0);
    around(l, "2026-03-15", 1, 4);
    ledger_close(l);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        TEST(a_record_is_found_by_what_it_says),
        TEST(what_has_no_value_is_found_too),
        TEST(a_voided_record_is_found_as_well),
        TEST(readings_lie_before_and_after),
        TEST(another_instrument_is_another_matter),
    };

    return cmocka_run_group_tests_name("ledger_find", tests, NULL, NULL);
}
