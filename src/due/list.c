#include "list.h"

#include <stdlib.h>

int
list_room(void **at, size_t n, size_t *size, size_t item)
{
    if (n < *size)
        return 1;
    size_t more = *size ? *size * 2 : 16;
    void *grown = realloc(*at, more * item);
    if (grown == NULL)
        return 0;
    *at = grown;
    *size = more;
    return 1;
}
