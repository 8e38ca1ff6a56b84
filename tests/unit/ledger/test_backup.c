/* Copies of the ledger, there and back. */
#include <sys/stat.h>
#include <sysexits.h>

#include "backup.h"
#include "chain.h"
#include "ledger_fixture.h"
#include "lock.h"
#include "records.h"
#include "restore.h"
#include "test.h"

#define BACKUP "b-" LEDGER

static void
add_reading(int64_t n)
{
    struct record r = {.kind = RECORD_READING,
        .meter = METER_DISTANCE,
        .subject_id = "K7",
        .day = 20000,
        .until = DAY_NONE,
        .reading = n};
    struct ledger *l = opened(LEDGER_WRITE);

    assert_int_equal(records_add(l, &r, NULL, NULL), 0);
    ledger_close(l);
}

static void
back_up(int64_t want)
{
    struct fault f = {0, ""};
    int64_t records = -1;

    if (backup_make(LEDGER, BACKUP, &records, &f) != 0)
        fail_msg("%s", f.text);
    assert_int_equal(records, want);
}

/* How many records the ledger has, its chain being whole. */
static int64_t
records(void)
{
    struct chain chain;
    struct ledger *l = opened(LEDGER_READ);

    assert_int_equal(chain_verify(l, &chain, NULL), 0);
    ledger_close(l);
    return chain.records;
}

static void
restore(int drop_newer, int64_t dropped, int kept)
{
    struct restored done;
    struct fault f = {0, ""};

    if (restore_from(LEDGER, BACKUP, drop_newer, &done, &f) != 0)
        fail_msg("%s", f.text);
    assert_int_equal(done.records, records());
    assert_int_equal(done.dropped, dropped);
    assert_int_equal(done.kept, kept);
    assert_int_equal(access(LEDGER ".new", F_OK), -1);
}

static void
not_restored(int drop_newer, int code)
{
    struct restored done;
    struct fault f = {0, ""};

    assert_int_equal(restore_from(LEDGER, BACKUP, drop_newer, &done, &f), -1);
    assert_fault(&f, code);
    assert_int_equal(access(LEDGER ".new", F_OK), -1);
}

static void
write_file(const char *path, const char *text)
{
    FILE *file = fopen(path, "w");

    assert_non_null(file);
    fputs(text, file);
    fclose(file);
}

static void
a_backup_has_the_records_of_one_moment(void **state)
{
    struct stat st;

    (void)state;
    add_reading(1);
    assert_int_equal(chmod(LEDGER, 0640), 0);
    struct ledger *l = opened(LEDGER_WRITE);
    struct record r = {.kind = RECORD_READING,
        .meter = METER_DISTANCE,
        .subject_id = "K7",
        .day = 20000,
        .until = DAY_NONE};
    assert_int_equal(ledger_begin(l, NULL), 0);
    assert_int_equal(records_add(l, &r, NULL, NULL), 0);
    back_up(1); /* what is being written is not there yet */
    assert_int_equal(ledger_commit(l, NULL), 0);
    back_up(2);
    ledger_close(l);
    assert_int_equal(stat(BACKUP, &st), 0);
    assert_int_equal(st.st_mode & 0777, 0640);
    assert_int_equal(access(BACKUP ".new", F_OK), -1);
}

static void
only_a_ledger_is_written_over(void **state)
{
    struct fault f = {0, ""};
    int64_t n;

    (void)state;
    assert_int_equal(backup_make(LEDGER, BACKUP, &n, &f), -1);
    assert_fault(&f, EX_NOINPUT);
    add_reading(1);
    write_file(BACKUP, "Bus K7, oil changed on 3 March.\n");
    assert_int_equal(backup_make(LEDGER, BACKUP, &n, &f), -1);
    assert_fault(&f, EX_DATAERR);
    assert_int_equal(backup_make(LEDGER, "./" LEDGER, &n, &f), -1);
    assert_fault(&f, EX_USAGE);
    assert_int_equal(backup_make(LEDGER, "gone/" BACKUP, &n, &f), -1);
    assert_fault(&f, EX_CANTCREAT);
    assert_int_equal(records(), 1);
}

static void
a_broken_chain_is_not_backed_up(void **state)
{
    struct fault f = {0, ""};
    int64_t n;

    (void)state;
    add_reading(1);
    add_reading(2);
    back_up(2);
    assert_int_equal(run_outside("DROP TRIGGER event_changed;"
                                 "UPDATE event SET reading = 3 WHERE id = 2"),
        SQLITE_OK);
    assert_int_equal(backup_make(LEDGER, BACKUP, &n, &f), -1);
    assert_fault(&f, EX_DATAERR);
    assert_int_equal(access(BACKUP ".new", F_OK), -1);
    restore(0, 0, 1); /* the backup has both, and record 2 as it was */
    assert_int_equal(records(), 2);
}

static void
restoring_drops_nothing_unless_told(void **state)
{
    (void)state;
    add_reading(1);
    back_up(1);
    restore(0, 0, 1);
    add_reading(2);
    add_reading(3);
    not_restored(0, EX_DATAERR);
    assert_int_equal(records(), 3);
    restore(1, 2, 2);
    assert_int_equal(records(), 1);
    assert_int_equal(rename(LEDGER ".before-restore-2", LEDGER), 0);
    assert_int_equal(records(), 3);
    /* A number that is taken is not used again. */
    assert_int_equal(unlink(LEDGER), 0);
    restore(0, 0, 0);
    restore(0, 0, 2);
    restore(0, 0, 3);
}

static void
a_damaged_ledger_is_put_aside_when_told(void **state)
{
    (void)state;
    add_reading(1);
    back_up(1);
    write_file(LEDGER, "x");
    not_restored(0, EX_DATAERR);
    restore(1, -1, 1);
    assert_int_equal(records(), 1);
}

static void
a_ledger_in_use_is_not_replaced(void **state)
{
    (void)state;
    add_reading(1);
    back_up(1);
    int lock = lock_take(LEDGER ".lock");
    assert_true(lock >= 0);
    not_restored(1, EX_TEMPFAIL);
    lock_drop(lock);
    restore(1, 0, 1);
}

static void
who_has_it_open_can_no_longer_write(void **state)
{
    struct record r = {.kind = RECORD_READING,
        .meter = METER_DISTANCE,
        .subject_id = "K7",
        .day = 20000,
        .until = DAY_NONE};
    struct fault f = {0, ""};

    (void)state;
    add_reading(1);
    back_up(1);
    struct ledger *l = opened(LEDGER_WRITE);
    restore(0, 0, 1);
    assert_int_equal(records_add(l, &r, NULL, &f), -1);
    assert_fault(&f, EX_TEMPFAIL);
    ledger_close(l);
    assert_int_equal(records(), 1);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        TEST(a_backup_has_the_records_of_one_moment),
        TEST(only_a_ledger_is_written_over),
        TEST(a_broken_chain_is_not_backed_up),
        TEST(restoring_drops_nothing_unless_told),
        TEST(a_damaged_ledger_is_put_aside_when_told),
        TEST(a_ledger_in_use_is_not_replaced),
        TEST(who_has_it_open_can_no_longer_write),
    };

    return cmocka_run_group_tests_name("ledger_backup", tests, NULL, NULL);
}
