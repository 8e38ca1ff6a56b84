#ifndef HANDLER_H
#define HANDLER_H

#include "http_server.h"
#include "target.h"

#include <microhttpd.h>
#include <pthread.h>
#include <stdatomic.h>

/* What the threads that answer share; http_server.c makes and ends it. */
struct serving {
    pthread_mutex_t lock; /* of the shelf */
    struct shelf *shelf;
    struct refusals *refusals;
    struct notes *notes;
    struct http_visits *visits;
    struct posts *posts;
    struct proxies *proxies;
    atomic_uint under_way; /* requests */
};

/* One request, from its first line to the end of its answer. */
struct http_request {
    struct serving *serving;
    struct MHD_Connection *connection;
    const char *method;     /* "?" until it is known to be one we know */
    unsigned target_status; /* to refuse the target with, or 0 */
    struct target target;
    uint8_t key[KEY_HASH];
    int has_begun;
    int is_found; /* the answer is what was asked for, whatever its status */
    struct resource *answer;    /* NULL while it is not known */
    unsigned status;            /* of the answer */
    char path[TARGET_MOST + 1]; /* of a form, as on the shelf */
    struct buf *body;
    struct http_form *form;
};

/*
 * The callbacks of libmicrohttpd, with a struct serving as their argument: a
 * connection may come in; one begins or ends; the first line of a request is
 * there, and with it the raw target; its fields are there, or a part of its
 * body, or all of it; it has been answered, or never will be.
 */
enum MHD_Result handler_admit(
    void *serving, const struct sockaddr *from, socklen_t len);
void handler_connection(void *serving, struct MHD_Connection *connection,
    void **visit, enum MHD_ConnectionNotificationCode what);
void *handler_line(
    void *serving, const char *target, struct MHD_Connection *connection);
enum MHD_Result handler_request(void *serving,
    struct MHD_Connection *connection, const char *path, const char *method,
    const char *version, const char *body, size_t *len, void **request);
void handler_done(void *serving, struct MHD_Connection *connection,
    void **request, enum MHD_RequestTerminationCode why);

#endif
