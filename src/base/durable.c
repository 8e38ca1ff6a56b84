#include "durable.h"

#include <errno.h>
#include <fcntl.h>
#include <libgen.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

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

/* Write @path, which must not exist, and put it on the disk. */
static int
write_new(int fd, const char *bytes, size_t len)
{
    int rc = write_all(fd, bytes, len);

    if (rc == 0)
        rc = fchmod(fd, 0644);
    if (rc == 0)
        rc = fsync(fd);
    if (close(fd) != 0)
        rc = -1;
    return rc;
}

int
durable_write(const char *path, const char *bytes, size_t len)
{
    static const char suffix[] = ".new";
    char *temp = malloc(strlen(path) + sizeof suffix);

    if (temp == NULL)
        return -1;
    sprintf(temp, "%s%s", path, suffix);
    (void)unlink(temp); /* of a process that was killed */
    if (holds(path, bytes, len)) {
        free(temp);
        return 0;
    }
    int fd = open(temp, O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0600);
    if (fd < 0)
        goto err0;
    if (write_new(fd, bytes, len) || rename(temp, path))
        goto err1;
    free(temp);
    return sync_folder(path) ? -1 : 1;
err1:
    (void)unlink(temp);
err0:
    free(temp);
    return -1;
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
durable_rename(const char *from, const char *to)
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
durable_folder(const char *path)
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
