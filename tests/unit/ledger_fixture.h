#ifndef LEDGER_FIXTURE_H
#define LEDGER_FIXTURE_H

/*
 * A folder for each check, which works inside it, and a look at the ledger's
 * file from outside.
 */

#include "ledger.h"
#include "test.h"

#include <sqlite3.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#define LEDGER "ledger.db"

static inline int
in_a_folder(void **state)
{
    char *folder = strdup("/tmp/test-ledger-XXXXXX");

    *state = folder;
    return folder == NULL || mkdtemp(folder) == NULL || chdir(folder) != 0;
}

static inline int
out_of_the_folder(void **state)
{
    char command[64];

    snprintf(command, sizeof command, "rm -rf '%s'", (char *)*state);
    free(*state);
    return chdir("/") || system(command);
}

/* The ledger of this check; fails unless it opens. */
static inline struct ledger *
opened(enum ledger_mode mode)
{
    struct fault f = {0, ""};
    struct ledger *l = ledger_open(LEDGER, mode, &f);

    if (l == NULL)
        fail_msg("%s", f.text);
    return l;
}

/* Run @sql on the ledger's file as a stranger would; a result code. */
static inline int
run_outside(const char *sql)
{
    sqlite3 *db = NULL;

    assert_int_equal(sqlite3_open(LEDGER, &db), SQLITE_OK);
    int code = sqlite3_exec(db, sql, NULL, NULL, NULL);
    sqlite3_close(db);
    return code;
}

/* Fail unless the first value that @sql answers with is @want. */
static inline void
assert_outside(const char *sql, const char *want)
{
    sqlite3 *db = NULL;
    sqlite3_stmt *s = NULL;

    assert_int_equal(sqlite3_open(LEDGER, &db), SQLITE_OK);
    assert_int_equal(sqlite3_prepare_v2(db, sql, -1, &s, NULL), SQLITE_OK);
    assert_int_equal(sqlite3_step(s), SQLITE_ROW);
    assert_string_equal((const char *)sqlite3_column_text(s, 0), want);
    sqlite3_finalize(s);
    sqlite3_close(db);
}

/* Fail unless @f has @code and names the ledger. */
static inline void
assert_fault(const struct fault *f, int code)
{
    if (f->code != code)
        fail_msg("exit code %d, not %d: %s", f->code, code, f->text);
    assert_non_null(strstr(f->text, LEDGER));
}

#define TEST(check)                                                            \
    cmocka_unit_test_setup_teardown(check, in_a_folder, out_of_the_folder)

#endif
