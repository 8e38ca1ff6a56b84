#include "fleet_file.h"

#include "buf.h"
#include "file_watch.h"
#include "log.h"
#include "problem.h"

#include <stdio.h>
#include <string.h>
#include <sysexits.h>

/* Watch its files: 1 when one of them may have changed unseen, else 0. */
static int
watch_files(const struct fleet_source *from, const struct problems *ps)
{
    struct fault f;
    const char *name;
    int missed = 0;

    for (int i = 0; *(name = problems_name(ps, i)) != '\0'; i++) {
        int is_new = file_watch_file(from->watch, name, &f);
        if (is_new < 0)
            log_line(LOG_WARNING, "%s", f.text);
        missed |= is_new > 0;
    }
    return missed;
}

static void
log_problems(int stands, struct problems *ps, struct fault *f)
{
    struct buf *text = buf_new();

    if (text == NULL)
        return;
    problems_print(ps, 0, text);
    log_lines(LOG_ERROR, buf_str(text));
    /* The first of them goes into the mail. */
    if (stands && buf_len(text) > 0)
        snprintf(f->text, sizeof f->text,
            "the fleet file is wrong, and the one before stands: %.*s",
            (int)strcspn(buf_str(text), "\n"), buf_str(text));
    buf_free(text);
}

/* Read it once; sets @missed when it is to be read again. */
static struct run_context *
read_once(
    const struct fleet_source *from, int stands, int *missed, struct fault *f)
{
    const struct run_options options = {
        .fleet_file = from->file,
        .today = from->today,
        /* Who stops the daemon does not wait for who keeps the ledger. */
        .ledger = LEDGER_SERVE,
        .reads = RUN_FLEET,
        .serves = RUN_FEEDS | RUN_PAGES | RUN_SETTLED | RUN_REASONS,
    };
    struct problems *ps = problems_new();

    if (ps == NULL) {
        fault_fill(f, EX_OSERR, "out of memory");
        return NULL;
    }
    struct run_context *p = run_open(&options, ps, f);
    *missed = watch_files(from, ps);
    if (p == NULL && !*missed)
        log_problems(stands, ps, f);
    problems_free(ps);
    return p;
}

/* What a fleet needs to be served; what was locked and opened cannot change. */
static int
check_fleet(const struct fleet_source *from, const struct run_context *before,
    const struct run_context *p, struct fault *f)
{
    const struct site *site = &run_fleet(p)->site;

    if (site->feed_folder == NULL)
        return fault_set(f, EX_CONFIG,
            "%s: there is no feed-folder in [site], of which the feeds are "
            "served",
            from->file);
    if (before != NULL &&
        strcmp(run_fleet(before)->site.server.listen, site->server.listen) != 0)
        log_line(LOG_WARNING, "to listen at %s, start ostlerd anew",
            site->server.listen);
    if (before != NULL &&
        strcmp(run_fleet(before)->site.ledger, site->ledger) != 0)
        return fault_set(f, EX_CONFIG,
            "%s: the ledger is another, and the one before stands: start "
            "ostlerd anew",
            from->file);
    return 0;
}

struct run_context *
fleet_file_read(const struct fleet_source *from,
    const struct run_context *before, struct fault *f)
{
    struct run_context *p = NULL;
    int missed = 1;

    for (int i = 0; i < 3 && missed; i++) {
        run_close(p);
        p = read_once(from, before != NULL, &missed, f);
    }
    if (p == NULL || check_fleet(from, before, p, f) == 0)
        return p;
    run_close(p);
    return NULL;
}
