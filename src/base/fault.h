#ifndef FAULT_H
#define FAULT_H

/*
 * What went wrong with something outside the program: a file, the ledger, a
 * mail server.  It carries the exit code of sysexits(3) that fits, and one
 * sentence that says what, where and what to do.
 */
struct fault {
    int code;
    char text[512];
};

/* Fill in @f, which may be NULL; returns -1, so that a failing function can
 * end with it. */
int fault_set(struct fault *f, int code, const char *format, ...)
    __attribute__((format(printf, 3, 4)));

#endif
