#include "atomic_file.h"
#include "transport.h"

#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sysexits.h>

/* The length of what is to be a file's name, or 0 when it may not be one. */
static size_t
name_length(const char *message_id)
{
    size_t len = strcspn(message_id, "@");

    if (message_id[0] == '.' || memchr(message_id, '/', len) != NULL)
        return 0;
    return len;
}

int
send_folder(struct mail_session *s, const struct mail_envelope *e,
    const char *bytes, size_t len, struct fault *f)
{
    const char *folder = s->route->argument;
    int rc = 0;
    char *path;
    size_t name = name_length(e->message_id);

    if (name == 0)
        return fault_set(f, EX_DATAERR,
            "the Message-ID '%s' does not make a file name", e->message_id);
    if (asprintf(&path, "%s/%.*s.eml", folder, (int)name, e->message_id) < 0)
        return fault_set(f, EX_TEMPFAIL, "out of memory");
    if (atomic_file_folder(folder) || atomic_file_write(path, bytes, len) < 0)
        rc = fault_set(
            f, EX_TEMPFAIL, "cannot write %s: %s", path, strerror(errno));
    free(path);
    return rc;
}
