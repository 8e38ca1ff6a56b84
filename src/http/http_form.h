#ifndef HTTP_FORM_H
#define HTTP_FORM_H

#include <stddef.h>

/*
 * The fields of a form as a browser sends them, in the media type
 * application/x-www-form-urlencoded.  Values are UTF-8 without control
 * characters but line breaks and tabs.
 */
struct http_form;

/* Read the @len bytes at @body, of at most 400 fields.  Returns NULL when they
 * are not such a form or memory is out.  Free with http_form_free(). */
struct http_form *http_form_read(const char *body, size_t len);

/* Free @f; NULL is ignored. */
void http_form_free(struct http_form *f);

/* The value of the first field called @name, "" when it is there and empty,
 * or NULL when it is not there.  Valid as long as the form. */
const char *http_form_value(const struct http_form *f, const char *name);

#endif
