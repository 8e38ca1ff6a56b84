#include <dirent.h>
#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "atomic_file.h"
#include "test.h"

/* Every check has a folder of its own and works inside it. */
static int
setup(void **state)
{
    static char folder[] = "/tmp/test-durable-XXXXXX";

    strcpy(folder + strlen(folder) - 6, "XXXXXX");
    *state = mkdtemp(folder);
    return *state == NULL || chdir(folder);
}

static int
teardown(void **state)
{
    char command[64];

    snprintf(command, sizeof command, "rm -rf '%s'", (char *)*state);
    return chdir("/") || system(command);
}

static void
assert_holds(const char *path, const char *want)
{
    char got[64] = "";
    FILE *f = fopen(path, "r");

    assert_non_null(f);
    size_t n = fread(got, 1, sizeof got - 1, f);
    fclose(f);
    assert_int_equal(n, strlen(want));
    assert_string_equal(got, want);
}

/* How many names there are in the folder, but for . and .. */
static int
names_in(const char *path)
{
    int n = -2;
    DIR *d = opendir(path);

    assert_non_null(d);
    while (readdir(d) != NULL)
        n++;
    closedir(d);
    return n;
}

static void
a_file_is_written_and_replaced_whole(void **state)
{
    struct stat st;

    (void)state;
    assert_int_equal(atomic_file_write("feed.ics", "one\n", 4), 1);
    assert_holds("feed.ics", "one\n");
    assert_int_equal(stat("feed.ics", &st), 0);
    assert_int_equal(st.st_mode & 07777, 0644);
    assert_int_equal(atomic_file_write("feed.ics", "two\nmore\n", 9), 1);
    assert_holds("feed.ics", "two\nmore\n");
    assert_int_equal(atomic_file_write("feed.ics", "2", 1), 1);
    assert_holds("feed.ics", "2");
    assert_int_equal(atomic_file_write("feed.ics", "", 0), 1);
    assert_holds("feed.ics", "");
    assert_int_equal(names_in("."), 1); /* nothing else is left lying about */
}

static void
the_same_bytes_are_not_written_again(void **state)
{
    struct stat first;
    struct stat second;

    (void)state;
    assert_int_equal(atomic_file_write("f", "same", 4), 1);
    assert_int_equal(stat("f", &first), 0);
    assert_int_equal(atomic_file_write("f", "same", 4), 0);
    assert_int_equal(stat("f", &second), 0);
    assert_int_equal(first.st_ino, second.st_ino);
    /* A beginning or a continuation is not the same. */
    assert_int_equal(atomic_file_write("f", "sam", 3), 1);
    assert_int_equal(atomic_file_write("f", "same", 4), 1);
    assert_int_equal(atomic_file_write("f", "sama", 4), 1);
}

/* Longer than what is compared or written at once. */
static void
large_files_are_compared_to_the_end(void **state)
{
    enum { SIZE = 100000 };
    char *bytes = malloc(SIZE);

    (void)state;
    assert_non_null(bytes);
    memset(bytes, 'x', SIZE);
    assert_int_equal(atomic_file_write("f", bytes, SIZE), 1);
    assert_int_equal(atomic_file_write("f", bytes, SIZE), 0);
    bytes[SIZE - 1] = 'y';
    assert_int_equal(atomic_file_write("f", bytes, SIZE), 1);
    assert_int_equal(atomic_file_write("f", bytes, SIZE), 0);
    assert_int_equal(atomic_file_write("f", bytes, SIZE - 1), 1);
    free(bytes);
}

static void
a_failure_says_why_and_leaves_nothing(void **state)
{
    (void)state;
    errno = 0;
    assert_int_equal(atomic_file_write("missing/f", "x", 1), -1);
    assert_int_equal(errno, ENOENT);
    assert_int_equal(atomic_file_folder("taken"), 0);
    assert_int_equal(atomic_file_write("taken", "x", 1), -1);
    assert_int_equal(errno, EISDIR);
    assert_int_equal(names_in("."), 1);
    assert_int_equal(names_in("taken"), 0);
}

