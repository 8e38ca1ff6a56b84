#ifndef CHECK_DIGITS_H
#define CHECK_DIGITS_H

#include <stddef.h>

/*
 * Two check digits, ISO/IEC 7064 MOD 97-10, over digits and letters of ASCII,
 * where a letter counts as two digits, A as 10 to Z as 35, in either case, as
 * ISO 13616 (IBAN) and ISO 17442 (LEI) have it.  Anything else, like a hyphen,
 * is passed over.  A digit in place of another, or a letter in place of
 * another, is always found; of other mistakes 96 in 97.
 */

/* The check digits, 2 to 98, of the @len bytes at @text. */
int check_digits(const char *text, size_t len);

/* Nonzero when the last two digits of the @len bytes are those of the rest. */
int check_digits_good(const char *text, size_t len);

#endif
