/* The chain of records: its hashes, and where it is found to break. */
#include <nettle/sha2.h>
#include <sysexits.h>

#include "chain.h"
#include "days.h"
#include "ledger_fixture.h"
#include "records.h"
#include "test.h"

static void
assert_digest(const unsigned char *got, const char *want)
{
    char text[2 * CHAIN_HASH + 1];

    for (size_t i = 0; i < CHAIN_HASH; i++)
        snprintf(text + 2 * i, 3, "%02x", got[i]);
    assert_string_equal(text, want);
}

/* FIPS 180-4, the example "abc" of SHA-256. */
static void
the_library_computes_sha_256(void **state)
{
    struct sha256_ctx sha;
    unsigned char digest[SHA256_DIGEST_SIZE];

    (void)state;
    sha256_init(&sha);
    sha256_update(&sha, 3, (const unsigned char *)"abc");
    sha256_digest(&sha, sizeof digest, digest);
    assert_digest(digest, "ba7816bf8f01cfea414140de5dae2223"
                          "b00361a396177a9cb410ff61f20015ad");
}

/*
 * Four records.  What each hash is of is written out, and the hash comes from
 * sha256sum(1), fed with the 32 bytes of the one before and that text.
 */
static const char *const hashes[] = {
    /* 1:1,9:completed,2:K7,11:annual-test,5:20526,-,8:distance,5:41250,
     * 10:1767225600,-,-,10:R. Ferrier,-,-,-,-,1:2, */
    "4e9c16b0464deffd05c7ad5898f6ebe3"
    "9b9b2d74f450fb87440903c88ad97b77",
    /* 1:2,6:voided,-,-,-,-,-,-,1:5,1:1,-,-,-,5:wrong,-,-,1:2, */
    "c6c7a36c242fc6108678ad83b8c027c9"
    "c274b44b136f4776b2661e9b01b4db74",
    /* 1:3,5:moved,5:EX-31,-,6:-25567,-,-,-,2:-1,-,-,-,3:A,B,8:l<c3 b6>st: 5,
     * 2:K7,-,1:2, */
    "e7e32edaf3db29fd6afe1f8442e879a7"
    "21768bf2b8855dc166a669260d10659a",
    /* 1:4,6:booked,2:K7,3:oil,5:20600,-,-,-,1:6,-,-,-,-,-,-,
     * 15:{"cycle":"r42"},1:2, */
    "a98a2fa79e19e5656ffaac38ef851468"
    "030b63d9991b19c9fefdf9946d65d9c5",
};

static struct ledger *
four_records(void)
{
    struct record done = {.kind = RECORD_COMPLETED,
        .subject_id = "K7",
        .job_id = "annual-test",
        .day = date("2026-03-14"),
        .until = DAY_NONE,
        .meter = METER_DISTANCE,
        .reading = 41250,
        .entered = 1767225600,
        .by = "R. Ferrier"};
    struct record moved = {.kind = RECORD_MOVED,
        .subject_id = "EX-31",
        .other_id = "K7",
        .day = date("1900-01-01"),
        .until = DAY_NONE,
        .reading = -1,
        .entered = -1,
        .reference = "A,B",
        .note = "l\xc3\xb6st: 5"};
    const struct record_value value = {.word = "cycle", .text = "r42"};
    struct record booked = {.kind = RECORD_BOOKED,
        .subject_id = "K7",
        .job_id = "oil",
        .values = &value,
        .n_values = 1,
        .day = 20600,
        .until = DAY_NONE,
        .reading = -1,
        .entered = 6};
    struct ledger *l = opened(LEDGER_WRITE);

    assert_int_equal(records_add(l, &done, NULL, NULL), 0);
    assert_int_equal(records_void(l, 1, NULL, "wrong", 5, NULL), 0);
    assert_int_equal(records_add(l, &moved, NULL, NULL), 0);
    assert_int_equal(records_add(l, &booked, NULL, NULL), 0);
    return l;
}

static void
each_hash_is_of_the_one_before_and_the_columns(void **state)
{
    struct chain chain;
    char sql[80];

    (void)state;
    struct ledger *l = four_records();
    for (int i = 0; i < 4; i++) {
        snprintf(sql, sizeof sql,
            "SELECT lower(hex(hash)) FROM event WHERE id = %d", i + 1);
        assert_outside(sql, hashes[i]);
    }
    assert_int_equal(chain_verify(l, &chain, NULL), 0);
    assert_int_equal(chain.records, 4);
    assert_int_equal(chain.broken, 0);
    assert_digest(chain.last, hashes[3]);
    ledger_close(l);
}

