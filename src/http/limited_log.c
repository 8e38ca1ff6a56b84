#include "limited_log.h"

#include <pthread.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>

enum {
    A_SECOND = 5 /* lines */
};

struct limited_log {
    http_log *log;
    void *context;
    pthread_mutex_t lock;
    unsigned count; /* in this second */
};

struct limited_log *
limited_log_new(http_log *log, void *context)
{
    struct limited_log *n = calloc(1, sizeof *n);

    if (n == NULL)
        return NULL;
    n->log = log;
    n->context = context;
    pthread_mutex_init(&n->lock, NULL);
    return n;
}

void
limited_log_free(struct limited_log *n)
{
    if (n == NULL)
        return;
    pthread_mutex_destroy(&n->lock);
    free(n);
}

void
limited_log_add(struct limited_log *n, const char *format, ...)
{
    char line[256];
    va_list args;

    if (n->log == NULL)
        return;
    pthread_mutex_lock(&n->lock);
    if (n->count++ < A_SECOND) {
        va_start(args, format);
        vsnprintf(line, sizeof line, format, args);
        va_end(args);
        n->log(n->context, line);
    }
    pthread_mutex_unlock(&n->lock);
}

void
limited_log_second(struct limited_log *n)
{
    char line[64];

    pthread_mutex_lock(&n->lock);
    if (n->count > A_SECOND) {
        snprintf(line, sizeof line, "%u more refused in the same second",
            n->count - A_SECOND);
        n->log(n->context, line);
    }
    n->count = 0;
    pthread_mutex_unlock(&n->lock);
}
