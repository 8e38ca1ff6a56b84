#include <string.h>

#include "key.h"
#include "test.h"

static void
keys_are_base32_and_differ(void **state)
{
    char keys[200][KEY_TEXT + 1];
    int seen[256] = {0};
    int different = 0;

    (void)state;
    for (int i = 0; i < 200; i++) {
        assert_int_equal(key_make(keys[i]), 0);
        assert_int_equal(strlen(keys[i]), 32);
        assert_int_equal(
            strspn(keys[i], "abcdefghijklmnopqrstuvwxyz234567"), 32);
        for (int k = 0; k < i; k++)
            assert_string_not_equal(keys[i], keys[k]);
        for (const char *c = keys[i]; *c != '\0'; c++)
            different += seen[(unsigned char)*c]++ == 0;
    }
    /* Of 6,400 characters none of the 32 stays away by chance. */
    assert_int_equal(different, 32);
}

/* The one-block example of FIPS 180-2, appendix B.1: SHA-256 of "abc". */
static void
the_hash_is_sha_256(void **state)
{
    static const uint8_t abc[KEY_HASH] = {0xba, 0x78, 0x16, 0xbf, 0x8f, 0x01,
        0xcf, 0xea, 0x41, 0x41, 0x40, 0xde, 0x5d, 0xae, 0x22, 0x23, 0xb0, 0x03,
        0x61, 0xa3, 0x96, 0x17, 0x7a, 0x9c, 0xb4, 0x10, 0xff, 0x61, 0xf2, 0x00,
        0x15, 0xad};
    uint8_t hash[KEY_HASH];

    (void)state;
    key_hash("abcd", 3, hash);
    assert_memory_equal(hash, abc, KEY_HASH);
    assert_true(key_same(hash, abc));
}

static void
a_bit_makes_another_hash(void **state)
{
    uint8_t a[KEY_HASH] = {0};
    uint8_t b[KEY_HASH] = {0};

    (void)state;
    assert_true(key_same(a, b));
    for (int bit = 0; bit < KEY_HASH * 8; bit++) {
        b[bit / 8] ^= (uint8_t)(1 << bit % 8);
        assert_false(key_same(a, b));
        b[bit / 8] ^= (uint8_t)(1 << bit % 8);
    }
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(keys_are_base32_and_differ),
        cmocka_unit_test(the_hash_is_sha_256),
        cmocka_unit_test(a_bit_makes_another_hash),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
