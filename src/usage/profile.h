#ifndef PROFILE_H
#define PROFILE_H

#include "outliers.h"

#define PROFILE_PARTS 12

/* How use is spread over the year: the share of each twelfth, 1 on average. */
struct profile {
    int seasonal; /* 0: all days count alike */
    double share[PROFILE_PARTS];
    double before[PROFILE_PARTS + 1]; /* the shares before each twelfth */
};

/*
 * The profile of the last two whole years of @s, off the road on @spells of
 * @u.  It is taken when readings lie in most of the twelfths and the two years
 * correlate by PROFILE_AGREE or more, which twelve figures without any relation
 * do in one case of twenty; and only as far from even as the average of two
 * such years can be trusted: 2r / (1 + r), Spearman, "Correlation calculated
 * from faulty data", British Journal of Psychology 3 (1910) 271-295, and Brown
 * in the same volume, 296-322.
 */
#define PROFILE_AGREE 0.497
void profile_take(
    struct profile *p, const struct screened *s, const struct usage *u);

/* Days up to the end of @d, each counted by its share. */
double profile_at(const struct profile *p, day_t d);

#endif
