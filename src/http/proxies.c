#include "proxies.h"

#include <pthread.h>
#include <stdlib.h>
#include <string.h>
#include <sysexits.h>

struct list {
    struct address addresses[PROXIES_MOST];
    size_t n;
};

struct proxies {
    pthread_mutex_t lock;
    struct list list;
};

struct proxies *
proxies_new(void)
{
    struct proxies *p = calloc(1, sizeof *p);

    if (p != NULL)
        pthread_mutex_init(&p->lock, NULL);
    return p;
}

void
proxies_free(struct proxies *p)
{
    if (p == NULL)
        return;
    pthread_mutex_destroy(&p->lock);
    free(p);
}

static int
read_list(struct list *out, const char *const *list, struct fault *f)
{
    for (; list != NULL && *list != NULL; list++) {
        if (out->n == PROXIES_MOST)
            return fault_set(f, EX_CONFIG,
                "no more than %d trusted proxies are possible", PROXIES_MOST);
        if (address_parse(*list, strlen(*list), &out->addresses[out->n++]))
            return fault_set(f, EX_CONFIG,
                "trusted proxy '%s': expected an address such as 127.0.0.1, "
                "or unix",
                *list);
    }
    return 0;
}

int
proxies_trust(struct proxies *p, const char *const *list, struct fault *f)
{
    struct list next = {.n = 0};

    if (read_list(&next, list, f))
        return -1;
    pthread_mutex_lock(&p->lock);
    p->list = next;
    pthread_mutex_unlock(&p->lock);
    return 0;
}

int
proxies_have(struct proxies *p, const struct address *a)
{
    int is_one = 0;

    pthread_mutex_lock(&p->lock);
    for (size_t i = 0; i < p->list.n && !is_one; i++)
        is_one = address_same(a, &p->list.addresses[i]);
    pthread_mutex_unlock(&p->lock);
    return is_one;
}

struct address
proxies_client(struct proxies *p, const struct address *peer, const char *field)
{
    pthread_mutex_lock(&p->lock);
    struct address client =
        address_forwarded(peer, field, p->list.addresses, p->list.n);
    pthread_mutex_unlock(&p->lock);
    return client;
}
