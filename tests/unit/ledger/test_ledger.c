/* Opening the ledger, groups of writes, and what can go wrong with the file. */
#include <dirent.h>
#include <fcntl.h>
#include <signal.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <sysexits.h>

#include "arena.h"
#include "ledger_fixture.h"
#include "records.h"
#include "schema.h"
#include "test.h"

static const struct fleet no_fleet = {.n_subjects = 0};

static int
add_one(struct ledger *l, struct fault *f)
{
    struct record r = {.kind = RECORD_READING,
        .meter = METER_DISTANCE,
        .subject_id = "K7",
        .day = 20000,
        .until = DAY_NONE,
        .reading = 41250,
        .note = "dashboard"};

    return records_add(l, &r, NULL, f);
}

static size_t
count(struct ledger *l)
{
    struct arena *a = arena_new();
    struct record *list = NULL;
    struct fault f = {0, ""};
    size_t n = 0;

    if (records_read(l, &no_fleet, a, &list, &n, &f) != 0)
        fail_msg("%s", f.text);
    arena_free(a);
    return n;
}

/* A ledger with one record. */
static void
make_ledger(void)
{
    struct ledger *l = opened(LEDGER_WRITE);

    assert_int_equal(add_one(l, NULL), 0);
    ledger_close(l);
}

static void
write_file(const void *bytes, size_t n)
{
    FILE *f = fopen(LEDGER, "w");

    assert_non_null(f);
    assert_int_equal(fwrite(bytes, 1, n, f), n);
    assert_int_equal(fclose(f), 0);
}

static long
size_of_file(const char *path)
{
    struct stat st;

    assert_int_equal(stat(path, &st), 0);
    return (long)st.st_size;
}

static void
refused(const char *path, enum ledger_mode mode, int code)
{
    struct fault f = {0, ""};

    assert_null(ledger_open(path, mode, &f));
    assert_fault(&f, code);
}

static void
a_missing_ledger_reads_as_empty_and_is_not_made(void **state)
{
    struct ledger *l = opened(LEDGER_READ);
    struct fault f = {0, ""};

    (void)state;
    assert_int_equal(count(l), 0);
    assert_int_equal(add_one(l, &f), -1);
    assert_fault(&f, EX_NOPERM);
    ledger_close(l);
    assert_int_equal(access(LEDGER, F_OK), -1);
}

/* Offsets from the SQLite file format, section 1.3: the user version at 60,
 * the application id at 68, both big-endian. */
static void
a_new_ledger_says_what_it_is_and_leaves_no_litter(void **state)
{
    unsigned char head[100] = {0};
    int names = -2; /* . and .. */

    (void)state;
    ledger_close(opened(LEDGER_WRITE));
    FILE *file = fopen(LEDGER, "r");
    assert_non_null(file);
    assert_int_equal(fread(head, 1, sizeof head, file), sizeof head);
    fclose(file);
    assert_memory_equal(head, "SQLite format 3", 16);
    assert_memory_equal(head + 60, "\0\0\0", 3);
    assert_int_equal(head[63], SCHEMA_VERSION);
    assert_memory_equal(head + 68, "OSTL", 4);
    assert_memory_equal(head + 18, "\1\1", 2); /* a rollback journal, no WAL */

    DIR *folder = opendir(".");
    assert_non_null(folder);
    while (readdir(folder) != NULL)
        names++;
    closedir(folder);
    assert_int_equal(names, 2); /* the ledger and its lock */
}

static void
what_was_written_is_there_when_opened_again(void **state)
{
    (void)state;
    make_ledger();
    struct ledger *l = opened(LEDGER_WRITE);
    assert_int_equal(count(l), 1);
    assert_int_equal(add_one(l, NULL), 0);
    ledger_close(l);
    l = opened(LEDGER_READ);
    assert_int_equal(count(l), 2);
    ledger_close(l);
}

