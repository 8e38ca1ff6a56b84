#ifndef THEIL_SEN_H
#define THEIL_SEN_H

#include "usage.h"

/* At most so many readings are taken, evenly spread; their pairs are sorted. */
#define THEIL_SEN_READINGS 24

/*
 * The median of the slopes, in units a day, between all pairs of readings at
 * least @apart days from each other.  Up to 29 % of the readings may be wrong
 * by any amount.  0 without such a pair.
 *
 * Theil (1950); Sen, "Estimates of the regression coefficient based on
 * Kendall's tau", Journal of the American Statistical Association 63 (1968)
 * 1379-1389; Hollander, Wolfe and Chicken, Nonparametric Statistical Methods,
 * 3rd ed. (2014), 9.3.
 */
double theil_sen_slope(const struct reading *readings, size_t n, int apart);

#endif
