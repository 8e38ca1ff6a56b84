#include "source.h"

#include <errno.h>
#include <fcntl.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <sysexits.h>
#include <unistd.h>

/* Read up to @size bytes; the number read, or -1. */
static ssize_t
read_up_to(int fd, char *bytes, size_t size)
{
    size_t had = 0;

    while (had < size) {
        ssize_t n = read(fd, bytes + had, size - had);
        if (n < 0 && errno == EINTR)
            continue;
        if (n < 0)
            return -1;
        if (n == 0)
            break;
        had += (size_t)n;
    }
    return (ssize_t)had;
}

static char *
read_open(int fd, size_t most, size_t *len, struct fault *f)
{
    struct stat st;

    if (fstat(fd, &st) == 0 && !S_ISREG(st.st_mode)) {
        fault_fill(f, EX_NOINPUT, "is not a regular file");
        return NULL;
    }
    char *bytes = malloc(most + 2);
    if (bytes == NULL) {
        fault_fill(f, EX_OSERR, "cannot be read: out of memory");
        return NULL;
    }
    /* One byte more than allowed shows that there is more. */
    ssize_t n = read_up_to(fd, bytes, most + 1);
    if (n >= 0 && (size_t)n <= most) {
        bytes[n] = '\0';
        *len = (size_t)n;
        return bytes;
    }
    if (n < 0)
        fault_fill(f, EX_IOERR, "cannot be read: %s", strerror(errno));
    else
        fault_fill(f, EX_DATAERR, "is larger than %zu MiB", most >> 20);
    free(bytes);
    return NULL;
}

char *
source_read(const char *path, size_t most, size_t *len, struct fault *f)
{
    /* A pipe without a writer must not hold us up before it is refused. */
    int fd = open(path, O_RDONLY | O_CLOEXEC | O_NONBLOCK);

    if (fd < 0) {
        fault_fill(f, EX_NOINPUT, "cannot be read: %s", strerror(errno));
        return NULL;
    }
    char *bytes = read_open(fd, most, len, f);
    close(fd);
    return bytes;
}
