#ifndef LOOKUP_H
#define LOOKUP_H

#include <stddef.h>

/* Things by their id, letters in either case. */
struct lookup;

/* Room for @n things, or NULL when memory is out. */
struct lookup *lookup_new(size_t n);

/* Free @k; NULL is ignored. */
void lookup_free(struct lookup *k);

/* Add @thing under @id, which must outlive @k; at most as many as there is
 * room for. */
void lookup_add(struct lookup *k, const char *id, const void *thing);

/* The thing added under @id, or NULL; NULL for a NULL @id. */
const void *lookup_find(struct lookup *k, const char *id);

#endif
