#ifndef EXCHANGE_H
#define EXCHANGE_H

#include "key.h"
#include "target.h"

#include <microhttpd.h>
#include <pthread.h>
#include <stdatomic.h>

struct buf;
struct http_form;
struct connections;
struct limited_log;
struct posts;
struct proxies;
struct error_responses;
struct resource;
struct routes;

/* Inside the server only: what it holds, and what it knows of one request. */

/* What the threads that answer share; http_server.c makes and ends it. */
struct serving {
    pthread_mutex_t lock; /* of the routes */
    struct routes *routes;
    struct error_responses *responses;
    struct limited_log *log;
    struct connections *visits;
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
    char path[TARGET_MOST + 1]; /* of a form, as among the routes */
    struct buf *body;
    struct http_form *form;
};

#endif