static void
a_trial_makes_no_file(void **state)
{
    (void)state;
    struct ledger *l = opened(LEDGER_TRIAL);
    assert_int_equal(ledger_begin(l, NULL), 0);
    assert_int_equal(add_one(l, NULL), 0);
    assert_int_equal(count(l), 1);
    ledger_rollback(l);
    assert_int_equal(count(l), 0);
    ledger_close(l);
    assert_int_equal(access(LEDGER, F_OK), -1);

    make_ledger();
    l = opened(LEDGER_TRIAL);
    assert_int_equal(ledger_begin(l, NULL), 0);
    assert_int_equal(add_one(l, NULL), 0);
    assert_int_equal(count(l), 2);
    ledger_close(l);
    assert_outside("SELECT count(*) FROM event", "1");
}

static void
reading_writes_nothing(void **state)
{
    struct fault f = {0, ""};

    (void)state;
    make_ledger();
    struct ledger *l = opened(LEDGER_READ);
    assert_int_equal(add_one(l, &f), -1);
    assert_fault(&f, EX_NOPERM);
    assert_int_equal(ledger_begin(l, &f), -1);
    assert_int_equal(count(l), 1);
    ledger_close(l);
}

static void
a_newer_ledger_is_refused(void **state)
{
    char newer[40];
    char number[8];

    (void)state;
    snprintf(number, sizeof number, "%d", SCHEMA_VERSION + 1);
    snprintf(newer, sizeof newer, "PRAGMA user_version = %s", number);
    make_ledger();
    assert_int_equal(run_outside(newer), SQLITE_OK);
    refused(LEDGER, LEDGER_READ, EX_CONFIG);
    refused(LEDGER, LEDGER_WRITE, EX_CONFIG);
    assert_outside("PRAGMA user_version", number);
    assert_outside("SELECT count(*) FROM event", "1");
}

static void
a_file_that_is_no_ledger_is_left_alone(void **state)
{
    static const char text[] = "Bus K7, oil changed on 3 March.\n";
    char longer[5000];

    (void)state;
    memset(longer, 'x', sizeof longer);
    for (int mode = LEDGER_READ; mode <= LEDGER_WRITE; mode++) {
        write_file("", 0);
        refused(LEDGER, (enum ledger_mode)mode, EX_DATAERR);
        assert_int_equal(size_of_file(LEDGER), 0);
        write_file(text, strlen(text));
        refused(LEDGER, (enum ledger_mode)mode, EX_DATAERR);
        assert_int_equal(size_of_file(LEDGER), (long)strlen(text));
        write_file(longer, sizeof longer);
        refused(LEDGER, (enum ledger_mode)mode, EX_DATAERR);
        assert_int_equal(size_of_file(LEDGER), (long)sizeof longer);
    }
}

static void
the_database_of_another_program_is_refused(void **state)
{
    (void)state;
    assert_int_equal(
        run_outside("CREATE TABLE t(a); PRAGMA user_version = 1"), SQLITE_OK);
    refused(LEDGER, LEDGER_WRITE, EX_DATAERR);
    assert_int_equal(run_outside("PRAGMA application_id = 1"), SQLITE_OK);
    refused(LEDGER, LEDGER_WRITE, EX_DATAERR);
    assert_outside("SELECT group_concat(name) FROM sqlite_schema", "t");
}

static void
a_folder_is_no_ledger_and_a_missing_one_holds_none(void **state)
{
    (void)state;
    assert_int_equal(mkdir(LEDGER, 0755), 0);
    refused(LEDGER, LEDGER_READ, EX_DATAERR);
    refused(LEDGER, LEDGER_WRITE, EX_DATAERR);
    refused("missing/" LEDGER, LEDGER_WRITE, EX_CANTCREAT);
}

/* SQLite would take these names for its own. */
static void
a_path_is_only_a_path(void **state)
{
    static const char *const paths[] = {":memory:", "file:x?mode=memory"};

    (void)state;
    for (size_t i = 0; i < 2; i++) {
        struct fault f = {0, ""};
        struct ledger *l = ledger_open(paths[i], LEDGER_WRITE, &f);
        assert_non_null(l);
        ledger_close(l);
        assert_true(size_of_file(paths[i]) > 0);
    }
}

