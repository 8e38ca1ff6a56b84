#ifndef PROBLEM_H
#define PROBLEM_H

#include <stddef.h>

struct buf;

/*
 * Everything wrong with what a user wrote, collected in one run and shown in
 * the order of the files, each with its file and line.
 */
struct problems;

/* Where something was written.  A line of 0 means the file as a whole. */
struct place {
    int file; /* from problems_file() */
    int line; /* the first line is 1 */
};

enum problem_level {
    PROBLEM_ERROR,  /* the file cannot be used */
    PROBLEM_WARNING /* legal and probably not meant */
};

/* An empty list, or NULL when memory is out.  Free with problems_free(). */
struct problems *problems_new(void);

/* Free @ps; NULL is ignored. */
void problems_free(struct problems *ps);

/*
 * The number by which places name the file @name, in the order in which files
 * are first named here.  The name is copied.  Returns -1 when memory is out.
 */
int problems_file(struct problems *ps, const char *name);

/* The name behind a number that problems_file() returned. */
const char *problems_name(const struct problems *ps, int file);

/*
 * Add one problem.  The text says what is wrong, what was expected and what to
 * do, without a file name, capital or full stop.
 */
void problems_add(struct problems *ps, enum problem_level level,
    struct place where, const char *format, ...)
    __attribute__((format(printf, 4, 5)));

/* How many problems of @level there are; running out of memory is an error. */
size_t problems_count(const struct problems *ps, enum problem_level level);

/* Append all problems to @out, or without @warnings the errors alone, one a
 * line: "FILE:LINE: error: TEXT". */
void problems_print(struct problems *ps, int warnings, struct buf *out);

#endif
