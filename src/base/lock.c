#include "lock.h"

#include <fcntl.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

static int
lock_as(const char *path, int how)
{
    int fd = open(path, O_RDWR | O_CREAT | O_CLOEXEC, 0660);

    if (fd < 0)
        return -1;
    /* Whoever makes it, with whatever umask, it is for the group to use. */
    (void)fchmod(fd, 0660);
    if (flock(fd, how) == 0)
        return fd;
    (void)close(fd);
    return -1;
}

int
lock_take(const char *path)
{
    return lock_as(path, LOCK_EX | LOCK_NB);
}

int
lock_wait(const char *path)
{
    return lock_as(path, LOCK_EX);
}

void
lock_drop(int lock)
{
    if (lock >= 0)
        (void)close(lock);
}
