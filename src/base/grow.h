#ifndef GROW_H
#define GROW_H

#include <stddef.h>

/* @list, which has room for *@size items of @each bytes, with room for one more
 * than the @n in it.  NULL when memory is out, and @list is as it was. */
void *grow_list(void *list, size_t n, size_t *size, size_t each);

#endif
