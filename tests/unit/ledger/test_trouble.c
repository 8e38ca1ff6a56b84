/* What the keeper was told, and whether somebody was ever told anything. */
#include <sysexits.h>

#include "arena.h"
#include "ledger_fixture.h"
#include "outbox.h"
#include "test.h"
#include "trouble.h"

static void
kept(struct ledger *l, const char *about, const char *says, day_t told)
{
    struct fault f = {0, ""};

    if (trouble_keep(l, &(struct trouble){about, says, told}, &f) != 0)
        fail_msg("%s", f.text);
}

/* The list is of @n, and the first of them is that. */
static void
assert_first(
    struct ledger *l, size_t n, const char *about, const char *says, day_t told)
{
    struct arena *a = arena_new();
    struct trouble *list;
    size_t had;
    struct fault f = {0, ""};

    assert_non_null(a);
    if (trouble_list(l, a, &list, &had, &f) != 0)
        fail_msg("%s", f.text);
    assert_int_equal(had, n);
    if (n > 0) {
        assert_string_equal(list[0].about, about);
        assert_string_equal(list[0].says, says);
        assert_int_equal(list[0].told, told);
    }
    arena_free(a);
}

static void
one_of_each_is_kept(void **state)
{
    (void)state;
    struct ledger *l = opened(LEDGER_WRITE);
    assert_first(l, 0, "", "", 0);
    kept(l, "the mail", "it fails", 20000);
    kept(l, "the feeds", "no space", 20001);
    assert_first(l, 2, "the feeds", "no space", 20001);
    kept(l, "the feeds", "no folder", 20003);
    ledger_close(l);
    l = opened(LEDGER_WRITE);
    assert_first(l, 2, "the feeds", "no folder", 20003);
    assert_int_equal(trouble_drop(l, "the feeds", NULL), 0);
    assert_first(l, 1, "the mail", "it fails", 20000);
    assert_int_equal(trouble_drop(l, "the feeds", NULL), 0);
    assert_int_equal(trouble_drop(l, "the mail", NULL), 0);
    assert_first(l, 0, "", "", 0);
    ledger_close(l);
}

static void
what_says_nothing_is_refused(void **state)
{
    struct fault f = {0, ""};

    (void)state;
    struct ledger *l = opened(LEDGER_WRITE);
    assert_int_equal(
        trouble_keep(l, &(struct trouble){"", "x", 20000}, &f), -1);
    assert_int_equal(f.code, EX_DATAERR);
    assert_int_equal(
        trouble_keep(l, &(struct trouble){"x", "x", DAY_NONE}, &f), -1);
    assert_first(l, 0, "", "", 0);
    ledger_close(l);
}

static void
who_was_ever_told(void **state)
{
    struct sent_reminder told = {
        "K7", "service", "none", "0-days-before", "Fitter", 1};
    struct outbox_message m = {.person = "Fitter",
        .message_id = "1@skerrow.example",
        .recipient = "fitter@skerrow.example",
        .bytes = "x",
        .len = 1};

    (void)state;
    struct ledger *l = opened(LEDGER_WRITE);
    assert_int_equal(sent_reminder_any(l, "fitter", NULL), 0);
    assert_int_equal(outbox_add(l, &m, &told, 1, NULL), 0);
    assert_int_equal(sent_reminder_any(l, "fitter", NULL), 1);
    assert_int_equal(sent_reminder_any(l, "manager", NULL), 0);
    ledger_close(l);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        TEST(one_of_each_is_kept),
        TEST(what_says_nothing_is_refused),
        TEST(who_was_ever_told),
    };

    return cmocka_run_group_tests_name("troubles", tests, NULL, NULL);
}