/* Write nonsense over the pages that @sql names: not those of the schema, with
 * which the file cannot even be opened. */
static void
damage(const char *sql)
{
    sqlite3 *db = NULL;
    sqlite3_stmt *s = NULL;
    int fd = open(LEDGER, O_WRONLY);
    char junk[4096];

    memset(junk, 0xA5, sizeof junk);
    assert_int_equal(sqlite3_open(LEDGER, &db), SQLITE_OK);
    assert_int_equal(sqlite3_prepare_v2(db, sql, -1, &s, NULL), SQLITE_OK);
    while (sqlite3_step(s) == SQLITE_ROW)
        if (sqlite3_column_int(s, 0) > 1)
            assert_int_equal(pwrite(fd, junk, sizeof junk,
                                 (sqlite3_column_int(s, 0) - 1) * 4096),
                sizeof junk);
    sqlite3_finalize(s);
    sqlite3_close(db);
    close(fd);
}

static void
damage_is_found_when_it_is_read(void **state)
{
    struct record *list = NULL;
    struct fault f = {0, ""};
    size_t n = 0;

    (void)state;
    make_ledger();
    damage("SELECT rootpage FROM sqlite_schema WHERE tbl_name = 'event'");
    struct ledger *l = opened(LEDGER_WRITE);
    struct arena *a = arena_new();
    assert_int_equal(records_read(l, &no_fleet, a, &list, &n, &f), -1);
    assert_fault(&f, EX_DATAERR);
    assert_int_equal(add_one(l, &f), -1);
    assert_fault(&f, EX_DATAERR);
    arena_free(a);
    ledger_close(l);
}

/* Root may write anything, so be somebody else for a while. */
static void
be(uid_t who)
{
    if (getuid() == 0)
        assert_int_equal(seteuid(who), 0);
}

static void
a_file_that_may_not_be_written(void **state)
{
    struct fault f = {0, ""};

    make_ledger();
    assert_int_equal(chmod(*state, 0755), 0);
    assert_int_equal(chmod(LEDGER, 0444), 0);
    be(65534);
    struct ledger *l = ledger_open(LEDGER, LEDGER_WRITE, &f);
    struct ledger *reader = ledger_open(LEDGER, LEDGER_READ, NULL);
    be(0);
    assert_null(l);
    assert_fault(&f, EX_NOPERM);
    assert_non_null(reader);
    assert_int_equal(count(reader), 1);
    ledger_close(reader);

    assert_int_equal(chmod(LEDGER, 0), 0);
    be(65534);
    l = ledger_open(LEDGER, LEDGER_READ, &f);
    be(0);
    assert_null(l);
    assert_fault(&f, EX_NOPERM);
}

static void
a_lock_held_by_another_is_a_matter_of_patience(void **state)
{
    struct fault f = {0, ""};
    sqlite3 *other = NULL;

    (void)state;
    make_ledger();
    struct ledger *l = opened(LEDGER_WRITE);
    ledger_busy_timeout(l, 20);
    assert_int_equal(sqlite3_open(LEDGER, &other), SQLITE_OK);
    assert_int_equal(
        sqlite3_exec(other, "BEGIN IMMEDIATE", NULL, NULL, NULL), SQLITE_OK);
    assert_int_equal(count(l), 1); /* readers are not kept out */
    assert_int_equal(add_one(l, &f), -1);
    assert_fault(&f, EX_TEMPFAIL);
    f.code = 0;
    assert_int_equal(ledger_begin(l, &f), -1);
    assert_fault(&f, EX_TEMPFAIL);
    sqlite3_close(other);
    assert_int_equal(add_one(l, &f), 0);
    assert_int_equal(count(l), 2);
    ledger_close(l);
}

