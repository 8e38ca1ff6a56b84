#ifndef ERROR_RESPONSES_H
#define ERROR_RESPONSES_H

struct resource;

/* The answers to what is not served, made once. */
struct error_responses;

/* All of them, or NULL when memory is out.  Free with error_responses_free().
 */
struct error_responses *error_responses_new(void);

/* Free @r; NULL is ignored. */
void error_responses_free(struct error_responses *r);

/* The answer with that status, one of those in the table in error_responses.c.
 * A 405 names the methods that are allowed: GET and HEAD, unless @accepts, and
 * then POST, alone or with them when it @gets. */
struct resource *error_responses_get(
    const struct error_responses *r, unsigned status);
struct resource *error_responses_method(
    const struct error_responses *r, int gets, int accepts);

#endif
