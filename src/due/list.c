#include "list.h"

#include <stdlib.h>
#include <string.h>

/* Copied byte by byte, since a pointer to any type must not be read through a
 * void **. */
int
list_room(void *at, size_t n, size_t *size, size_t item)
{
    void *old;

    if (n < *size)
        return 1;
    size_t more = *size ? *size * 2 : 16;
    memcpy(&old, at, sizeof old);
    void *grown = realloc(old, more * item);
    if (grown == NULL)
        return 0;
    memcpy(at, &grown, sizeof grown);
    *size = more;
    return 1;
}