static void
a_commit_that_a_reader_holds_up_is_undone(void **state)
{
    struct fault f = {0, ""};
    sqlite3 *other = NULL;

    (void)state;
    make_ledger();
    struct ledger *l = opened(LEDGER_WRITE);
    ledger_busy_timeout(l, 20);
    assert_int_equal(sqlite3_open(LEDGER, &other), SQLITE_OK);
    assert_int_equal(
        sqlite3_exec(other, "BEGIN; SELECT * FROM event", NULL, NULL, NULL),
        SQLITE_OK);
    assert_int_equal(ledger_begin(l, &f), 0);
    assert_int_equal(add_one(l, &f), 0);
    assert_int_equal(ledger_commit(l, &f), -1);
    assert_fault(&f, EX_TEMPFAIL);
    sqlite3_close(other);
    assert_int_equal(count(l), 1);
    ledger_close(l);
}

static void
a_group_happens_whole_or_not_at_all(void **state)
{
    (void)state;
    struct ledger *l = opened(LEDGER_WRITE);
    assert_int_equal(ledger_begin(l, NULL), 0);
    assert_int_equal(add_one(l, NULL), 0);
    assert_int_equal(add_one(l, NULL), 0);
    ledger_rollback(l);
    assert_int_equal(count(l), 0);
    ledger_rollback(l); /* there is none: nothing happens */

    assert_int_equal(ledger_begin(l, NULL), 0);
    assert_int_equal(add_one(l, NULL), 0);
    assert_outside("SELECT count(*) FROM event", "0");
    assert_int_equal(ledger_commit(l, NULL), 0);
    assert_outside("SELECT count(*) FROM event", "1");

    assert_int_equal(ledger_begin(l, NULL), 0);
    assert_int_equal(add_one(l, NULL), 0);
    ledger_close(l);
    assert_outside("SELECT count(*) FROM event", "1");
}

static void
a_group_in_a_group_can_be_undone_by_itself(void **state)
{
    (void)state;
    struct ledger *l = opened(LEDGER_WRITE);
    assert_int_equal(ledger_begin(l, NULL), 0);
    assert_int_equal(add_one(l, NULL), 0);
    assert_int_equal(ledger_begin(l, NULL), 0);
    assert_int_equal(add_one(l, NULL), 0);
    assert_int_equal(add_one(l, NULL), 0);
    ledger_rollback(l);
    assert_int_equal(ledger_begin(l, NULL), 0);
    assert_int_equal(add_one(l, NULL), 0);
    assert_int_equal(ledger_commit(l, NULL), 0);
    assert_outside("SELECT count(*) FROM event", "0");
    assert_int_equal(ledger_commit(l, NULL), 0);
    assert_outside("SELECT count(*) FROM event", "2");
    ledger_close(l);
}

/* A limit on the size of files makes writing fail as a full disk does. */
static void
let_files_grow_to(rlim_t bytes)
{
    struct rlimit limit;

    assert_int_equal(getrlimit(RLIMIT_FSIZE, &limit), 0);
    limit.rlim_cur = bytes;
    assert_int_equal(setrlimit(RLIMIT_FSIZE, &limit), 0);
    signal(SIGXFSZ, SIG_IGN);
}

static void
after_a_failed_write_nothing_of_the_group_remains(void **state)
{
    struct fault f = {0, ""};
    char note[3000];
    struct record r = {.kind = RECORD_OFF_ROAD,
        .subject_id = "K7",
        .day = 20000,
        .until = DAY_NONE,
        .reading = -1,
        .note = note};
    int code = 0;

    (void)state;
    memset(note, 'n', sizeof note);
    note[sizeof note - 1] = '\0';
    make_ledger();
    struct ledger *l = opened(LEDGER_WRITE);
    let_files_grow_to((rlim_t)size_of_file(LEDGER) + 65536);
    assert_int_equal(ledger_begin(l, &f), 0);
    for (int i = 0; code == 0 && i < 5000; i++)
        code = records_add(l, &r, NULL, &f);
    assert_int_equal(code, -1);
    assert_fault(&f, EX_IOERR);
    let_files_grow_to(RLIM_INFINITY);
    /* SQLite has ended the transaction; this must not go in alone. */
    assert_int_equal(add_one(l, &f), -1);
    assert_int_equal(ledger_commit(l, &f), -1);
    assert_int_equal(count(l), 1);
    assert_int_equal(add_one(l, &f), 0);
    ledger_close(l);
    assert_outside("SELECT count(*) FROM event", "2");
    assert_outside("PRAGMA integrity_check", "ok");
}

