#ifndef LIST_H
#define LIST_H

#include <stddef.h>

/*
 * Inside the due layer only: lists that grow, and are emptied by setting n to
 * 0 so that their room is used again.  All members zero is an empty list;
 * @at is freed by its owner.
 */
#define LIST(type)                                                             \
    struct {                                                                   \
        type *at;                                                              \
        size_t n;                                                              \
        size_t size;                                                           \
    }

/* Append @value to the list @l: 0, or -1 when memory is out. */
#define LIST_ADD(l, value)                                                     \
    ((l).at = list_room((l).at, (l).n, &(l).size, sizeof *(l).at),             \
        (l).n < (l).size ? ((l).at[(l).n++] = (value), 0) : -1)

/*
 * Make room for one more than @n items of @item bytes in @at, which has room
 * for *@size.  Returns where they are now; when memory is out that is @at, and
 * *@size has not grown.
 */
void *list_room(void *at, size_t n, size_t *size, size_t item);

#endif
