/*
 * Feeds the reader of the fleet file whatever a coverage-guided fuzzer makes
 * up, and has every fleet that passes explained, doubted and moved about.
 *
 * One input holds several files, parted by lines of "%%%": the first is the
 * fleet file, the others are called 1, 2 and so on.  They stand in for
 * src/config/source.c and for glob(), so that no path of an input reaches the
 * machine's own files.
 */
#include "config.h"
#include "source.h"

#include <fnmatch.h>
#include <glob.h>
#include <stdlib.h>
#include <string.h>
#include <sysexits.h>

#define FILES 4
#define PART "\n%%%\n"

struct part {
    const char *bytes;
    size_t len;
};

static const char *const names[FILES] = {"fleet.conf", "1", "2", "3"};
static struct part parts[FILES];

static const struct part *
find(const char *path)
{
    for (int i = 0; i < FILES; i++)
        if (parts[i].bytes != NULL && strcmp(names[i], path) == 0)
            return &parts[i];
    return NULL;
}

static void
split(const uint8_t *data, size_t size)
{
    const char *at = (const char *)data;

    memset(parts, 0, sizeof parts);
    for (int i = 0; i < FILES && at != NULL; i++) {
        size_t left = size - (size_t)(at - (const char *)data);
        const char *end = memmem(at, left, PART, strlen(PART));
        parts[i].bytes = at;
        parts[i].len = end ? (size_t)(end - at) + 1 : left;
        at = end ? end + strlen(PART) : NULL;
    }
}

char *
source_read(const char *path, size_t most, size_t *len, struct fault *f)
{
    const struct part *p = find(path);

    if (p == NULL || p->len > most) {
        fault_fill(f, EX_NOINPUT, "cannot be read");
        return NULL;
    }
    char *bytes = malloc(p->len + 1);
    if (bytes == NULL)
        abort();
    memcpy(bytes, p->bytes, p->len);
    bytes[p->len] = '\0';
    *len = p->len;
    return bytes;
}

int
source_secret(const char *path, char out[SECRET_MOST + 1], struct fault *f)
{
    out[0] = '\0';
    return find(path) ? 0 : fault_set(f, EX_NOINPUT, "cannot be read");
}

int
glob(const char *pattern, int flags, int (*bad)(const char *, int), glob_t *out)
{
    (void)flags;
    (void)bad;
    out->gl_pathc = 0;
    out->gl_pathv = calloc(FILES, sizeof *out->gl_pathv);
    for (int i = 0; i < FILES && out->gl_pathv != NULL; i++)
        if (parts[i].bytes != NULL && fnmatch(pattern, names[i], 0) == 0)
            out->gl_pathv[out->gl_pathc++] = strdup(names[i]);
    return out->gl_pathc > 0 ? 0 : GLOB_NOMATCH;
}

void
globfree(glob_t *found)
{
    for (size_t i = 0; i < found->gl_pathc; i++)
        free(found->gl_pathv[i]);
    free(found->gl_pathv);
}

/* Let everything that can be carried go round all that could carry it. */
static void
move_all(struct config *c)
{
    const struct fleet *f = config_fleet(c);

    for (size_t i = 0; i < f->n_subjects && i < 8; i++)
        for (size_t k = 0; k < f->n_subjects && k < 8; k++) {
            const struct subject *s = &f->subjects[i];
            if (config_move(c, s, &f->subjects[k]) == 0 &&
                (s->carrier != &f->subjects[k] || s->carrier->carrier != NULL))
                abort();
        }
    for (size_t i = 0; i < f->n_tasks; i++)
        if (f->tasks[i].calendar == NULL || f->tasks[i].rule->n_every == 0)
            abort();
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

int
LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    static const struct config_transport transports[] = {
        {"folder", "PATH", 0}, {"smtp", "HOST[:PORT]", 1}};
    const struct config_options options = {transports, 2};
    struct problems *ps = problems_new();
    struct buf *out = buf_new();

    split(data, size);
    struct config *c = config_read("fleet.conf", &options, ps);
    if ((c == NULL) != (problems_count(ps, PROBLEM_ERROR) > 0))
        abort();
    if (c != NULL) {
        config_warn_dates(c, day_of(2026, 12, 2), ps);
        if (config_explain(c, out))
            abort();
        move_all(c);
        if (config_explain(c, out))
            abort();
    }
    problems_print(ps, 1, out);
    config_free(c);
    problems_free(ps);
    buf_free(out);
    return 0;
}
