#ifndef FORM_H
#define FORM_H

#include <stddef.h>

/*
 * The fields of a form as a browser sends them, in the media type
 * application/x-www-form-urlencoded.  Values are UTF-8 without control
 * characters but line breaks and tabs.
 */
struct form;

/* Read the @len bytes at @body, of at most 100 fields.  Returns NULL when they
 * are not such a form or memory is out.  Free with form_free(). */
struct form *form_read(const char *body, size_t len);

/* Free @f; NULL is ignored. */
void form_free(struct form *f);

/* The value of the first field called @name, "" when it is there and empty,
 * or NULL when it is not there.  Valid as long as the form. */
const char *form_value(const struct form *f, const char *name);

#endif
