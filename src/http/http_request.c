#include "http_request.h"

#include "connections.h"
#include "error_responses.h"
#include "exchange.h"
#include "proxies.h"
#include "resource.h"

#include <string.h>
#include <strings.h>

const char *
http_request_path(const struct http_request *r)
{
    return r->path;
}

const uint8_t *
http_request_key(const struct http_request *r)
{
    return r->key;
}

const struct http_form *
http_request_form(const struct http_request *r)
{
    return r->form;
}

/* A field of the request by its name; NULL when it is not there. */
static const char *
field(const struct http_request *r, const char *name)
{
    return MHD_lookup_connection_value(r->connection, MHD_HEADER_KIND, name);
}

int
http_request_is_own(const struct http_request *r)
{
    const char *site = field(r, "Sec-Fetch-Site");
    const char *origin = field(r, "Origin");
    const char *host = field(r, "Host");

    if (site != NULL)
        return strcmp(site, "same-origin") == 0;
    const char *named = origin ? strstr(origin, "://") : NULL;
    return named != NULL && host != NULL && strcasecmp(named + 3, host) == 0;
}

static struct connection *
visit_of(const struct http_request *r)
{
    return MHD_get_connection_info(
        r->connection, MHD_CONNECTION_INFO_SOCKET_CONTEXT)
        ->socket_context;
}

struct address
http_request_from(const struct http_request *r)
{
    return proxies_client(r->serving->proxies, connection_from(visit_of(r)),
        field(r, "X-Forwarded-For"));
}

void
http_request_answer(struct http_request *r, struct resource *answer)
{
    if (answer == NULL)
        answer = resource_ref(error_responses_get(r->serving->responses, 503));
    r->answer = answer;
    r->status = resource_status(answer);
    connection_again(visit_of(r));
    /* From here on the request belongs to another thread again. */
    MHD_resume_connection(r->connection);
}
