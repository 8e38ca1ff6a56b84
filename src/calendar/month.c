#include "month.h"

/* The compiler works the table out: days before each year, and then before
 * each month of it. */
#define IS_LEAP(y) ((y) % 4 == 0 && ((y) % 100 != 0 || (y) % 400 == 0))
#define NEW_YEAR(y)                                                            \
    (365 * ((y)-1970) + ((y)-1) / 4 - ((y)-1) / 100 + ((y)-1) / 400 - 477)

#define MONTHS(january, leap)                                                  \
    (january), (january) + 31, (january) + 59 + (leap),                        \
        (january) + 90 + (leap), (january) + 120 + (leap),                     \
        (january) + 151 + (leap), (january) + 181 + (leap),                    \
        (january) + 212 + (leap), (january) + 243 + (leap),                    \
        (january) + 273 + (leap), (january) + 304 + (leap),                    \
        (january) + 334 + (leap)
#define YEAR(y) MONTHS(NEW_YEAR(y), IS_LEAP(y))
#define FIVE_YEARS(y)                                                          \
    YEAR(y), YEAR((y) + 1), YEAR((y) + 2), YEAR((y) + 3), YEAR((y) + 4)
#define TWENTY_YEARS(y)                                                        \
    FIVE_YEARS(y), FIVE_YEARS((y) + 5), FIVE_YEARS((y) + 10),                  \
        FIVE_YEARS((y) + 15)
#define CENTURY(y)                                                             \
    TWENTY_YEARS(y), TWENTY_YEARS((y) + 20), TWENTY_YEARS((y) + 40),           \
        TWENTY_YEARS((y) + 60), TWENTY_YEARS((y) + 80)

const int32_t month_first[MONTH_COUNT + 1] = {
    CENTURY(1900),
    CENTURY(2000),
    CENTURY(2100),
    NEW_YEAR(2200),
};
