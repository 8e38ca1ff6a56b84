#ifndef SCAN_H
#define SCAN_H

#include <stddef.h>
#include <stdint.h>

/*
 * Reading the small languages in which values are written, word by word:
 * "12 months or 20000 km".  Words are separated by blanks; a comma or a colon
 * is a word of its own.  Letters match in either case.
 */
struct scan {
    const char *at;
};

/* Start reading @text, which must outlive the scan. */
struct scan scan_start(const char *text);

/* The next word without taking it: sets @len, 0 at the end. */
const char *scan_peek(struct scan *s, size_t *len);

/* Take the next word when it is @word: 1 when taken, else 0. */
int scan_word(struct scan *s, const char *word);

/* Take any next word into @word of @size bytes: 1, or 0 at the end or when
 * it does not fit. */
int scan_any(struct scan *s, char *word, size_t size);

/*
 * Take a whole number from @min to @max, an optional minus sign and digits
 * only: 1, or 0 when the next word is something else.
 */
int scan_number(struct scan *s, int64_t min, int64_t max, int64_t *n);

/*
 * Take the next word when it is in @words, which ends with NULL: its index,
 * or -1.
 */
int scan_choice(struct scan *s, const char *const *words);

/* Take everything that is left, without blanks at either end; sets @len. */
const char *scan_rest(struct scan *s, size_t *len);

/* Nonzero when nothing but blanks is left. */
int scan_end(struct scan *s);

#endif
