#include "atomic_file.h"

#include <errno.h>
#include <fcntl.h>
#include <libgen.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/mman.h>
#include <sys/stat.h>
#include <unistd.h>

/* A signal or a full pipe may cut a write short; the rest is written on. */
static int
write_all(int fd, const char *bytes, size_t len)
{
    while (len > 0) {
        ssize_t n = write(fd, bytes, len);
        if (n < 0 && errno == EINTR)
            continue;
        if (n < 0)
            return -1;
        bytes += n;
        len -= (size_t)n;
    }
    return 0;
}

/* Nonzero when @path is a file that holds just these bytes. */
static int
holds(const char *path, const char *bytes, size_t len)
{
    char chunk[8192];
    size_t n;
    size_t seen = 0;
    FILE *f = fopen(path, "rbe");

    if (f == NULL)
        return 0;
    while ((n = fread(chunk, 1, sizeof chunk, f)) > 0) {
        if (n > len - seen || memcmp(chunk, bytes + seen, n) != 0)
            break;
        seen += n;
    }
    int same = n == 0 && seen == len && !ferror(f);
    fclose(f);
    return same;
}

static int
sync_folder(const char *path)
{
    char *copy = strdup(path);

    if (copy == NULL)
        return -1;
    int fd = open(dirname(copy), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    free(copy);
    if (fd < 0)
        return -1;
    int rc = fsync(fd);
    close(fd);
    return rc;
}

struct atomic_file {
    char *path;
    char *temp;
    int fd;
    int error; /* the errno of the first failure */
    char *bytes;
    size_t len; /* of what is mapped at @bytes */
};

static void
free_durable(struct atomic_file *d)
{
    int error = errno;

    if (d->bytes != NULL)
        munmap(d->bytes, d->len);
    if (d->fd >= 0)
        close(d->fd);
    free(d->temp);
    free(d->path);
    free(d);
    errno = error;
}

struct atomic_file *
atomic_file_start(const char *path)
{
    static const char suffix[] = ".new";
    struct atomic_file *d = calloc(1, sizeof *d);

    if (d == NULL)
        return NULL;
    d->fd = -1;
    d->path = strdup(path);
    d->temp = malloc(strlen(path) + sizeof suffix);
    if (d->path == NULL || d->temp == NULL)
        goto err;
    sprintf(d->temp, "%s%s", path, suffix);
    (void)unlink(d->temp); /* of a process that was killed */
    d->fd = open(d->temp, O_RDWR | O_CREAT | O_EXCL | O_CLOEXEC, 0600);
    if (d->fd >= 0)
        return d;
err:
    free_durable(d);
    return NULL;
}

void
atomic_file_add(struct atomic_file *d, const char *bytes, size_t n)
{
    if (d->error == 0 && write_all(d->fd, bytes, n) != 0)
        d->error = errno;
}

const char *
atomic_file_bytes(struct atomic_file *d, size_t *len)
{
    struct stat st;

    *len = 0;
    errno = d->error;
    if (d->error != 0 || fstat(d->fd, &st) != 0)
        return NULL;
    if (d->bytes != NULL)
        munmap(d->bytes, d->len);
    d->bytes = NULL;
    if (st.st_size == 0)
        return "";
    void *bytes =
        mmap(NULL, (size_t)st.st_size, PROT_READ, MAP_PRIVATE, d->fd, 0);
    if (bytes == MAP_FAILED)
        return NULL;
    d->bytes = bytes;
    *len = d->len = (size_t)st.st_size;
    return d->bytes;
}

void
atomic_file_drop(struct atomic_file *d)
{
    if (d == NULL)
        return;
    (void)unlink(d->temp);
    free_durable(d);
}

/* Close the new file once it is on the disk. */
static int
settle(struct atomic_file *d)
{
    int rc = fchmod(d->fd, 0644) || fsync(d->fd) ? -1 : 0;

    if (close(d->fd) != 0)
        rc = -1;
    d->fd = -1;
    return rc;
}

int
atomic_file_finish(struct atomic_file *d)
{
    size_t len;
    const char *bytes = atomic_file_bytes(d, &len);
    int same = bytes != NULL && holds(d->path, bytes, len);

    if (bytes == NULL || same || settle(d) || rename(d->temp, d->path)) {
        int error = errno;
        atomic_file_drop(d);
        errno = error;
        return same ? 0 : -1;
    }
    int rc = sync_folder(d->path) ? -1 : 1;
    free_durable(d);
    return rc;
}

int
atomic_file_write(const char *path, const char *bytes, size_t len)
{
    struct atomic_file *d = atomic_file_start(path);

    if (d == NULL)
        return -1;
    atomic_file_add(d, bytes, len);
    return atomic_file_finish(d);
}

static int
sync_file(const char *path)
{
    int fd = open(path, O_RDONLY | O_CLOEXEC);

    if (fd < 0)
        return -1;
    int rc = fsync(fd);
    close(fd);
    return rc;
}

int
atomic_file_rename(const char *from, const char *to)
{
    return sync_file(from) || rename(from, to) || sync_folder(to) ? -1 : 0;
}

/* Nonzero when @path is a folder; errno says why not. */
static int
is_folder(const char *path)
{
    struct stat st;

    if (stat(path, &st) != 0)
        return 0;
    errno = ENOTDIR;
    return S_ISDIR(st.st_mode);
}

int
atomic_file_folder(const char *path)
{
    char *copy = strdup(path);

    if (copy == NULL)
        return -1;
    for (char *at = copy; *at != '\0'; at++) {
        if (*at != '/' || at == copy)
            continue;
        *at = '\0';
        (void)mkdir(copy, 0755);
        *at = '/';
    }
    int rc = mkdir(copy, 0755);
    if (rc != 0 && errno == EEXIST && is_folder(copy))
        rc = 0;
    free(copy);
    return rc;
}
