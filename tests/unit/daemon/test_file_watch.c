/* What is seen of files that change, however many do. */
#include <poll.h>
#include <stdio.h>
#include <stdlib.h>
#include <sys/stat.h>
#include <unistd.h>

#include "file_watch.h"
#include "test.h"

static char folder[] = "/tmp/ostler-file-watch-XXXXXX";

static const char *
in_folder(const char *name)
{
    static char path[200];

    snprintf(path, sizeof path, "%s/%s", folder, name);
    return path;
}

/* Open so many times by turns two files to write, so that no two events that
 * follow each other are the same one: the kernel would make one of those. */
static void
write_by_turns(int times, const char *a, const char *b)
{
    for (int i = 0; i < times; i++) {
        FILE *f = fopen(in_folder(i % 2 ? a : b), "a");
        assert_non_null(f);
        fclose(f);
    }
}

static int
can_be_read(const struct file_watch *l)
{
    struct pollfd p = {.fd = file_watch_fd(l), .events = POLLIN};

    return poll(&p, 1, 0) == 1;
}

static int
queue_most(void)
{
    FILE *f = fopen("/proc/sys/fs/inotify/max_queued_events", "r");
    int most = 0;

    assert_non_null(f);
    assert_int_equal(fscanf(f, "%d", &most), 1);
    fclose(f);
    return most;
}

static struct file_watch *
watch(void)
{
    struct fault f;
    struct file_watch *l = file_watch_open(&f);

    assert_non_null(l);
    assert_int_equal(file_watch_ledger(l, in_folder("ledger.db"), &f), 0);
    assert_int_equal(file_watch_file(l, in_folder("fleet.conf"), &f), 1);
    assert_int_equal(file_watch_file(l, in_folder("more.conf"), &f), 0);
    return l;
}

static void
what_is_written(void **state)
{
    struct file_watch *l = watch();

    (void)state;
    assert_int_equal(file_watch_look(l), 0);
    write_by_turns(1, "fleet.conf", "fleet.conf");
    assert_int_equal(file_watch_look(l), FILE_WATCH_FLEET);
    assert_int_equal(file_watch_look(l), 0);
    /* One that could not be read, or that others could, is mended so. */
    assert_int_equal(chmod(in_folder("fleet.conf"), 0600), 0);
    assert_int_equal(file_watch_look(l), FILE_WATCH_FLEET);
    write_by_turns(2, "ledger.db-journal", "ledger.db.lock");
    assert_int_equal(file_watch_look(l), 0);
    assert_int_equal(unlink(in_folder("ledger.db-journal")), 0);
    assert_int_equal(file_watch_look(l), FILE_WATCH_LEDGER);
    file_watch_close(l);
}

/* As of who keeps the fleet's files elsewhere, under a link in its folder. */
static void
what_a_link_leads_to(void **state)
{
    struct file_watch *l = watch();
    struct fault f;

    (void)state;
    assert_int_equal(mkdir(in_folder("kept"), 0700), 0);
    write_by_turns(1, "kept/a.conf", "kept/a.conf");
    assert_int_equal(symlink("kept/a.conf", in_folder("link.conf")), 0);
    assert_int_equal(file_watch_file(l, in_folder("link.conf"), &f), 1);
    assert_int_equal(file_watch_file(l, in_folder("link.conf"), &f), 0);
    (void)file_watch_look(l);
    write_by_turns(1, "kept/a.conf", "kept/a.conf");
    assert_int_equal(file_watch_look(l), FILE_WATCH_FLEET);
    file_watch_close(l);
    assert_int_equal(unlink(in_folder("link.conf")), 0);
    assert_int_equal(unlink(in_folder("kept/a.conf")), 0);
    assert_int_equal(rmdir(in_folder("kept")), 0);
}

/* 10,000 events of 32 bytes (inotify(7): 16, and the name with its NUL rounded
 * up to 16) are 79 reads of 4096, and a look makes 64. */
static void
one_look_is_not_without_end(void **state)
{
    struct file_watch *l = watch();

    (void)state;
    if (queue_most() < 10000)
        skip();
    write_by_turns(10000, "a.conf", "b.conf");
    assert_int_equal(file_watch_look(l), FILE_WATCH_FLEET);
    assert_true(can_be_read(l));
    assert_int_equal(file_watch_look(l), FILE_WATCH_FLEET);
    assert_false(can_be_read(l));
    file_watch_close(l);
}

/* What does not fit in the queue is dropped, and may have been anything. */
static void
what_is_lost_may_be_anything(void **state)
{
    struct file_watch *l = watch();
    unsigned seen = 0;

    (void)state;
    write_by_turns(queue_most() + 10, "ledger.db.a", "ledger.db.b");
    while (can_be_read(l))
        seen |= file_watch_look(l);
    assert_int_equal(seen, FILE_WATCH_LEDGER | FILE_WATCH_FLEET);
    file_watch_close(l);
}

static int
make_folder(void **state)
{
    (void)state;
    return mkdtemp(folder) == NULL;
}

static int
remove_folder(void **state)
{
    static const char *const names[] = {"fleet.conf", "ledger.db.lock",
        "a.conf", "b.conf", "ledger.db.a", "ledger.db.b"};

    (void)state;
    for (size_t i = 0; i < sizeof names / sizeof *names; i++)
        (void)unlink(in_folder(names[i]));
    return rmdir(folder);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_is_written),
        cmocka_unit_test(what_a_link_leads_to),
        cmocka_unit_test(one_look_is_not_without_end),
        cmocka_unit_test(what_is_lost_may_be_anything),
    };

    return cmocka_run_group_tests(tests, make_folder, remove_folder);
}
