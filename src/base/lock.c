#include "lock.h"

#include <fcntl.h>
#include <sys/file.h>
#include <unistd.h>

int
lock_take(const char *path)
{
    int fd = open(path, O_RDWR | O_CREAT | O_CLOEXEC, 0644);

    if (fd < 0)
        return -1;
    if (flock(fd, LOCK_EX | LOCK_NB) == 0)
        return fd;
    (void)close(fd);
    return -1;
}

void
lock_drop(int lock)
{
    if (lock >= 0)
        (void)close(lock);
}
