/* Keys, of which the ledger has the hashes; and whether others wrote to it. */
#include <sysexits.h>

#include "arena.h"
#include "keyring.h"
#include "ledger_fixture.h"
#include "test.h"

static struct keyring_key
made(const char *feed, const char *hash, int64_t when)
{
    struct keyring_key k = {.kind = KEYRING_FEED, .name = feed, .made = when};

    memcpy(k.hash, hash, strlen(hash));
    return k;
}

static void
keys_are_kept_and_revoked(void **state)
{
    struct arena *a = arena_new();
    struct keyring_key all = made("all", "red", 100);
    struct keyring_key again = made("all", "blue", 200);
    struct keyring_key hill = made("hill", "green", 300);
    struct keyring_key *list;
    size_t n;

    (void)state;
    struct ledger *l = opened(LEDGER_WRITE);
    assert_int_equal(keyring_list(l, a, &list, &n, NULL), 0);
    assert_int_equal(n, 0);
    assert_int_equal(keyring_add(l, &all, NULL), 0);
    assert_int_equal(keyring_add(l, &again, NULL), 0);
    assert_int_equal(keyring_add(l, &hill, NULL), 0);
    assert_int_equal(keyring_revoke(l, KEYRING_FEED, "ALL", 400, &n, NULL), 0);
    assert_int_equal(n, 2);
    /* Once revoked, the moment stays. */
    assert_int_equal(keyring_revoke(l, KEYRING_FEED, "all", 500, &n, NULL), 0);
    assert_int_equal(n, 0);
    ledger_close(l);

    l = opened(LEDGER_READ);
    assert_int_equal(keyring_list(l, a, &list, &n, NULL), 0);
    assert_int_equal(n, 3);
    assert_string_equal(list[1].name, "all");
    assert_memory_equal(list[1].hash, again.hash, KEY_HASH);
    assert_int_equal(list[1].made, 200);
    assert_int_equal(list[1].revoked, 400);
    assert_string_equal(list[2].name, "hill");
    assert_int_equal(list[2].revoked, 0);
    ledger_close(l);
    arena_free(a);
}

/* A depot, a person, a driver and a feed may have one name. */
static void
kinds_are_apart(void **state)
{
    static const enum keyring_kind kinds[] = {KEYRING_FEED, KEYRING_FLEET,
        KEYRING_DEPOT, KEYRING_PERSON, KEYRING_DRIVER, KEYRING_VEHICLE};
    const size_t n_kinds = sizeof kinds / sizeof *kinds;
    struct arena *a = arena_new();
    struct keyring_key *list;
    size_t n;

    (void)state;
    struct ledger *l = opened(LEDGER_WRITE);
    for (size_t i = 0; i < n_kinds; i++) {
        struct keyring_key k = made("fleet", "", 100);
        k.kind = kinds[i];
        k.hash[0] = (uint8_t)(i + 1);
        assert_int_equal(keyring_add(l, &k, NULL), 0);
    }
    assert_int_equal(
        keyring_revoke(l, KEYRING_DEPOT, "Fleet", 200, &n, NULL), 0);
    assert_int_equal(n, 1);
    assert_int_equal(keyring_list(l, a, &list, &n, NULL), 0);
    assert_int_equal(n, n_kinds);
    for (size_t i = 0; i < n_kinds; i++) {
        assert_int_equal(list[i].kind, kinds[i]);
        assert_int_equal(list[i].revoked != 0, kinds[i] == KEYRING_DEPOT);
    }
    ledger_close(l);
    arena_free(a);
}

static void
a_key_is_kept_once(void **state)
{
    struct keyring_key k = made("all", "red", 100);
    struct fault f;

    (void)state;
    struct ledger *l = opened(LEDGER_WRITE);
    assert_int_equal(keyring_add(l, &k, &f), 0);
    assert_int_equal(keyring_add(l, &k, &f), -1);
    assert_fault(&f, EX_DATAERR);
    ledger_close(l);
}

static void
it_is_known_when_others_wrote(void **state)
{
    struct keyring_key k = made("all", "red", 100);
    struct keyring_key m = made("all", "blue", 100);

    (void)state;
    ledger_close(opened(LEDGER_WRITE));
    struct ledger *l = opened(LEDGER_WRITE);
    assert_int_equal(ledger_overtaken(l, NULL), 0);
    assert_int_equal(keyring_add(l, &k, NULL), 0);
    /* Its own writing does not count. */
    assert_int_equal(ledger_overtaken(l, NULL), 0);
    struct ledger *other = opened(LEDGER_WRITE);
    assert_int_equal(ledger_overtaken(l, NULL), 0);
    assert_int_equal(keyring_add(other, &m, NULL), 0);
    ledger_close(other);
    assert_int_equal(ledger_overtaken(l, NULL), 1);
    assert_int_equal(ledger_overtaken(l, NULL), 1);
    ledger_close(l);
}

/* A key to something that this program does not know opens nothing. */
static void
an_unknown_kind_is_left_out(void **state)
{
    struct arena *a = arena_new();
    struct keyring_key all = made("all", "red", 100);
    struct keyring_key *list;
    size_t n;

    (void)state;
    ledger_close(opened(LEDGER_WRITE));
    assert_int_equal(
        run_outside("INSERT INTO key(kind, name, hash, made) VALUES"
                    " ('lathe', 'all', zeroblob(32), 50)"),
        SQLITE_OK);
    struct ledger *l = opened(LEDGER_WRITE);
    assert_int_equal(keyring_add(l, &all, NULL), 0);
    assert_int_equal(keyring_list(l, a, &list, &n, NULL), 0);
    assert_int_equal(n, 1);
    assert_memory_equal(list[0].hash, all.hash, KEY_HASH);
    ledger_close(l);
    arena_free(a);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        TEST(keys_are_kept_and_revoked),
        TEST(kinds_are_apart),
        TEST(a_key_is_kept_once),
        TEST(an_unknown_kind_is_left_out),
        TEST(it_is_known_when_others_wrote),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
