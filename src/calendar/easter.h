#ifndef EASTER_H
#define EASTER_H

#include "day.h"

/*
 * Easter Sunday of a Gregorian year from 1583 on: sets the month, 3 or 4, and
 * the day of the month.  Good for years that no day_t reaches.
 */
void easter_date(int year, int *month, int *day);

/* Easter Sunday of @year, or DAY_NONE outside the range of days. */
day_t easter_of(int year);

#endif
