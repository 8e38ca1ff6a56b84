/* A ledger of an earlier version keeps its records and gets new indices. */
#include "arena.h"
#include "chain.h"
#include "days.h"
#include "ledger_fixture.h"
#include "ledger_v1.h"
#include "outbox.h"
#include "records.h"
#include "schema.h"
#include "test.h"

static const struct job service = {.id = "engine-service"};
static const struct subject bus = {.id = "K7", .n_tasks = 0};
static const struct fleet fleet = {
    .jobs = &service, .n_jobs = 1, .subjects = &bus, .n_subjects = 1};

/* The engine service of 2025-03-01, record 1, and the one of 2026-02-28,
 * record 3, which record 4 voids. */
static void
check_records(struct ledger *l)
{
    struct arena *a = arena_new();
    struct record *list;
    size_t n;

    assert_non_null(a);
    assert_int_equal(records_read(l, &fleet, a, &list, &n, NULL), 0);
    assert_int_equal(n, 4);
    assert_int_equal(list[0].day, date("2025-03-01"));
    assert_int_equal(list[0].reading, 30000);
    assert_string_equal(list[0].by, "R. Ferrier");
    assert_ptr_equal(list[0].job, &service);
    assert_int_equal(list[2].voided_by, 4);
    assert_string_equal(list[2].voided_note, "another vehicle");
    assert_int_equal(list[3].until, date("2026-01-09"));

    int64_t id = 0;
    assert_int_equal(records_find(l, &list[0], &id, NULL), 1);
    assert_int_equal(id, 1);
    arena_free(a);
}

static void
update(enum ledger_mode mode)
{
    char version[12];
    struct chain chain;

    assert_int_equal(run_outside(ledger_v1), SQLITE_OK);
    assert_outside("PRAGMA user_version", "1");
    struct ledger *l = opened(mode);
    check_records(l);
    assert_int_equal(chain_verify(l, &chain, NULL), 0);
    assert_int_equal(chain.records, 5);
    ledger_close(l);
    snprintf(version, sizeof version, "%d", SCHEMA_VERSION);
    assert_outside("PRAGMA user_version", version);
    assert_outside("PRAGMA integrity_check", "ok");
}

static void
a_reader_brings_it_up_to_date(void **state)
{
    (void)state;
    update(LEDGER_READ);
}

/* Mail that waited goes on waiting; what was sent is not sent again. */
static void
its_outbox_is_taken_over(void **state)
{
    struct arena *a = arena_new();
    struct outbox_message *m;
    size_t n;

    (void)state;
    assert_non_null(a);
    assert_int_equal(run_outside(ledger_v1), SQLITE_OK);
    assert_int_equal(
        run_outside(
            "INSERT INTO outbox(person, message_id, recipient, bytes,"
            " created, sent) VALUES"
            " ('manager', '<1>', 'm@skerrow.example', x'2e', 50, 100),"
            " ('manager', '<2>', 'm@skerrow.example', x'2e', 60, NULL)"),
        SQLITE_OK);
    struct ledger *l = opened(LEDGER_WRITE);
    assert_int_equal(outbox_open(l, a, &m, &n, NULL), 0);
    assert_int_equal(n, 1);
    assert_string_equal(m[0].message_id, "<2>");
    assert_int_equal(m[0].gave_up, 0);
    assert_int_equal(m[0].next_try, 0);
    ledger_close(l);
    arena_free(a);
}

/* What the program that makes a ledger anew makes of it. */
static void
its_tables_are_those_of_a_new_one(void **state)
{
    static const char tables[] =
        "SELECT group_concat(name || '=' || replace(sql, ' ', ''), char(10))"
        " FROM (SELECT name, sql FROM sqlite_schema WHERE sql IS NOT NULL"
        "  ORDER BY name)";
    sqlite3 *db = NULL;
    sqlite3_stmt *s = NULL;

    (void)state;
    ledger_close(opened(LEDGER_WRITE));
    assert_int_equal(sqlite3_open(LEDGER, &db), SQLITE_OK);
    assert_int_equal(sqlite3_prepare_v2(db, tables, -1, &s, NULL), SQLITE_OK);
    assert_int_equal(sqlite3_step(s), SQLITE_ROW);
    char *fresh = strdup((const char *)sqlite3_column_text(s, 0));
    sqlite3_finalize(s);
    sqlite3_close(db);
    assert_non_null(fresh);
    assert_int_equal(unlink(LEDGER), 0);
    update(LEDGER_WRITE);
    assert_outside(tables, fresh);
    free(fresh);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        TEST(a_reader_brings_it_up_to_date),
        TEST(its_outbox_is_taken_over),
        TEST(its_tables_are_those_of_a_new_one),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
