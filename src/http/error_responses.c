#include "error_responses.h"

#include "resource.h"

#include <assert.h>
#include <stdlib.h>
#include <string.h>

static const struct {
    unsigned status;
    const char *allow;
    const char *text;
} table[] = {
    {400, NULL, "Bad request\n"},
    {404, NULL, "Not found\n"},
    {405, "GET, HEAD", "Method not allowed\n"},
    {405, "GET, HEAD, POST", "Method not allowed\n"},
    {405, "POST", "Method not allowed\n"},
    {412, NULL, "Precondition failed\n"},
    {413, NULL, "Too large\n"},
    {414, NULL, "Address too long\n"},
    {415, NULL, "Not a form\n"},
    {503, NULL, "Not now\n"},
    {505, NULL, "Only HTTP/1.0 and HTTP/1.1\n"},
};

enum { N = sizeof table / sizeof *table };

struct error_responses {
    struct resource *resources[N];
};

struct error_responses *
error_responses_new(void)
{
    struct error_responses *r = calloc(1, sizeof *r);

    for (size_t i = 0; r != NULL && i < N; i++) {
        const struct resource_facts facts = {
            .status = table[i].status,
            .allow = table[i].allow,
            .cache = "no-store",
        };
        r->resources[i] =
            resource_new(&facts, table[i].text, strlen(table[i].text));
        if (r->resources[i] == NULL) {
            error_responses_free(r);
            return NULL;
        }
    }
    return r;
}

void
error_responses_free(struct error_responses *r)
{
    for (size_t i = 0; r != NULL && i < N; i++)
        resource_drop(r->resources[i]);
    free(r);
}

static struct resource *
find(const struct error_responses *r, unsigned status, const char *allow)
{
    for (size_t i = 0; i < N; i++)
        if (table[i].status == status &&
            (allow == NULL || strcmp(table[i].allow, allow) == 0))
            return r->resources[i];
    assert(0);
    return NULL;
}

struct resource *
error_responses_get(const struct error_responses *r, unsigned status)
{
    return find(r, status, NULL);
}

struct resource *
error_responses_method(const struct error_responses *r, int gets, int accepts)
{
    return find(r, 405,
        !accepts ? "GET, HEAD"
        : gets   ? "GET, HEAD, POST"
                 : "POST");
}
