#include "file_map.h"

#include <errno.h>
#include <fcntl.h>
#include <sys/mman.h>
#include <sys/stat.h>
#include <unistd.h>

static int
map(int fd, struct file_map *m)
{
    struct stat st;

    if (fstat(fd, &st) != 0)
        return -1;
    errno = EINVAL;
    if (!S_ISREG(st.st_mode))
        return -1;
    *m = (struct file_map){"", (size_t)st.st_size};
    if (m->len == 0)
        return 0;
    void *bytes = mmap(NULL, m->len, PROT_READ, MAP_PRIVATE, fd, 0);
    if (bytes == MAP_FAILED)
        return -1;
    m->bytes = bytes;
    return 0;
}

int
file_map_open(const char *path, struct file_map *m)
{
    /* A pipe would keep us waiting for a writer. */
    int fd = open(path, O_RDONLY | O_CLOEXEC | O_NONBLOCK);

    if (fd < 0)
        return -1;
    int rc = map(fd, m);
    int error = errno;
    close(fd);
    errno = error;
    return rc;
}

void
file_map_close(struct file_map *m)
{
    if (m->len > 0)
        munmap((void *)(uintptr_t)m->bytes, m->len);
}

int
file_map_look(const char *path, int64_t *size, int64_t *written)
{
    struct stat st;

    if (stat(path, &st) != 0)
        return -1;
    *size = st.st_size;
    *written = (int64_t)st.st_mtim.tv_sec * 1000000000 + st.st_mtim.tv_nsec;
    return 0;
}
