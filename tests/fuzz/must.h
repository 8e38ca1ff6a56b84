#ifndef MUST_H
#define MUST_H

#include <stdio.h>
#include <stdlib.h>

/* End at once, which a fuzzer takes for a finding, unless @is_so. */
static inline void
must(int is_so, const char *what)
{
    if (is_so)
        return;
    fprintf(stderr, "must: %s\n", what);
    abort();
}

#endif
