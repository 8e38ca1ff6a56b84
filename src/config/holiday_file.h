#ifndef HOLIDAY_FILE_H
#define HOLIDAY_FILE_H

#include "load_context.h"

/*
 * Add the days of the iCalendar file that @e names: those of each all-day
 * event, whose end is exclusive (RFC 5545, 3.6.1).  What is wrong with the
 * file becomes a problem at @e.
 */
void holiday_file_read(
    struct load_context *r, struct entry *e, struct holidays *h);

#endif
