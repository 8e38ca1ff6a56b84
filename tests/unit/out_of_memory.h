#ifndef OUT_OF_MEMORY_H
#define OUT_OF_MEMORY_H

/*
 * Memory that runs out at any point.  malloc, calloc, realloc and free are this
 * file's own, in front of glibc's and for the libraries too, except under a
 * sanitizer, which has its own: OWN_MALLOC is then 0.  For one file of a test.
 */
#include <stddef.h>

#if defined(__SANITIZE_ADDRESS__)
#define OWN_MALLOC 0
#elif defined(__has_feature)
#if __has_feature(address_sanitizer)
#define OWN_MALLOC 0
#endif
#endif
#ifndef OWN_MALLOC
#define OWN_MALLOC 1
#endif

#if OWN_MALLOC
/* Allocations until one fails, or -1 for none; and how many are not freed. */
static long left = -1;
static long live;

void *__libc_malloc(size_t size);
void *__libc_calloc(size_t n, size_t size);
void *__libc_realloc(void *at, size_t size);
void __libc_free(void *at);

static int
fails(void)
{
    return left >= 0 && left-- == 0;
}

static void *
counted(void *at)
{
    live += at != NULL;
    return at;
}

void *
malloc(size_t size)
{
    return fails() ? NULL : counted(__libc_malloc(size));
}

void *
calloc(size_t n, size_t size)
{
    return fails() ? NULL : counted(__libc_calloc(n, size));
}

void *
realloc(void *at, size_t size)
{
    if (fails())
        return NULL;
    return at ? __libc_realloc(at, size) : counted(__libc_realloc(at, size));
}

void
free(void *at)
{
    live -= at != NULL;
    __libc_free(at);
}
#endif

#endif