/* Write @n records in a group and die before its end. */
static void
write_and_die(int n)
{
    struct ledger *l = ledger_open(LEDGER, LEDGER_WRITE, NULL);

    if (l == NULL || ledger_begin(l, NULL) != 0)
        _exit(1);
    for (int i = 0; i < n; i++)
        if (add_one(l, NULL) != 0)
            _exit(1);
    kill(getpid(), SIGKILL);
}

static void
killed_after(int n)
{
    int status = 0;
    pid_t child = fork();

    if (child == 0)
        write_and_die(n);
    assert_int_equal(waitpid(child, &status, 0), child);
    assert_true(WIFSIGNALED(status) && WTERMSIG(status) == SIGKILL);
    assert_int_equal(access(LEDGER "-journal", F_OK), 0);
}

static void
a_killed_writer_leaves_nothing(void **state)
{
    (void)state;
    make_ledger();
    long before = size_of_file(LEDGER);
    killed_after(1);
    struct ledger *l = opened(LEDGER_WRITE);
    assert_int_equal(count(l), 1);
    ledger_close(l);

    /* So many that they no longer fit in memory and are in the file by now;
     * the next to come, though it only wants to read, takes them out. */
    killed_after(60000);
    assert_true(size_of_file(LEDGER) > before + 500000);
    l = opened(LEDGER_READ);
    assert_int_equal(count(l), 1);
    ledger_close(l);
    assert_int_equal(size_of_file(LEDGER), before);
    assert_outside("PRAGMA integrity_check", "ok");
}

/* Several start at once on a ledger that is not there yet. */
static void
a_ledger_is_made_once(void **state)
{
    enum { WRITERS = 6 };
    pid_t children[WRITERS];

    (void)state;
    for (int i = 0; i < WRITERS; i++)
        if ((children[i] = fork()) == 0) {
            struct ledger *l = ledger_open(LEDGER, LEDGER_WRITE, NULL);
            int failed = l == NULL || add_one(l, NULL) != 0;
            ledger_close(l);
            _exit(failed);
        }
    for (int i = 0; i < WRITERS; i++) {
        int status = -1;
        assert_int_equal(waitpid(children[i], &status, 0), children[i]);
        assert_int_equal(status, 0);
    }
    assert_outside("SELECT count(*) FROM event", "6");
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        TEST(a_missing_ledger_reads_as_empty_and_is_not_made),
        TEST(a_new_ledger_says_what_it_is_and_leaves_no_litter),
        TEST(what_was_written_is_there_when_opened_again),
        TEST(a_trial_makes_no_file),
        TEST(reading_writes_nothing),
        TEST(a_newer_ledger_is_refused),
        TEST(a_file_that_is_no_ledger_is_left_alone),
        TEST(the_database_of_another_program_is_refused),
        TEST(a_folder_is_no_ledger_and_a_missing_one_holds_none),
        TEST(a_path_is_only_a_path),
        TEST(damage_is_found_when_it_is_read),
        TEST(a_file_that_may_not_be_written),
        TEST(a_lock_held_by_another_is_a_matter_of_patience),
        TEST(a_commit_that_a_reader_holds_up_is_undone),
        TEST(a_group_happens_whole_or_not_at_all),
        TEST(a_group_in_a_group_can_be_undone_by_itself),
        TEST(after_a_failed_write_nothing_of_the_group_remains),
        TEST(a_killed_writer_leaves_nothing),
        TEST(a_ledger_is_made_once),
    };

    return cmocka_run_group_tests_name("ledger", tests, NULL, NULL);
}
