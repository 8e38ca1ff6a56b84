#include "key.h"

#include <errno.h>
#include <nettle/memops.h>
#include <nettle/sha2.h>
#include <sys/random.h>

/* Each byte gives five bits: 32 divides 256, so no letter is likelier than
 * another. */
int
key_make(char out[KEY_TEXT + 1])
{
    static const char digits[] = "abcdefghijklmnopqrstuvwxyz234567";
    uint8_t bits[KEY_TEXT];
    ssize_t n;

    do
        n = getrandom(bits, sizeof bits, 0);
    while (n < 0 && errno == EINTR);
    if (n != sizeof bits) /* 256 bytes or fewer come whole, or not at all */
        return -1;
    for (int i = 0; i < KEY_TEXT; i++)
        out[i] = digits[bits[i] & 31];
    out[KEY_TEXT] = '\0';
    return 0;
}

void
key_hash(const char *text, size_t len, uint8_t out[KEY_HASH])
{
    struct sha256_ctx sha;

    sha256_init(&sha);
    sha256_update(&sha, len, (const uint8_t *)text);
    sha256_digest(&sha, KEY_HASH, out);
}

int
key_same(const uint8_t a[KEY_HASH], const uint8_t b[KEY_HASH])
{
    return memeql_sec(a, b, KEY_HASH);
}
