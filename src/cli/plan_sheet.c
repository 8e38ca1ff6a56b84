#include "plan_sheet.h"

#include "atomic_file.h"
#include "buf.h"
#include "poster.h"

#include <errno.h>
#include <string.h>
#include <sysexits.h>

static int
ends_with(const char *path, const char *ending)
{
    size_t len = strlen(path);

    return len > strlen(ending) &&
           strcasecmp(path + len - strlen(ending), ending) == 0;
}

static int
write_bytes(
    const char *path, const struct buf *bytes, struct buf *out, struct fault *f)
{
    if (atomic_file_write(path, buf_str(bytes), buf_len(bytes)) < 0)
        return fault_set(f, EX_CANTCREAT, "%s: cannot write the sheet: %s",
            path, strerror(errno));
    buf_print(out, "written: %s\n", path);
    return 0;
}

/* The path of the sheet @n, counted from 0. */
static void
name_sheet(const char *path, size_t n, struct buf *name)
{
    size_t stem = strlen(path) - strlen(".svg");

    buf_clear(name);
    buf_add(name, path, stem);
    if (n > 0)
        buf_print(name, "-%zu", n + 1);
    buf_text(name, path + stem);
}

static int
write_svg(struct poster *p, const char *path, struct buf *bytes,
    struct buf *out, struct fault *f)
{
    struct buf *name = buf_new();
    int rc = name ? 0 : fault_set(f, EX_OSERR, "out of memory");

    for (size_t i = 0; i < poster_sheets(p) && rc == 0; i++) {
        buf_clear(bytes);
        name_sheet(path, i, name);
        if (poster_svg(p, i, bytes) || buf_failed(name))
            rc = fault_set(f, EX_OSERR, "out of memory");
        else
            rc = write_bytes(buf_str(name), bytes, out, f);
    }
    buf_free(name);
    return rc;
}

static int
write_pdf(struct poster *p, const char *path, struct buf *bytes,
    struct buf *out, struct fault *f)
{
    if (poster_pdf(p, bytes))
        return fault_set(f, EX_OSERR, "out of memory");
    return write_bytes(path, bytes, out, f);
}

int
plan_sheet_write(const struct fleet_plan *a, const char *path, struct buf *out,
    struct fault *f)
{
    int svg = ends_with(path, ".svg");

    if (!svg && !ends_with(path, ".pdf"))
        return fault_set(
            f, EX_USAGE, "--sheet: '%s' ends with neither .pdf nor .svg", path);
    struct poster *p = poster_new(a);
    struct buf *bytes = buf_new();
    int rc = -1;
    if (p == NULL || bytes == NULL)
        fault_fill(f, EX_OSERR, "out of memory");
    else
        rc = svg ? write_svg(p, path, bytes, out, f)
                 : write_pdf(p, path, bytes, out, f);
    poster_free(p);
    buf_free(bytes);
    return rc;
}
