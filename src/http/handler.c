#include "handler.h"

#include "buf.h"
#include "connections.h"
#include "error_responses.h"
#include "exchange.h"
#include "header_scan.h"
#include "http_request.h"
#include "limited_log.h"
#include "posts.h"
#include "resource.h"
#include "routes.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* Bytes of a body that are read although nobody wants them. */
#define LET_GO_MOST 1000000

enum MHD_Result
handler_admit(void *serving, const struct sockaddr *from, socklen_t len)
{
    struct serving *s = serving;
    struct address address = address_of(from);

    (void)len;
    return connections_admit(s->visits, &address) ? MHD_YES : MHD_NO;
}

/*
 * What the system takes of an answer before the client does counts as sent, so
 * let it be little: a slow reader is then seen to be one, and many cannot fill
 * the memory.  It is faster, too, than the megabytes the system would take, for
 * they fall out of the processor's cache.
 */
static void
bound_buffer(int fd)
{
    const int bytes = 131072;

    (void)setsockopt(fd, SOL_SOCKET, SO_SNDBUF, &bytes, sizeof bytes);
}

void
handler_connection(void *serving, struct MHD_Connection *connection,
    void **visit, enum MHD_ConnectionNotificationCode what)
{
    struct serving *s = serving;

    if (what == MHD_CONNECTION_NOTIFY_CLOSED) {
        connection_end(*visit);
        return;
    }
    const union MHD_ConnectionInfo *socket =
        MHD_get_connection_info(connection, MHD_CONNECTION_INFO_CONNECTION_FD);
    int fd = socket->connect_fd;
    const union MHD_ConnectionInfo *client =
        MHD_get_connection_info(connection, MHD_CONNECTION_INFO_CLIENT_ADDRESS);
    struct address from = address_of(client->client_addr);
    bound_buffer(fd);
    *visit = connections_begin(s->visits, fd, &from);
}

static struct connection *
visit_of(struct MHD_Connection *connection)
{
    return MHD_get_connection_info(
        connection, MHD_CONNECTION_INFO_SOCKET_CONTEXT)
        ->socket_context;
}

/*
 * The library undoes escapes, which would turn "%00" into an end and "%2e"
 * into a dot; so the path that it hands over later is not looked at, but what
 * was sent.
 */
void *
handler_line(
    void *serving, const char *target, struct MHD_Connection *connection)
{
    struct serving *s = serving;
    struct http_request *r = visit_of(connection) ? calloc(1, sizeof *r) : NULL;

    if (r == NULL)
        return NULL;
    r->serving = s;
    r->connection = connection;
    r->method = "?";
    r->target_status = target_read(target, &r->target);
    s->under_way++;
    return r;
}

void
handler_done(void *serving, struct MHD_Connection *connection, void **request,
    enum MHD_RequestTerminationCode why)
{
    struct serving *s = serving;
    struct http_request *r = *request;

    (void)why;
    if (visit_of(connection) != NULL)
        connection_again(visit_of(connection));
    if (r == NULL)
        return;
    resource_drop(r->answer);
    http_form_free(r->form);
    buf_free(r->body);
    free(r);
    *request = NULL;
    s->under_way--;
}

/* Answer with @resource, a reference that is taken over. */
static void
settle(struct http_request *r, unsigned status, struct resource *resource)
{
    resource_drop(r->answer);
    r->answer = resource;
    r->status = status;
}

static void
refuse(struct http_request *r, unsigned status)
{
    settle(r, status,
        resource_ref(error_responses_get(r->serving->responses, status)));
}

/* What is in the log of a request is never its path, where the key is. */
static void
note_refusal(const struct http_request *r)
{
    char from[ADDRESS_TEXT];
    char key[16] = "";
    struct address address = http_request_from(r);

    if (r->target.key != NULL)
        snprintf(key, sizeof key, " key %02x%02x%02x%02x", r->key[0], r->key[1],
            r->key[2], r->key[3]);
    address_print(&address, from);
    limited_log_add(
        r->serving->log, "%u %s%s from %s", r->status, r->method, key, from);
}

static enum MHD_Result
send_answer(struct http_request *r)
{
    if (r->status >= 400 && !r->is_found)
        note_refusal(r);
    /* A 304 goes out with all of the resource: the library leaves the body
     * away by itself, and would say that an empty one has a length of 0. */
    return MHD_queue_response(
        r->connection, r->status, resource_response(r->answer));
}

enum method { METHOD_OTHER, METHOD_READ, METHOD_POST };

static enum method
read_method(struct http_request *r, const char *method)
{
    static const char *const known[] = {"GET", "HEAD", "POST", "PUT", "DELETE",
        "OPTIONS", "PATCH", "TRACE", "CONNECT", "PROPFIND"};

    for (size_t i = 0; i < sizeof known / sizeof *known; i++)
        if (strcmp(method, known[i]) == 0) {
            r->method = known[i];
            return i < 2 ? METHOD_READ : i == 2 ? METHOD_POST : METHOD_OTHER;
        }
    return METHOD_OTHER;
}

