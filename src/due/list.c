#include "list.h"

#include <stdlib.h>

void *
list_room(void *at, size_t n, size_t *size, size_t item)
{
    if (n < *size)
        return at;
    size_t more = *size ? *size * 2 : 16;
    void *grown = realloc(at, more * item);
    if (grown == NULL)
        return at;
    *size = more;
    return grown;
}
