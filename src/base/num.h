#ifndef NUM_H
#define NUM_H

#include <stddef.h>
#include <stdint.h>

/*
 * Read the @len bytes at @text as a decimal whole number from @min to @max:
 * an optional minus sign, then digits and nothing else.  Returns 0 and sets
 * @n, or -1 and leaves it.
 */
int num_parse(
    const char *text, size_t len, int64_t min, int64_t max, int64_t *n);

#endif
