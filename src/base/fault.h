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

/* Fill in @f, which may be NULL. */
void fault_fill(struct fault *f, int code, const char *format, ...)
    __attribute__((format(printf, 3, 4)));

/* The same, and -1, so that a failing function can end with it.  A macro, so
 * that whoever reads the code for the compiler knows the -1 as well. */
#define fault_set(...) (fault_fill(__VA_ARGS__), -1)

/* Add to the text of @f what else went wrong, or where it has no room for the
 * whole of that, that there is more. */
void fault_also(struct fault *f, const struct fault *other);

#endif
