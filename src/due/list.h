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
    (list_room(&(l).at, (l).n, &(l).size, sizeof *(l).at)                      \
            ? ((l).at[(l).n++] = (value), 0)                                   \
            : -1)

/*
 * Make room for one more item of @item bytes after @n in the list whose "at"
 * is at @at and has room for *@size.  Nonzero, or 0 when memory is out and
 * nothing has changed.
 */
int list_room(void *at, size_t n, size_t *size, size_t item);

#endif
