#ifndef NEAREST_H
#define NEAREST_H

#include <stddef.h>

/*
 * The best guess at what @word was meant to be: nearest_offer() is called for
 * each known word and nearest_best() answers with the closest one by edit
 * distance, or NULL when none is close enough to be worth naming.
 */
struct nearest {
    const char *word;
    const char *best;
    size_t distance;
};

/* Start guessing at @word, which must outlive the guess. */
struct nearest nearest_start(const char *word);

/* Consider @known, which must outlive the guess. */
void nearest_offer(struct nearest *n, const char *known);

/* The closest word offered, or NULL. */
const char *nearest_best(const struct nearest *n);

#endif
