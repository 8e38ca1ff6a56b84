#ifndef LIMITED_LOG_H
#define LIMITED_LOG_H

/* Whom a line of the log is for; the line has no line break. */
typedef void http_log(void *context, const char *line);

/*
 * What the layer has to say about requests it refused, at most so many lines
 * a second, that no flood of them becomes a flood of lines.  May be used in
 * any thread, and calls the log in it, one call at a time.
 */
struct limited_log;

/* Notes for @log, which may be NULL for nobody; NULL when memory is out. */
struct limited_log *limited_log_new(http_log *log, void *context);

/* Free @n; NULL is ignored. */
void limited_log_free(struct limited_log *n);

/* Note one line. */
void limited_log_add(struct limited_log *n, const char *format, ...)
    __attribute__((format(printf, 2, 3)));

/* A second has gone by: say how many lines were left out in it. */
void limited_log_second(struct limited_log *n);

#endif
