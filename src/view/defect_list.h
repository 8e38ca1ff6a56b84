#ifndef DEFECT_LIST_H
#define DEFECT_LIST_H

#include "defects.h"

struct buf;
struct filter;
struct json_t;

/* Defects, the gravest and oldest first: as text for people, as JSON and as a
 * table. */
struct defect_list {
    const struct defects *of;
    day_t today;
    const struct subject *subject; /* only of it and what it carries, or NULL */
    const struct filter *filter;   /* only of the vehicles that it asks for, or
                                      NULL */
    int all;                       /* those that are closed or void too */
};

enum defect_list_form { DEFECT_LIST_TEXT, DEFECT_LIST_JSON, DEFECT_LIST_CSV };

/* Append them to @out: 0, or -1 when memory is out. */
int defect_list(const struct defect_list *list, enum defect_list_form form,
    struct buf *out);

/* Append how titles call what @d is on: "N1 Tyres", with the text of the item
 * up to a colon, where a sheet has it. */
void defect_list_item(const struct defect *d, struct buf *out);

/* Append a line for each step of @d: who reported, decided, repaired and
 * released it, when, and what they said. */
void defect_list_steps(const struct defect *d, struct buf *out);

/* They as an array of JSON, for what else shows them; NULL when memory is out.
 * Free with json_decref(). */
struct json_t *defect_list_array(const struct defect_list *list);

#endif
