#include "queue.h"

#include <assert.h>
#include <stdlib.h>

#define OUT ((size_t)-1)

struct queue {
    size_t *heap;   /* numbers */
    size_t *where;  /* each number's place in the heap, or OUT */
    int64_t *ranks; /* each number's rank */
    size_t n;
    size_t size;
};

struct queue *
queue_new(void)
{
    return calloc(1, sizeof(struct queue));
}

void
queue_free(struct queue *q)
{
    if (q == NULL)
        return;
    free(q->heap);
    free(q->where);
    free(q->ranks);
    free(q);
}

int
queue_reserve(struct queue *q, size_t n)
{
    size_t size = q->size ? q->size : 64;

    if (n <= q->size)
        return 0;
    while (size < n)
        size *= 2;
    size_t *heap = realloc(q->heap, size * sizeof *heap);
    if (heap == NULL)
        return -1;
    q->heap = heap;
    size_t *where = realloc(q->where, size * sizeof *where);
    if (where == NULL)
        return -1;
    q->where = where;
    int64_t *ranks = realloc(q->ranks, size * sizeof *ranks);
    if (ranks == NULL)
        return -1;
    q->ranks = ranks;
    for (size_t i = q->size; i < size; i++)
        q->where[i] = OUT;
    q->size = size;
    return 0;
}

static int
before(const struct queue *q, size_t a, size_t b)
{
    if (q->ranks[a] != q->ranks[b])
        return q->ranks[a] < q->ranks[b];
    return a < b;
}

static void
stand(struct queue *q, size_t at, size_t i)
{
    q->heap[at] = i;
    q->where[i] = at;
}

static void
rise(struct queue *q, size_t at)
{
    size_t i = q->heap[at];

    for (; at > 0 && before(q, i, q->heap[(at - 1) / 2]); at = (at - 1) / 2)
        stand(q, at, q->heap[(at - 1) / 2]);
    stand(q, at, i);
}

static void
sink(struct queue *q, size_t at)
{
    size_t i = q->heap[at];

    for (size_t below; (below = 2 * at + 1) < q->n; at = below) {
        if (below + 1 < q->n && before(q, q->heap[below + 1], q->heap[below]))
            below++;
        if (!before(q, q->heap[below], i))
            break;
        stand(q, at, q->heap[below]);
    }
    stand(q, at, i);
}

void
queue_set(struct queue *q, size_t i, int64_t rank)
{
    assert(i < q->size);
    if (q->where[i] == OUT)
        stand(q, q->n++, i);
    q->ranks[i] = rank;
    rise(q, q->where[i]);
    sink(q, q->where[i]);
}

void
queue_drop(struct queue *q, size_t i)
{
    assert(i < q->size);
    size_t at = q->where[i];

    if (at == OUT)
        return;
    q->where[i] = OUT;
    size_t last = q->heap[--q->n];
    if (last == i)
        return;
    stand(q, at, last);
    rise(q, at);
    sink(q, q->where[last]);
}

long
queue_first(const struct queue *q)
{
    return q->n ? (long)q->heap[0] : -1;
}