static void
a_file_is_written_piece_by_piece(void **state)
{
    size_t len;

    (void)state;
    assert_int_equal(atomic_file_write("f", "old", 3), 1);
    struct atomic_file *d = atomic_file_start("f");
    assert_non_null(d);
    assert_string_equal(atomic_file_bytes(d, &len), "");
    assert_int_equal(len, 0);
    atomic_file_add(d, "ne", 2);
    assert_memory_equal(atomic_file_bytes(d, &len), "ne", 2);
    atomic_file_add(d, "wer", 3);
    assert_memory_equal(atomic_file_bytes(d, &len), "newer", 5);
    assert_int_equal(len, 5);
    assert_holds("f", "old");
    assert_int_equal(atomic_file_finish(d), 1);
    assert_holds("f", "newer");

    /* Dropped, or the same: the file is left alone. */
    d = atomic_file_start("f");
    atomic_file_add(d, "other", 5);
    atomic_file_drop(d);
    d = atomic_file_start("f");
    atomic_file_add(d, "newer", 5);
    assert_int_equal(atomic_file_finish(d), 0);
    assert_holds("f", "newer");
    assert_int_equal(names_in("."), 1);
    assert_null(atomic_file_start("missing/f"));
    atomic_file_drop(NULL);
}

static void
folders_are_made_with_those_above(void **state)
{
    struct stat st;

    (void)state;
    assert_int_equal(atomic_file_folder("a/b//c/"), 0);
    assert_int_equal(stat("a/b/c", &st), 0);
    assert_true(S_ISDIR(st.st_mode));
    assert_int_equal(atomic_file_folder("a/b/c"), 0);
    assert_int_equal(atomic_file_folder("."), 0);
    assert_int_equal(atomic_file_folder("/"), 0);
}

static void
a_folder_that_cannot_be_is_refused(void **state)
{
    (void)state;
    assert_int_equal(atomic_file_write("file", "x", 1), 1);
    assert_int_equal(atomic_file_folder("file/below"), -1);
    assert_int_equal(errno, ENOTDIR);
    assert_int_equal(atomic_file_folder("file"), -1);
    assert_int_equal(errno, ENOTDIR);
    assert_int_equal(atomic_file_folder(""), -1);
    assert_int_equal(errno, ENOENT);
}

static void
a_file_takes_the_place_of_another(void **state)
{
    (void)state;
    assert_int_equal(atomic_file_write("a", "new", 3), 1);
    assert_int_equal(atomic_file_write("b", "old", 3), 1);
    assert_int_equal(atomic_file_rename("a", "b"), 0);
    assert_holds("b", "new");
    assert_int_equal(atomic_file_rename("b", "c"), 0);
    assert_holds("c", "new");
    assert_int_equal(names_in("."), 1);
    assert_int_equal(atomic_file_rename("a", "c"), -1);
    assert_int_equal(errno, ENOENT);
    assert_int_equal(atomic_file_rename("c", "gone/c"), -1);
    assert_int_equal(errno, ENOENT);
    assert_holds("c", "new");
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(
            a_file_is_written_and_replaced_whole, setup, teardown),
        cmocka_unit_test_setup_teardown(
            the_same_bytes_are_not_written_again, setup, teardown),
        cmocka_unit_test_setup_teardown(
            large_files_are_compared_to_the_end, setup, teardown),
        cmocka_unit_test_setup_teardown(
            a_failure_says_why_and_leaves_nothing, setup, teardown),
        cmocka_unit_test_setup_teardown(
            a_file_takes_the_place_of_another, setup, teardown),
        cmocka_unit_test_setup_teardown(
            a_file_is_written_piece_by_piece, setup, teardown),
        cmocka_unit_test_setup_teardown(
            folders_are_made_with_those_above, setup, teardown),
        cmocka_unit_test_setup_teardown(
            a_folder_that_cannot_be_is_refused, setup, teardown),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
