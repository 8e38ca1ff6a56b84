#ifndef NOTES_H
#define NOTES_H

/* Whom a line of the log is for; the line has no line break. */
typedef void http_log(void *context, const char *line);

/*
 * What the layer has to say about requests it refused, at most so many lines
 * a second, that no flood of them becomes a flood of lines.  May be used in
 * any thread, and calls the log in it, one call at a time.
 */
struct notes;

/* Notes for @log, which may be NULL for nobody; NULL when memory is out. */
struct notes *notes_new(http_log *log, void *context);

/* Free @n; NULL is ignored. */
void notes_free(struct notes *n);

/* Note one line. */
void notes_add(struct notes *n, const char *format, ...)
    __attribute__((format(printf, 2, 3)));

/* A second has gone by: say how many lines were left out in it. */
void notes_second(struct notes *n);

#endif
