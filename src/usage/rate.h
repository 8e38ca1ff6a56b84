#ifndef RATE_H
#define RATE_H

#include "effective_days.h"

/* Present use, and how well use could be foretold until now. */
struct rate {
    double a_day;   /* units an effective day; 0 when the readings say none */
    double month;   /* variance of the logarithm of use in the next 28 days by
                       that foretold */
    double quarter; /* the same for 91 days */
    double freedom; /* degrees of freedom of these */
    double fastest; /* units a day in the fastest month seen, as long as the
                       seasons are not known; else 0 */
};

/*
 * The rate now is an average of the rates of all days, each of which weighs
 * less by 1 - exp(-1/91) than the day after it: exponential smoothing,
 * Wright, "Forecasting data published at irregular time intervals using an
 * extension of Holt's method", Management Science 32 (1986) 499-510.  It is
 * what it was after a reading on the line.  What is stated for a year counts as
 * the quarter before the first reading.
 *
 * The variances come from forecasts by the same rule on the past readings, with
 * what is usual counted as three more: Williams and Goodman, "A simple
 * method for the construction of empirical confidence limits for economic
 * forecasts", Journal of the American Statistical Association 66 (1971)
 * 752-754.
 */
struct rate rate_of(const struct screened *s, const struct effective_days *w);

/*
 * The factor, at least 1, by which the rate over so many days may be off either
 * way in four cases of five.  The variance goes by a power of the time, between
 * none and the inverse: Smith, "An empirical law describing heterogeneity in
 * the yields of agricultural crops", Journal of Agricultural Science 28 (1938)
 * 1-23.  The quantile is Student's, by Abramowitz and Stegun, Handbook of
 * Mathematical Functions (1964), 26.7.5.
 */
double rate_doubt(const struct rate *r, double days);

/* The ninth tenth of Student's distribution with so many degrees of freedom,
 * 3 or more. */
double rate_student(double freedom);

#endif
