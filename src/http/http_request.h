#ifndef HTTP_REQUEST_H
#define HTTP_REQUEST_H

#include "address.h"
#include "http_form.h"
#include "key.h"

struct resource;

enum {
    HTTP_FORM_MOST = 16384 /* bytes of a posted form */
};

/* A form that was posted to a path where the routes accept forms, by somebody
 * with a key for it.  All of it is valid until it is answered. */
struct http_request;

/* The path, as it was put among the routes. */
const char *http_request_path(const struct http_request *r);

/* The hash of the key in the path, all zero when it has none. */
const uint8_t *http_request_key(const struct http_request *r);

/* The fields that were filled in. */
const struct http_form *http_request_form(const struct http_request *r);

/*
 * Nonzero when a page of this server sent the form: by Sec-Fetch-Site where
 * the browser says it, else because Origin names the host that was asked.
 * A browser says one of them with every form; whoever says neither is none,
 * and no other site can have sent it.
 */
int http_request_is_own(const struct http_request *r);

/* Whence it came, a trusted proxy's word taken. */
struct address http_request_from(const struct http_request *r);

/* Answer with @answer, of which the reference is taken over; NULL stands for
 * a server that cannot now.  @r is gone. */
void http_request_answer(struct http_request *r, struct resource *answer);

#endif
