#ifndef ITEMS_H
#define ITEMS_H

#include "document.h"

/* How the items of a list are told apart, besides by lines. */
enum items_by { ITEMS_LINES, ITEMS_COMMAS, ITEMS_WORDS };

#define ITEM_SIZE 200

/* One item of a list after another. */
struct items {
    char text[ITEM_SIZE]; /* the item, without blanks around it */
    struct place place;   /* where it stands */
    const struct value_line *line;
    const char *at;
    const char *ends; /* the bytes that end an item */
};

/* Begin before the first item of the value. */
struct items items_of(struct entry *e, enum items_by by);

/* Go to the next item: 1, or 0 when there is none. */
int items_next(struct items *it);

/* How many items there are. */
size_t items_count(struct entry *e, enum items_by by);

#endif
