#ifndef UK_HOLIDAYS_H
#define UK_HOLIDAYS_H

/*
 * The bank holidays of the three parts of the United Kingdom as rules, with
 * what was proclaimed for one year only, 2015 to 2028.  Sources: Banking and
 * Financial Dealings Act 1971, schedule 1; St Andrew's Day Bank Holiday
 * (Scotland) Act 2007, section 1; the lists of GOV.UK /bank-holidays.
 */

#include "holiday.h"

/* Every fixed date has a substitute; every weekday is a Monday. */
#define UK_FIXED(month, day, name)                                             \
    {                                                                          \
        HOLIDAY_FIXED, month, day, 0, 0, 0, 1, name                            \
    }
#define UK_MONDAY(nth, month, name)                                            \
    {                                                                          \
        HOLIDAY_WEEKDAY, month, 0, nth, 0, 0, 0, name                          \
    }
#define UK_EASTER(offset, name)                                                \
    {                                                                          \
        HOLIDAY_EASTER, 0, 0, 0, 0, offset, 0, name                            \
    }

static const struct holiday_rule uk_england_and_wales[] = {
    UK_FIXED(1, 1, "New Year's Day"),
    UK_EASTER(-2, "Good Friday"),
    UK_EASTER(1, "Easter Monday"),
    UK_MONDAY(1, 5, "Early May"),
    UK_MONDAY(-1, 5, "Spring"),
    UK_MONDAY(-1, 8, "Summer"),
    UK_FIXED(12, 25, "Christmas Day"),
    UK_FIXED(12, 26, "Boxing Day"),
};

static const struct holiday_rule uk_scotland[] = {
    UK_FIXED(1, 1, "New Year's Day"),
    UK_FIXED(1, 2, "2 January"),
    UK_EASTER(-2, "Good Friday"),
    UK_MONDAY(1, 5, "Early May"),
    UK_MONDAY(-1, 5, "Spring"),
    UK_MONDAY(1, 8, "Summer"),
    UK_FIXED(11, 30, "St Andrew's Day"),
    UK_FIXED(12, 25, "Christmas Day"),
    UK_FIXED(12, 26, "Boxing Day"),
};

static const struct holiday_rule uk_northern_ireland[] = {
    UK_FIXED(1, 1, "New Year's Day"),
    UK_FIXED(3, 17, "St Patrick's Day"),
    UK_EASTER(-2, "Good Friday"),
    UK_EASTER(1, "Easter Monday"),
    UK_MONDAY(1, 5, "Early May"),
    UK_MONDAY(-1, 5, "Spring"),
    UK_FIXED(7, 12, "Battle of the Boyne"),
    UK_MONDAY(-1, 8, "Summer"),
    UK_FIXED(12, 25, "Christmas Day"),
    UK_FIXED(12, 26, "Boxing Day"),
};

/* Days since 1970-01-01, because a table cannot call day_of().  The last is
 * for Scotland only. */
static const struct named_day uk_added[] = {
    {18390, "VE Day"},        /* 2020-05-08 */
    {19145, "Spring"},        /* 2022-06-02 */
    {19146, "Jubilee"},       /* 2022-06-03 */
    {19254, "State Funeral"}, /* 2022-09-19 */
    {19485, "Coronation"},    /* 2023-05-08 */
    {20619, "World Cup"},     /* 2026-06-15 */
};

static const day_t uk_removed[] = {
    18386, /* 2020-05-04 */
    19142, /* 2022-05-30 */
};

#define UK_SET(list, n_added)                                                  \
    {                                                                          \
        list, sizeof(list) / sizeof *(list), uk_added, n_added, uk_removed, 2, \
            DAY_NONE                                                           \
    }

/* The names are those of the published list. */
static const struct nation {
    const char *name;
    struct holiday_set holidays;
} uk_nations[] = {
    {"england-and-wales", UK_SET(uk_england_and_wales, 5)},
    {"scotland", UK_SET(uk_scotland, 6)},
    {"northern-ireland", UK_SET(uk_northern_ireland, 5)},
};

#endif
