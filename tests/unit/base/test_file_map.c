/* Files mapped to be read. */
#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/time.h>
#include <unistd.h>

#include "file_map.h"
#include "test.h"

static char folder[] = "/tmp/test-mapped-XXXXXX";

static int
setup(void **state)
{
    (void)state;
    return mkdtemp(folder) == NULL || chdir(folder);
}

static int
teardown(void **state)
{
    char command[64];

    (void)state;
    snprintf(command, sizeof command, "rm -rf '%s'", folder);
    return chdir("/") || system(command);
}

static void
write_file(const char *text)
{
    FILE *f = fopen("f", "w");

    assert_non_null(f);
    fputs(text, f);
    assert_int_equal(fclose(f), 0);
}

static void
a_file_is_read(void **state)
{
    struct file_map m;

    (void)state;
    write_file("some bytes");
    assert_int_equal(file_map_open("f", &m), 0);
    assert_int_equal(m.len, 10);
    assert_memory_equal(m.bytes, "some bytes", 10);
    file_map_close(&m);
    write_file("");
    assert_int_equal(file_map_open("f", &m), 0);
    assert_int_equal(m.len, 0);
    file_map_close(&m);
}

static void
what_is_no_file_is_refused(void **state)
{
    struct file_map m;

    (void)state;
    errno = 0;
    assert_int_equal(file_map_open("missing", &m), -1);
    assert_int_equal(errno, ENOENT);
    assert_int_equal(file_map_open(".", &m), -1);
    /* With nobody to write to it, nor does it wait. */
    assert_int_equal(mkfifo("pipe", 0600), 0);
    assert_int_equal(file_map_open("pipe", &m), -1);
}

static void
its_size_and_when_it_was_written(void **state)
{
    static const struct timeval times[] = {{5, 0}, {1000000000, 250}};
    int64_t size, written;

    (void)state;
    write_file("abc");
    assert_int_equal(utimes("f", times), 0);
    assert_int_equal(file_map_look("f", &size, &written), 0);
    assert_int_equal(size, 3);
    /* 250 microseconds after the second. */
    assert_true(written == 1000000000000250000);
    assert_int_equal(file_map_look("missing", &size, &written), -1);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_file_is_read),
        cmocka_unit_test(what_is_no_file_is_refused),
        cmocka_unit_test(its_size_and_when_it_was_written),
    };

    return cmocka_run_group_tests(tests, setup, teardown);
}
