#include "grow.h"

#include <stdlib.h>

void *
grow_list(void *list, size_t n, size_t *size, size_t each)
{
    if (n < *size)
        return list;
    size_t more = *size ? *size * 2 : 64;
    void *grown = realloc(list, more * each);
    if (grown != NULL)
        *size = more;
    return grown;
}
