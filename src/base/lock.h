#ifndef LOCK_H
#define LOCK_H

/*
 * A lock that one process at a time can hold, in the file @path, which is
 * made and stays.  It goes when the process ends, however it ends.  Returns a
 * handle for lock_drop(), or -1 with errno set: EWOULDBLOCK when another
 * process holds it.
 */
int lock_take(const char *path);

/* The same, but waits for another process to give it back. */
int lock_wait(const char *path);

/* Give the lock back; -1 is ignored. */
void lock_drop(int lock);

#endif
