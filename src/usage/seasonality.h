#ifndef SEASONALITY_H
#define SEASONALITY_H

#include "outliers.h"

#define SEASONALITY_PARTS 12

/* How use is spread over the year: the share of each twelfth, 1 on average. */
struct seasonality {
    int seasonal; /* 0: all days count alike */
    double share[SEASONALITY_PARTS];
    double before[SEASONALITY_PARTS + 1]; /* the shares before each twelfth */
};

/*
 * The profile of the last two whole years of @s, off the road on @spells of
 * @u.  It is taken when readings lie in most of the twelfths and the two years
 * correlate by SEASONALITY_AGREE or more, which twelve figures without any
 * relation do in one case of twenty; and only as far from even as the average
 * of two such years can be trusted: 2r / (1 + r), Spearman, "Correlation
 * calculated from faulty data", British Journal of Psychology 3 (1910) 271-295,
 * and Brown in the same volume, 296-322.
 */
#define SEASONALITY_AGREE 0.497
void seasonality_take(
    struct seasonality *p, const struct screened *s, const struct usage *u);

/* Days up to the end of @d, each counted by its share. */
double seasonality_at(const struct seasonality *p, day_t d);

#endif
