#include "file_watch.h"

#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/inotify.h>
#include <sysexits.h>
#include <unistd.h>

enum {
    FOLDERS_MOST = 64, /* of the fleet's files */
    READS_MOST = 64,   /* at one look: who writes there without end is not
                          listened to without end */
    NAME_MOST = 256
};

/* A new content, another file under the name, or others who may read it. */
#define CHANGED                                                                \
    (IN_CLOSE_WRITE | IN_MOVED_TO | IN_MOVED_FROM | IN_DELETE | IN_ATTRIB)

struct file_watch {
    int fd;
    int ledger_folder; /* its watch */
    char ledger[NAME_MOST];
    int folders[FOLDERS_MOST];
    size_t n_folders;
};

struct file_watch *
file_watch_open(struct fault *f)
{
    struct file_watch *l = calloc(1, sizeof *l);

    if (l == NULL) {
        fault_fill(f, EX_OSERR, "out of memory");
        return NULL;
    }
    l->ledger_folder = -1;
    l->fd = inotify_init1(IN_NONBLOCK | IN_CLOEXEC);
    if (l->fd >= 0)
        return l;
    fault_fill(f, EX_OSERR, "cannot watch files: %s", strerror(errno));
    free(l);
    return NULL;
}

void
file_watch_close(struct file_watch *l)
{
    if (l == NULL)
        return;
    (void)close(l->fd);
    free(l);
}

int
file_watch_fd(const struct file_watch *l)
{
    return l->fd;
}

/* Watch the folder of @path; its name is left in @name. */
static int
watch(struct file_watch *l, const char *path, uint32_t events,
    const char **name, struct fault *f)
{
    const char *slash = strrchr(path, '/');
    char *folder = slash == NULL   ? strdup(".")
                   : slash == path ? strdup("/")
                                   : strndup(path, (size_t)(slash - path));

    if (folder == NULL)
        return fault_set(f, EX_OSERR, "out of memory");
    *name = slash ? slash + 1 : path;
    int at =
        inotify_add_watch(l->fd, folder, events | IN_ONLYDIR | IN_MASK_ADD);
    if (at < 0)
        fault_fill(
            f, EX_OSERR, "%s: cannot be watched: %s", folder, strerror(errno));
    free(folder);
    return at;
}

int
file_watch_ledger(struct file_watch *l, const char *path, struct fault *f)
{
    const char *name;

    l->ledger_folder = watch(l, path, CHANGED | IN_MODIFY, &name, f);
    if (l->ledger_folder < 0)
        return -1;
    snprintf(l->ledger, sizeof l->ledger, "%s", name);
    return 0;
}

static int
watch_folder_of(struct file_watch *l, const char *path, struct fault *f)
{
    const char *name;
    int folder = watch(l, path, CHANGED, &name, f);

    if (folder < 0)
        return -1;
    for (size_t i = 0; i < l->n_folders; i++)
        if (l->folders[i] == folder)
            return 0;
    if (l->n_folders == FOLDERS_MOST)
        return fault_set(f, EX_CONFIG,
            "the fleet's files are in more than %d folders", FOLDERS_MOST);
    l->folders[l->n_folders++] = folder;
    return 1;
}

int
file_watch_file(struct file_watch *l, const char *path, struct fault *f)
{
    char *target = realpath(path, NULL);
    int is_new = watch_folder_of(l, path, f);

    /* A link is put in the place of another, but written where it leads. */
    if (is_new >= 0 && target != NULL) {
        int also = watch_folder_of(l, target, f);
        is_new = also < 0 ? -1 : is_new | also;
    }
    free(target);
    return is_new;
}

static int
is_fleet_folder(const struct file_watch *l, int folder)
{
    for (size_t i = 0; i < l->n_folders; i++)
        if (l->folders[i] == folder)
            return 1;
    return 0;
}

/* A commit ends with the removal of the journal; a restore puts another file
 * in the place of the ledger.  To close the file is nothing. */
static int
is_written(const char *more, uint32_t mask)
{
    if (*more == '\0')
        return (mask & (IN_MODIFY | IN_MOVED_TO)) != 0;
    return strcmp(more, "-journal") == 0 && (mask & IN_DELETE);
}

static unsigned
judge(const struct file_watch *l, const struct inotify_event *e)
{
    size_t len = strlen(l->ledger);

    if (e->mask & IN_Q_OVERFLOW)
        return FILE_WATCH_LEDGER | FILE_WATCH_FLEET;
    if (e->len == 0)
        return 0;
    /* What stands beside the ledger under its name is no file of the fleet. */
    if (e->wd == l->ledger_folder && strncmp(e->name, l->ledger, len) == 0)
        return is_written(e->name + len, e->mask) ? FILE_WATCH_LEDGER : 0;
    return is_fleet_folder(l, e->wd) && (e->mask & CHANGED) ? FILE_WATCH_FLEET
                                                            : 0;
}

unsigned
file_watch_look(struct file_watch *l)
{
    _Alignas(struct inotify_event) char events[4096];
    unsigned seen = 0;
    ssize_t n = 1;

    for (int i = 0; i < READS_MOST && n > 0; i++) {
        n = read(l->fd, events, sizeof events);
        for (char *at = events; n > 0 && at < events + n;) {
            const struct inotify_event *e = (const void *)at;
            seen |= judge(l, e);
            at += sizeof *e + e->len;
        }
    }
    return seen;
}
