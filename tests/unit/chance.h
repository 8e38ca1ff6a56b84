#ifndef CHANCE_H
#define CHANCE_H

/* Numbers by chance that a seed repeats. */

#include <stdint.h>

struct chance {
    uint64_t state;
};

/* xorshift64* (Vigna 2016): the same on every machine. */
static inline uint64_t
chance_next(struct chance *c)
{
    c->state ^= c->state >> 12;
    c->state ^= c->state << 25;
    c->state ^= c->state >> 27;
    return c->state * UINT64_C(2685821657736338717);
}

static inline struct chance
chance_of(uint64_t seed, uint64_t number)
{
    struct chance c = {(seed + 1) * UINT64_C(0x9e3779b97f4a7c15) + number + 1};

    for (int i = 0; i < 4; i++)
        chance_next(&c);
    return c;
}

/* From @low to @high, both included. */
static inline int
chance_from(struct chance *c, int low, int high)
{
    return low + (int)((chance_next(c) >> 33) % (uint64_t)(high - low + 1));
}

/* Nonzero once in @n times. */
static inline int
one_in(struct chance *c, int n)
{
    return chance_from(c, 1, n) == 1;
}

#endif
