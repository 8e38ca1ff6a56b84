/* The chain of records: its hashes, and where it is found to break. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <sysexits.h>

#include <cmocka.h>

#include "chain.h"
#include "days.h"
#include "records.h"
#include "test_ledger.h"

#include <nettle/sha2.h>

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
 * Three records.  What each hash is of is written out, and the hash comes from
 * sha256sum(1), fed with the 32 bytes of the one before and that text.
 */
static const char *const hashes[] = {
    /* 1:1,9:completed,2:K7,11:annual-test,5:20526,-,8:distance,5:41250,
     * 10:1767225600,-,10:R. Ferrier,-,-,-, */
    "3bd1ca791470ee8bcf8f1aaaff1bc76e"
    "3f64f31d903ceebeb8a06df4e6b47fdb",
    /* 1:2,6:voided,-,-,-,-,-,-,1:5,1:1,-,-,5:wrong,-, */
    "c44f1a87501e597083e408e5ce9c0d88"
    "e49de3e50df5568479ff4d1c8beb72eb",
    /* 1:3,5:moved,5:EX-31,-,6:-25567,-,-,-,2:-1,-,-,3:A,B,8:l<c3 b6>st: 5,
     * 2:K7, */
    "af2186bea454d2abd50270b4579b4db5"
    "ae6a252efd7e60b76f1345306ce78f65",
};

static struct ledger *
three_records(void)
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
    struct ledger *l = opened(LEDGER_WRITE);

    assert_int_equal(records_add(l, &done, NULL, NULL), 0);
    assert_int_equal(records_void(l, 1, NULL, "wrong", 5, NULL), 0);
    assert_int_equal(records_add(l, &moved, NULL, NULL), 0);
    return l;
}

static void
each_hash_is_of_the_one_before_and_the_columns(void **state)
{
    struct chain chain;
    char sql[80];

    (void)state;
    struct ledger *l = three_records();
    for (int i = 0; i < 3; i++) {
        snprintf(sql, sizeof sql,
            "SELECT lower(hex(hash)) FROM record WHERE id = %d", i + 1);
        assert_outside(sql, hashes[i]);
    }
    assert_int_equal(chain_verify(l, &chain, NULL), 0);
    assert_int_equal(chain.records, 3);
    assert_int_equal(chain.broken, 0);
    assert_digest(chain.last, hashes[2]);
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
    ledger_close(three_records());
    assert_int_equal(run_outside("DROP TRIGGER record_changed;"
                                 "DROP TRIGGER record_deleted"),
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
    breaks_at("UPDATE record SET kind = 'failed' WHERE id = 1", 1);
    breaks_at("UPDATE record SET subject = 'K8' WHERE id = 1", 1);
    breaks_at("UPDATE record SET job = 'Annual-test' WHERE id = 1", 1);
    breaks_at("UPDATE record SET day = day - 1 WHERE id = 1", 1);
    breaks_at("UPDATE record SET meter = 'hours' WHERE id = 1", 1);
    breaks_at("UPDATE record SET reading = 4125 WHERE id = 1", 1);
    breaks_at("UPDATE record SET entered = 0 WHERE id = 2", 2);
    breaks_at("UPDATE record SET by_whom = NULL WHERE id = 1", 1);
    breaks_at("UPDATE record SET reference = '' WHERE id = 1", 1);
    breaks_at("UPDATE record SET note = 'wron' WHERE id = 2", 2);
    breaks_at("UPDATE record SET other = 'K8' WHERE id = 3", 3);
    breaks_at("UPDATE record SET reference = 'A', note = 'B' WHERE id = 3", 3);
    breaks_at("UPDATE record SET hash = zeroblob(32) WHERE id = 2", 2);
    breaks_at("DELETE FROM record WHERE id = 2", 2);
    breaks_at("UPDATE record SET id = 4 WHERE id = 3", 3);
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
        TEST(writers_take_turns),
    };

    return cmocka_run_group_tests_name("ledger_chain", tests, NULL, NULL);
}