/* Find what is asked for; a resource found is the caller's to drop. */
static int
look_up(struct http_request *r, struct route_spot *spot)
{
    struct serving *s = r->serving;

    pthread_mutex_lock(&s->lock);
    int rc = routes_find(s->routes, &r->target, spot);
    memcpy(r->key, spot->hash, sizeof r->key);
    if (rc == 0 && spot->get != NULL)
        (void)resource_ref(spot->get);
    /* A form waits, and meanwhile the routes may go. */
    if (rc == 0 && spot->accepts)
        snprintf(r->path, sizeof r->path, "%s", spot->path);
    pthread_mutex_unlock(&s->lock);
    return rc;
}

/* Settle on the answer to GET and HEAD. */
static void
settle_read(
    struct http_request *r, struct resource *get, const struct conditional *c)
{
    enum conditional_answer what =
        resource_status(get) == 200 ? conditional_decide(c) : CONDITIONAL_SEND;

    if (what == CONDITIONAL_FAILED)
        refuse(r, 412);
    else
        settle(r, what == CONDITIONAL_SAME ? 304 : resource_status(get),
            resource_ref(get));
    r->is_found = what != CONDITIONAL_FAILED;
}

/* A form is answered by others, once it is here; one that is none, by us. */
static void
settle_post(struct http_request *r, const struct header_scan *scan)
{
    if (!scan->is_form)
        refuse(r, 415);
    else if (scan->length > HTTP_FORM_MOST)
        refuse(r, 413);
}

/* Whether what was found can be asked for in that way. */
static int
allows(const struct route_spot *spot, enum method method)
{
    return (method == METHOD_READ && spot->get != NULL) ||
           (method == METHOD_POST && spot->accepts);
}

/* Settle on all that the first line and the fields decide. */
static void
settle_early(struct http_request *r, enum method method, const char *version,
    struct header_scan *scan)
{
    struct route_spot spot = {0};
    int is_found = look_up(r, &spot) == 0;
    unsigned fault = r->target_status;

    if (spot.get != NULL)
        conditional_start(&scan->conditional, resource_etag(spot.get),
            resource_modified(spot.get));
    else
        conditional_start(&scan->conditional, "", 0);
    header_scan_fields(scan, r->connection);
    if (fault == 0)
        fault = header_scan_fault(scan, version);
    if (fault != 0)
        refuse(r, fault);
    else if (!is_found && method != METHOD_OTHER)
        refuse(r, 404);
    else if (!allows(&spot, method))
        settle(r, 405,
            resource_ref(error_responses_method(
                r->serving->responses, spot.get != NULL, spot.accepts)));
    else if (method == METHOD_READ)
        settle_read(r, spot.get, &scan->conditional);
    else
        settle_post(r, scan);
    resource_drop(spot.get);
}

/*
 * Whether a body that nobody wants is read all the same and let go.  A
 * connection that is closed with bytes unread is reset, and that throws away
 * the answer before the client has read it (RFC 9112, 9.6): it sees a broken
 * pipe, and behind a proxy 502.  Not one that is very long, or does not say how
 * long, or waits to be asked for.
 */
static int
lets_go(const struct header_scan *scan)
{
    return scan->encodings == 0 && !scan->expects &&
           scan->length <= LET_GO_MOST;
}

/*
 * An answer that is queued before the end of the request makes the library
 * close the connection.  So it waits, unless there is a body that is not even
 * let go, or doubt where the body ends.
 */
static enum MHD_Result
begin(struct http_request *r, const char *method, const char *version)
{
    struct header_scan scan = {0};

    r->has_begun = 1;
    settle_early(r, read_method(r, method), version, &scan);
    if (r->answer != NULL &&
        ((scan.has_content && !lets_go(&scan)) || r->status == 400))
        return send_answer(r);
    return MHD_YES;
}

/* Take a part of a form; what is too much is let go. */
static void
take_body(struct http_request *r, const char *body, size_t len)
{
    if (r->answer != NULL)
        return;
    if (r->body == NULL)
        r->body = buf_new();
    if (r->body == NULL) {
        refuse(r, 503);
    } else if (buf_len(r->body) + len > HTTP_FORM_MOST) {
        refuse(r, 413);
    } else {
        buf_add(r->body, body, len);
    }
}

/* Hand a whole form to whoever answers forms, and wait without a thread. */
static enum MHD_Result
hand_over(struct http_request *r)
{
    const char *body = r->body ? buf_str(r->body) : "";

    r->form = r->body && buf_failed(r->body)
                  ? NULL
                  : http_form_read(body, r->body ? buf_len(r->body) : 0);
    if (r->form == NULL) {
        refuse(r, 400);
        return send_answer(r);
    }
    /* First, since the answer may come before the next line runs. */
    connection_wait(visit_of(r->connection));
    MHD_suspend_connection(r->connection);
    if (posts_add(r->serving->posts, r))
        http_request_answer(r, NULL);
    return MHD_YES;
}

enum MHD_Result
handler_request(void *serving, struct MHD_Connection *connection,
    const char *path, const char *method, const char *version, const char *body,
    size_t *len, void **request)
{
    struct http_request *r = *request;

    (void)serving;
    (void)connection;
    (void)path;
    if (r == NULL) /* out of memory: close */
        return MHD_NO;
    if (!r->has_begun)
        return begin(r, method, version);
    if (*len > 0) {
        take_body(r, body, *len);
        *len = 0;
        return MHD_YES;
    }
    return r->answer != NULL ? send_answer(r) : hand_over(r);
}
