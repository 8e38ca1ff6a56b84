#ifndef HTTP_DATE_H
#define HTTP_DATE_H

#include <stdint.h>

enum {
    HTTP_DATE = 29 /* characters of a date as it is sent */
};

/* Write the moment @seconds after 1970-01-01T00:00:00Z, of the years 1970 to
 * 9999, as RFC 9110 section 5.6.7 wants it sent. */
void http_date_print(int64_t seconds, char out[HTTP_DATE + 1]);

/*
 * Read a date in any of the three forms of RFC 9110 section 5.6.7.  A year of
 * two digits is one of 1970 to 2069.  Returns 0 and sets @seconds, or -1 for
 * anything else.
 */
int http_date_parse(const char *text, int64_t *seconds);

#endif
