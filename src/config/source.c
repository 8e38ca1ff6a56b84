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

/* The size that the system tells may change while the file is read, so it is
 * not gone by. */
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

/* Who may use the file, which is all that can be told of one that is not ours
 * to read. */
static int
check_access(const char *path, struct fault *f)
{
    struct stat st;

    if (stat(path, &st) != 0)
        return fault_set(f, errno == EACCES ? EX_NOPERM : EX_NOINPUT,
            "cannot be read: %s", strerror(errno));
    if (!S_ISREG(st.st_mode))
        return fault_set(f, EX_CONFIG, "is not a regular file");
    if (st.st_mode & 077)
        return fault_set(f, EX_CONFIG,
            "may be read or written by others (mode %04o); run chmod 600 on it",
            (unsigned)st.st_mode & 07777);
    if (st.st_uid != 0 && st.st_uid != geteuid() && geteuid() != 0)
        return fault_set(f, EX_NOPERM, "belongs to another user");
    return 0;
}

/* The length of the one line that the secret is, or 0 when it is none. */
static size_t
secret_length(const char *text, size_t len)
{
    if (len > 0 && text[len - 1] == '\n')
        len--;
    if (len > SECRET_MOST)
        return 0;
    for (size_t i = 0; i < len; i++)
        if (text[i] < ' ' || text[i] > '~')
            return 0;
    return len;
}

/* The copy on the stack is wiped, whether or not it was good. */
int
source_secret(const char *path, char out[SECRET_MOST + 1], struct fault *f)
{
    char text[SECRET_MOST + 2];

    if (check_access(path, f))
        return -1;
    int fd = open(path, O_RDONLY | O_CLOEXEC | O_NONBLOCK);
    ssize_t n = fd < 0 ? -1 : read_up_to(fd, text, sizeof text);
    if (n < 0)
        fault_fill(f, errno == EACCES ? EX_NOPERM : EX_CONFIG,
            "cannot be read: %s", strerror(errno));
    if (fd >= 0)
        close(fd);
    size_t len = n < 0 ? 0 : secret_length(text, (size_t)n);
    memcpy(out, text, len);
    out[len] = '\0';
    explicit_bzero(text, sizeof text);
    if (n >= 0 && len == 0)
        fault_fill(f, EX_CONFIG,
            "is not one line of 1 to %d printable ASCII characters",
            SECRET_MOST);
    return len > 0 ? 0 : -1;
}
