#ifndef QUEUE_H
#define QUEUE_H

#include <stddef.h>
#include <stdint.h>

/*
 * Numbers, each with a rank, the lowest first and of one rank the smallest
 * number first.  A binary heap that knows where each number stands, so that its
 * rank can change.
 */
struct queue;

/* An empty queue, or NULL when memory is out.  Free with queue_free(). */
struct queue *queue_new(void);

/* Free @q; NULL is ignored. */
void queue_free(struct queue *q);

/* Make room for the numbers below @n: 0, or -1 when memory is out. */
int queue_reserve(struct queue *q, size_t n);

/* Give the number @i, which there must be room for, that rank, in the queue
 * or not. */
void queue_set(struct queue *q, size_t i, int64_t rank);

/* Take the number @i out; nothing happens when it is not in. */
void queue_drop(struct queue *q, size_t i);

/* The first number, or -1 when the queue is empty. */
long queue_first(const struct queue *q);

#endif
