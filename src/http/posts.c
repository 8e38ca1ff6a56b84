#include "posts.h"

#include <pthread.h>
#include <stdint.h>
#include <stdlib.h>
#include <sys/eventfd.h>
#include <unistd.h>

enum {
    ROOM = 64 /* more are not filled in by people */
};

struct posts {
    pthread_mutex_t lock;
    int fd; /* counts those that wait, one a read */
    int is_closed;
    size_t first;
    size_t n;
    struct http_request *waiting[ROOM];
};

struct posts *
posts_new(void)
{
    struct posts *p = calloc(1, sizeof *p);

    if (p == NULL)
        return NULL;
    p->fd = eventfd(0, EFD_CLOEXEC | EFD_NONBLOCK | EFD_SEMAPHORE);
    if (p->fd < 0) {
        free(p);
        return NULL;
    }
    pthread_mutex_init(&p->lock, NULL);
    return p;
}

void
posts_free(struct posts *p)
{
    if (p == NULL)
        return;
    (void)close(p->fd);
    pthread_mutex_destroy(&p->lock);
    free(p);
}

int
posts_fd(const struct posts *p)
{
    return p->fd;
}

int
posts_add(struct posts *p, struct http_request *r)
{
    const uint64_t one = 1;
    int rc = -1;

    pthread_mutex_lock(&p->lock);
    if (!p->is_closed && p->n < ROOM &&
        write(p->fd, &one, sizeof one) == sizeof one) {
        p->waiting[(p->first + p->n++) % ROOM] = r;
        rc = 0;
    }
    pthread_mutex_unlock(&p->lock);
    return rc;
}

struct http_request *
posts_take(struct posts *p)
{
    uint64_t one;
    struct http_request *r = NULL;

    pthread_mutex_lock(&p->lock);
    if (p->n > 0 && read(p->fd, &one, sizeof one) == sizeof one) {
        r = p->waiting[p->first];
        p->first = (p->first + 1) % ROOM;
        p->n--;
    }
    pthread_mutex_unlock(&p->lock);
    return r;
}

void
posts_close(struct posts *p)
{
    pthread_mutex_lock(&p->lock);
    p->is_closed = 1;
    pthread_mutex_unlock(&p->lock);
}
