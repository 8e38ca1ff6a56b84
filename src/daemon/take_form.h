#ifndef TAKE_FORM_H
#define TAKE_FORM_H

#include "served_site.h"

struct http_request;
struct resource;

/*
 * Take a form that was posted to the page of a person, and record what it says
 * in the ledger of @p, a run that rests and rests again afterwards.  Returns
 * what to answer; NULL when memory is out.
 */
struct resource *take_form(const struct served_site *d, struct run_context *p,
    const struct http_request *form);

#endif
