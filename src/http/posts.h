#ifndef POSTS_H
#define POSTS_H

struct http_request;

/* Forms that wait to be answered, oldest first.  May be used in any thread. */
struct posts;

/* An empty queue, or NULL with errno set.  Free with posts_free(). */
struct posts *posts_new(void);

/* Free @p, which is empty; NULL is ignored. */
void posts_free(struct posts *p);

/* A file descriptor that can be read while something waits. */
int posts_fd(const struct posts *p);

/* Add @r: 0, or -1 when the queue is full or closed. */
int posts_add(struct posts *p, struct http_request *r);

/* Take the oldest, or NULL for none. */
struct http_request *posts_take(struct posts *p);

/* Take no more. */
void posts_close(struct posts *p);

#endif
