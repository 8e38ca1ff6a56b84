#ifndef IMPORT_DAY_H
#define IMPORT_DAY_H

#include "day.h"
#include "fault.h"

/* In which order a sheet writes its days. */
enum day_order {
    DAYS_ISO,        /* 2026-12-02 */
    DAYS_DAY_FIRST,  /* 2/12/2026, 02.12.2026 or 2-12-2026 */
    DAYS_MONTH_FIRST /* 12/2/2026 */
};

/* The order of that name, iso, day-first or month-first: 0, or -1. */
int import_day_order(const char *word, enum day_order *order);

/* The day that @text is in that order, and in no other; DAY_NONE with @f
 * saying what was expected.  A year has four digits. */
day_t import_day(enum day_order order, const char *text, struct fault *f);

#endif
