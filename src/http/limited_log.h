#ifndef LIMITED_LOG_H
#define LIMITED_LOG_H

/* Takes a line of the log, which has no line break. */
typedef void http_log(void *context, const char *line);

/*
 * A log of requests that were refused, of at most so many lines a second: a
 * flood of requests must not become a flood of lines.  It may be used in any
 * thread, and calls the log in that thread, one call at a time.
 */
struct limited_log;

/* A limit on @log, which may be NULL for none; NULL when memory is out. */
struct limited_log *limited_log_new(http_log *log, void *context);

/* Free @n; NULL is ignored. */
void limited_log_free(struct limited_log *n);

/* Write one line. */
void limited_log_add(struct limited_log *n, const char *format, ...)
    __attribute__((format(printf, 2, 3)));

/* A second has gone by: say how many lines were left out in it. */
void limited_log_second(struct limited_log *n);

#endif
