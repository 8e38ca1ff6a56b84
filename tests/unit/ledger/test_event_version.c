/* The stamps of calendar events: RFC 5545, 3.8.7.2 to 3.8.7.4. */
#include <sysexits.h>

#include "event_version.h"
#include "ledger_fixture.h"
#include "test.h"

#define NOW 1767225600 /* 2026-01-01T00:00:00Z */
#define YEAR 31536000

static const unsigned char red[EVENT_VERSION_HASH] = "red";
static const unsigned char blue[EVENT_VERSION_HASH] = "blue";
/* Differs from red in its last byte alone, behind NUL bytes. */
static const unsigned char rose[EVENT_VERSION_HASH] = {'r', 'e', 'd', [31] = 1};

static void
assert_stamp(struct ledger *l, const char *uid, const unsigned char *hash,
    int64_t now, int64_t sequence, int64_t modified)
{
    struct event_version s = {-1, -1};
    struct fault f = {0, ""};

    if (event_version_next(
            l, &(struct event_version_of){"feed", uid, hash}, now, &s, &f) != 0)
        fail_msg("%s", f.text);
    assert_int_equal(s.sequence, sequence);
    assert_int_equal(s.modified, modified);
}

static void
a_stamp_moves_only_with_the_content(void **state)
{
    (void)state;
    struct ledger *l = opened(LEDGER_WRITE);
    assert_stamp(l, "a", red, NOW, 0, NOW);
    assert_stamp(l, "a", red, NOW + 500, 0, NOW);
    assert_stamp(l, "b", blue, NOW + 500, 0, NOW + 500);
    assert_stamp(l, "a", blue, NOW + 600, 1, NOW + 600);
    ledger_close(l);
    l = opened(LEDGER_WRITE);
    assert_stamp(l, "a", blue, NOW + 700, 1, NOW + 600);
    assert_stamp(l, "a", red, NOW + 800, 2, NOW + 800); /* back is new, too */
    assert_stamp(l, "a", rose, NOW + 900, 3, NOW + 900);
    assert_stamp(l, "b", blue, NOW + 900, 0, NOW + 500);
    ledger_close(l);
}

static void
a_stamp_only_goes_up_when_the_clock_goes_back(void **state)
{
    (void)state;
    struct ledger *l = opened(LEDGER_WRITE);
    assert_stamp(l, "a", red, NOW, 0, NOW);
    assert_stamp(l, "a", blue, NOW, 1, NOW + 1); /* in the same second */
    assert_stamp(l, "a", red, NOW - YEAR, 2, NOW + 2);
    assert_stamp(l, "a", red, NOW - YEAR, 2, NOW + 2);
    assert_stamp(l, "a", blue, NOW + 2, 3, NOW + 3);
    assert_stamp(l, "a", red, NOW + YEAR, 4, NOW + YEAR);
    ledger_close(l);
}

static void
many_stamps_in_one_group(void **state)
{
    char uid[16];

    (void)state;
    struct ledger *l = opened(LEDGER_WRITE);
    for (int round = 0; round < 3; round++) {
        assert_int_equal(ledger_begin(l, NULL), 0);
        for (int i = 0; i < 1000; i++) {
            snprintf(uid, sizeof uid, "event-%d", i);
            /* Every tenth changes each time. */
            assert_stamp(l, uid, i % 10 == 0 && round == 1 ? blue : red,
                NOW + round, i % 10 == 0 ? round : 0,
                i % 10 == 0 ? NOW + round : NOW);
        }
        assert_int_equal(ledger_commit(l, NULL), 0);
    }
    assert_outside("SELECT count(*) FROM published", "1000");
    ledger_close(l);
}

/* An event may look different in two feeds; ids match in either case. */
static void
each_feed_has_its_own_stamps(void **state)
{
    struct event_version s = {-1, -1};

    (void)state;
    struct ledger *l = opened(LEDGER_WRITE);
    assert_stamp(l, "a", red, NOW, 0, NOW);
    assert_int_equal(
        event_version_next(l, &(struct event_version_of){"other", "a", blue},
            NOW + 1, &s, NULL),
        0);
    assert_int_equal(s.sequence, 0);
    assert_int_equal(
        event_version_next(
            l, &(struct event_version_of){"FEED", "a", red}, NOW + 1, &s, NULL),
        0);
    assert_int_equal(s.modified, NOW);
    ledger_close(l);
}

