/* What was last published of each feed. */
#include <sysexits.h>

#include "feed_version.h"
#include "ledger_fixture.h"
#include "test.h"

static const unsigned char red[FEED_VERSION_HASH] = "red";
static const unsigned char blue[FEED_VERSION_HASH] = "blue";

static void
the_last_edition_is_found_again(void **state)
{
    struct feed_version e = {.hash = red};

    (void)state;
    struct ledger *l = opened(LEDGER_WRITE);
    assert_int_equal(feed_version_find(l, "all", &e, NULL), 0);
    e = (struct feed_version){red, 0, 12, 3, 4567, 1795613450742444719};
    assert_int_equal(feed_version_keep(l, "all", &e, NULL), 0);
    ledger_close(l);

    l = opened(LEDGER_WRITE);
    e = (struct feed_version){.hash = red};
    assert_int_equal(feed_version_find(l, "ALL", &e, NULL), 1);
    assert_true(e.same);
    assert_int_equal(e.dues, 12);
    assert_int_equal(e.left_out, 3);
    assert_int_equal(e.size, 4567);
    assert_true(e.written == 1795613450742444719);
    e.hash = blue;
    assert_int_equal(feed_version_find(l, "all", &e, NULL), 1);
    assert_false(e.same);
    /* The next takes its place; another feed has its own. */
    e.dues = 5;
    assert_int_equal(feed_version_keep(l, "all", &e, NULL), 0);
    assert_int_equal(feed_version_find(l, "all", &e, NULL), 1);
    assert_true(e.same);
    assert_int_equal(e.dues, 5);
    assert_int_equal(feed_version_find(l, "hill", &e, NULL), 0);
    ledger_close(l);
}

static void
who_may_only_read_keeps_nothing(void **state)
{
    struct feed_version e = {red, 0, 1, 0, 1, 1};
    struct fault f = {0, ""};

    (void)state;
    ledger_close(opened(LEDGER_WRITE));
    struct ledger *l = opened(LEDGER_READ);
    assert_int_equal(feed_version_keep(l, "all", &e, &f), -1);
    assert_fault(&f, EX_NOPERM);
    ledger_close(l);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        TEST(the_last_edition_is_found_again),
        TEST(who_may_only_read_keeps_nothing),
    };

    return cmocka_run_group_tests_name("ledger_edition", tests, NULL, NULL);
}
