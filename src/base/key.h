#ifndef KEY_H
#define KEY_H

#include <stddef.h>
#include <stdint.h>

/*
 * A key opens a feed or a page to whoever has the address it stands in.  It is
 * shown once, when it is made; what is kept is its hash, from which nobody
 * gets back to the key.
 */
enum {
    KEY_TEXT = 32, /* characters of a key, each 5 random bits */
    KEY_HASH = 32  /* bytes of its hash */
};

/*
 * Make a key of 160 bits from the system's random numbers, in the letters and
 * digits of base32 (RFC 4648, in lower case).  Returns 0, or -1 with errno
 * set when there are no random numbers.
 */
int key_make(char out[KEY_TEXT + 1]);

/* The hash of the @len bytes at @text, SHA-256.  Any text has one, so that a
 * wrong key costs what a right one does. */
void key_hash(const char *text, size_t len, uint8_t out[KEY_HASH]);

/* Nonzero when the two hashes are the same, in the same time whether or
 * not. */
int key_same(const uint8_t a[KEY_HASH], const uint8_t b[KEY_HASH]);

#endif
