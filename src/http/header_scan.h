#ifndef HEADER_SCAN_H
#define HEADER_SCAN_H

#include "conditional.h"

#include <microhttpd.h>

/* What the fields of a request say, gathered in one walk over them. */
struct header_scan {
    struct conditional conditional;
    int hosts; /* how many fields there are of that name */
    int lengths;
    int encodings;   /* Transfer-Encoding */
    int is_odd;      /* one that is not "chunked", or a name with a blank */
    int64_t length;  /* of the body, where it is told */
    int has_content; /* a length that is not 0, or an encoding */
    int is_form;     /* Content-Type says so */
    int expects;     /* it waits until its body is asked for */
};

/* Walk over the fields.  @s holds a conditional that is started. */
void header_scan_fields(
    struct header_scan *s, struct MHD_Connection *connection);

/* The HTTP status to refuse the request with, or 0: a version we do not speak,
 * no host, or a body that two servers could take to end in two places. */
unsigned header_scan_fault(const struct header_scan *s, const char *version);

#endif
