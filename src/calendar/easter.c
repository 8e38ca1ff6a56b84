#include "easter.h"

/*
 * The Gregorian computus from its parts: the age of the moon in the nineteen
 * year cycle, corrected for the leap days that centuries leave out and for
 * the moon's own drift (the epact as reformed by Lilius and Clavius in 1582),
 * then the Sunday after the full moon.
 */
void
easter_date(int year, int *month, int *day)
{
    int golden = year % 19;
    int century = year / 100;
    int dropped = century - century / 4; /* leap days left out since year 0 */
    int drift = (8 * century + 13) / 25; /* days the lunar cycle is off */
    /* Days from 21 March to the ecclesiastical full moon. */
    int moon = (19 * golden + dropped - drift + 15) % 30;

    /* The two exceptions that keep the moon within 29 days and keep two years
     * of one cycle from sharing a date. */
    if (moon == 29 || (moon == 28 && golden > 10))
        moon--;
    /* Days from the full moon to the Sunday after it. */
    int weekday = (year + year / 4 - dropped + moon + 2) % 7;
    int march = 21 + moon + 7 - weekday;

    *month = march > 31 ? 4 : 3;
    *day = march > 31 ? march - 31 : march;
}

day_t
easter_of(int year)
{
    int month;
    int day;

    if (year < 1900 || year > 2199)
        return DAY_NONE;
    easter_date(year, &month, &day);
    return day_of(year, month, day);
}
