#ifndef SUGGEST_H
#define SUGGEST_H

#include <stddef.h>

/*
 * The best guess at what @word was meant to be: suggest_offer() is called for
 * each known word and suggest_best() answers with the closest one by edit
 * distance, or NULL when none is close enough to be worth naming.
 */
struct suggest {
    const char *word;
    const char *best;
    size_t distance;
};

/* Start guessing at @word, which must outlive the guess. */
struct suggest suggest_start(const char *word);

/* Consider @known, which must outlive the guess. */
void suggest_offer(struct suggest *n, const char *known);

/* The closest word offered, or NULL. */
const char *suggest_best(const struct suggest *n);

#endif