static void
an_empty_chain_is_whole(void **state)
{
    static const unsigned char zeros[CHAIN_HASH];
    struct chain chain;

    (void)state;
    struct ledger *l = opened(LEDGER_READ);
    assert_int_equal(chain_verify(l, &chain, NULL), 0);
    assert_int_equal(chain.records, 0);
    assert_memory_equal(chain.last, zeros, CHAIN_HASH);
    ledger_close(l);
}

/* After @sql the chain breaks at the record @at. */
static void
breaks_at(const char *sql, int at)
{
    struct chain chain;
    struct fault f = {0, ""};
    char text[40];

    (void)unlink(LEDGER);
    ledger_close(four_records());
    assert_int_equal(run_outside("DROP TRIGGER event_changed;"
                                 "DROP TRIGGER event_deleted"),
        SQLITE_OK);
    assert_int_equal(run_outside(sql), SQLITE_OK);
    struct ledger *l = opened(LEDGER_READ);
    assert_int_equal(chain_verify(l, &chain, &f), -1);
    assert_fault(&f, EX_DATAERR);
    snprintf(text, sizeof text, "at record %d,", at);
    assert_non_null(strstr(f.text, text));
    assert_int_equal(chain.broken, at);
    assert_int_equal(chain.records, at - 1);
    ledger_close(l);
}

static void
any_change_breaks_it(void **state)
{
    (void)state;
    breaks_at("UPDATE event SET kind = 'failed' WHERE id = 1", 1);
    breaks_at("UPDATE event SET subject = 'K8' WHERE id = 1", 1);
    breaks_at("UPDATE event SET job = 'Annual-test' WHERE id = 1", 1);
    breaks_at("UPDATE event SET day = day - 1 WHERE id = 1", 1);
    breaks_at("UPDATE event SET meter = 'hours' WHERE id = 1", 1);
    breaks_at("UPDATE event SET reading = 4125 WHERE id = 1", 1);
    breaks_at("UPDATE event SET entered = 0 WHERE id = 2", 2);
    breaks_at("UPDATE event SET by_whom = NULL WHERE id = 1", 1);
    breaks_at("UPDATE event SET reference = '' WHERE id = 1", 1);
    breaks_at("UPDATE event SET note = 'wron' WHERE id = 2", 2);
    breaks_at("UPDATE event SET other = 'K8' WHERE id = 3", 3);
    breaks_at("UPDATE event SET reference = 'A', note = 'B' WHERE id = 3", 3);
    breaks_at("UPDATE event SET hash = zeroblob(32) WHERE id = 2", 2);
    breaks_at("DELETE FROM event WHERE id = 2", 2);
    breaks_at("UPDATE event SET body = NULL WHERE id = 4", 4);
    breaks_at("UPDATE event SET about = 1 WHERE id = 3", 3);
    breaks_at("UPDATE event SET form = 1 WHERE id = 3", 3);
    breaks_at("UPDATE event SET form = 3 WHERE id = 3", 3);
    breaks_at("UPDATE event SET id = 9 WHERE id = 3", 3);
}

/* A record of form 1 whose hash is right by the old rule, as sha256sum(1) has
 * it of the fourth and of 1:5,7:reading,2:K7,-,5:20600,-,8:distance,1:7,1:6,
 * -,-,-,-,-, : after one of form 2 it is out of place. */
static void
the_form_never_goes_back(void **state)
{
    (void)state;
    breaks_at("INSERT INTO event(id, kind, subject, day, meter, reading,"
              " entered, form, hash) VALUES (5, 'reading', 'K7', 20600,"
              " 'distance', 7, 6, 1,"
              " x'fe9be3f9817adf2f2ff4b6f79b133783"
              "5529ca8c0a56aea14b5e52efd8166947')",
        5);
}

/* Two writers at once make one chain. */
static void
writers_take_turns(void **state)
{
    struct record r = {.kind = RECORD_READING,
        .meter = METER_HOURS,
        .subject_id = "K7",
        .day = 20000,
        .until = DAY_NONE};
    struct chain chain;

    (void)state;
    struct ledger *a = opened(LEDGER_WRITE);
    struct ledger *b = opened(LEDGER_WRITE);
    for (int i = 0; i < 5; i++) {
        assert_int_equal(records_add(a, &r, NULL, NULL), 0);
        assert_int_equal(records_add(b, &r, NULL, NULL), 0);
    }
    assert_int_equal(chain_verify(a, &chain, NULL), 0);
    assert_int_equal(chain.records, 10);
    ledger_close(b);
    ledger_close(a);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_library_computes_sha_256),
        TEST(each_hash_is_of_the_one_before_and_the_columns),
        TEST(an_empty_chain_is_whole),
        TEST(any_change_breaks_it),
        TEST(the_form_never_goes_back),
        TEST(writers_take_turns),
    };

    return cmocka_run_group_tests_name("ledger_chain", tests, NULL, NULL);
}