static void
learn(struct ledger *l, const unsigned char *hash, int64_t sequence,
    int64_t modified)
{
    assert_int_equal(
        event_version_learn(l, &(struct event_version_of){"feed", "a", hash},
            &(struct event_version){sequence, modified}, NULL),
        0);
}

/* A ledger that is behind what subscribers have seen: nothing goes back. */
static void
what_was_seen_is_learnt(void **state)
{
    (void)state;
    struct ledger *l = opened(LEDGER_WRITE);
    learn(l, red, 3, NOW);
    assert_stamp(l, "a", red, NOW + 9, 3, NOW);
    assert_stamp(l, "a", blue, NOW + 9, 4, NOW + 9);
    /* Older than what is known, or the same: it changes nothing. */
    learn(l, red, 3, NOW);
    learn(l, blue, 4, NOW + 9);
    assert_stamp(l, "a", blue, NOW + 10, 4, NOW + 9);
    /* Seen with a later change: that is what it said last. */
    learn(l, red, 7, NOW + 10);
    assert_stamp(l, "a", red, NOW + 20, 7, NOW + 10);
    assert_stamp(l, "a", blue, NOW, 8, NOW + 11);
    ledger_close(l);
}

/* Of two ledgers that took turns neither may know the other's last word: what
 * differs from what was seen goes up from the higher of both. */
static void
what_was_seen_of_another_ledger_is_learnt(void **state)
{
    (void)state;
    struct ledger *l = opened(LEDGER_WRITE);
    assert_stamp(l, "a", red, NOW, 0, NOW);
    assert_stamp(l, "a", blue, NOW + 1, 1, NOW + 1);
    /* The other began anew, and later. */
    learn(l, red, 0, NOW + 50);
    assert_stamp(l, "a", blue, NOW + 9, 2, NOW + 51);
    /* It was as far, at the same time, or an earlier one. */
    learn(l, rose, 2, NOW + 51);
    assert_stamp(l, "a", blue, NOW + 60, 3, NOW + 60);
    learn(l, red, 3, NOW + 20);
    assert_stamp(l, "a", blue, NOW + 70, 4, NOW + 70);
    /* Further, but earlier: who has the later one would not take this one. */
    learn(l, red, 5, NOW + 10);
    assert_stamp(l, "a", red, NOW + 60, 6, NOW + 71);
    /* The same content needs no new stamp. */
    learn(l, red, 4, NOW + 80);
    assert_stamp(l, "a", red, NOW + 90, 6, NOW + 80);
    ledger_close(l);
}

/* What is known can be had by who may only read, the rest cannot. */
static void
a_reader_gets_the_stamps_that_are_known(void **state)
{
    struct event_version s = {-1, -1};
    struct fault f = {0, ""};

    (void)state;
    struct ledger *l = opened(LEDGER_WRITE);
    assert_stamp(l, "a", red, NOW, 0, NOW);
    ledger_close(l);
    l = opened(LEDGER_READ);
    assert_stamp(l, "a", red, NOW + 1, 0, NOW);
    assert_int_equal(
        event_version_next(
            l, &(struct event_version_of){"feed", "a", blue}, NOW, &s, &f),
        -1);
    assert_fault(&f, EX_NOPERM);
    ledger_close(l);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        TEST(a_stamp_moves_only_with_the_content),
        TEST(a_stamp_only_goes_up_when_the_clock_goes_back),
        TEST(many_stamps_in_one_group),
        TEST(each_feed_has_its_own_stamps),
        TEST(what_was_seen_is_learnt),
        TEST(what_was_seen_of_another_ledger_is_learnt),
        TEST(a_reader_gets_the_stamps_that_are_known),
    };

    return cmocka_run_group_tests_name("ledger_published", tests, NULL, NULL);
}
