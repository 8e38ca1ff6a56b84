#include "publish.h"

#include "buf.h"
#include "durable.h"
#include "ical.h"
#include "select.h"
#include "stamp.h"

#include <errno.h>
#include <nettle/sha2.h>
#include <stdlib.h>
#include <string.h>
#include <strings.h>
#include <sysexits.h>

static const char *
site_name(const struct pass *p)
{
    return pass_fleet(p)->site.name;
}

/* The stamp that goes with what an event says now. */
static int
stamp(const struct pass *p, const char *uid, struct buf *content,
    struct ical_stamp *out, struct fault *f)
{
    uint8_t hash[SHA256_DIGEST_SIZE];
    struct sha256_ctx sha;
    struct stamp kept;

    if (buf_failed(content))
        return fault_set(f, EX_OSERR, "out of memory");
    sha256_init(&sha);
    sha256_update(&sha, buf_len(content), (const uint8_t *)buf_str(content));
    sha256_digest(&sha, sizeof hash, hash);
    if (stamp_event(pass_ledger(p), uid, hash, pass_moment(p).now, &kept, f))
        return -1;
    *out = (struct ical_stamp){(int)kept.sequence, kept.modified};
    return 0;
}

static int
stamp_due(const struct pass *p, const struct ical_feed *feed, size_t i,
    struct buf *content, struct ical_stamp *out, struct fault *f)
{
    char uid[ICAL_UID_TEXT];

    buf_clear(content);
    ical_uid(feed->site, feed->dues[i], uid);
    if (ical_content(feed->site, feed->dues[i], content))
        return fault_set(f, EX_OSERR, "out of memory");
    return stamp(p, uid, content, out, f);
}

/*
 * The event of an empty feed is dated by its stamp.  While the feed is not
 * empty that event says nothing, which is a change: when the feed is empty
 * again, the day is a new one.
 */
static int
stamp_empty(const struct pass *p, const struct ical_feed *feed, int is_empty,
    struct buf *content, struct ical_stamp *out, struct fault *f)
{
    char uid[ICAL_UID_TEXT];

    buf_clear(content);
    ical_empty_uid(feed->site, feed->id, uid);
    if (is_empty && ical_empty_content(feed->site, feed->id, content))
        return fault_set(f, EX_OSERR, "out of memory");
    return stamp(p, uid, content, out, f);
}

static int
stamp_all(const struct pass *p, const struct ical_feed *feed,
    struct ical_stamp *stamps, struct fault *f)
{
    struct buf *content = buf_new();
    int is_empty = 1;
    int rc = 0;

    if (content == NULL)
        return fault_set(f, EX_OSERR, "out of memory");
    for (size_t i = 0; i < feed->n && rc == 0; i++) {
        if (!ical_has_event(feed->dues[i]))
            continue;
        is_empty = 0;
        rc = stamp_due(p, feed, i, content, &stamps[i], f);
    }
    if (rc == 0)
        rc = stamp_empty(p, feed, is_empty, content, &stamps[feed->n], f);
    buf_free(content);
    return rc;
}

/* All stamps of a feed are kept together, before its bytes go out. */
static int
stamp_together(const struct pass *p, const struct ical_feed *feed,
    struct ical_stamp *stamps, struct fault *f)
{
    if (ledger_begin(pass_ledger(p), f))
        return -1;
    if (stamp_all(p, feed, stamps, f)) {
        ledger_rollback(pass_ledger(p));
        return -1;
    }
    return ledger_commit(pass_ledger(p), f);
}

static int
build(const struct pass *p, const struct ical_feed *feed, struct buf *out,
    struct fault *f)
{
    size_t before = buf_len(out);
    struct ical_stamp *stamps = calloc(feed->n + 1, sizeof *stamps);
    int rc = -1;

    if (stamps == NULL)
        return fault_set(f, EX_OSERR, "out of memory");
    if (stamp_together(p, feed, stamps, f))
        goto out;
    if (ical_render(feed, stamps, out)) {
        fault_fill(f, EX_OSERR, "out of memory");
        goto out;
    }
    rc = ical_check(
        buf_str(out) + before, buf_len(out) - before, ical_events(feed), f);
out:
    free(stamps);
    return rc;
}

int
publish_feed(const struct pass *p, const struct snapshot *s,
    const struct feed *feed, struct buf *out, struct fault *f)
{
    struct filter filter = {
        .scopes = feed->shows,
        .n_scopes = feed->n_shows,
        .until =
            step_span(pass_moment(p).today, feed->horizon, 1, MONTH_END_CLAMP),
        .projected = 1,
        .from = pass_moment(p).today,
    };
    struct selection dues;

    if (select_dues(s, &filter, &dues))
        return fault_set(f, EX_OSERR, "out of memory");
    struct ical_feed shown = {
        .site = site_name(p),
        .id = feed->id,
        .title = feed->title ? feed->title : feed->id,
        .dues = dues.dues,
        .n = dues.n,
    };
    int rc = build(p, &shown, out, f);
    free(dues.dues);
    return rc;
}

static int
write_feed(const struct pass *p, const struct snapshot *s,
    const struct feed *feed, struct buf *path, struct fault *f)
{
    struct buf *bytes = buf_new();
    int rc = -1;

    buf_clear(path);
    buf_print(path, "%s/%s.ics", pass_fleet(p)->site.feed_folder, feed->id);
    if (bytes == NULL || buf_failed(path))
        fault_fill(f, EX_OSERR, "out of memory");
    else if (publish_feed(p, s, feed, bytes, f) == 0)
        rc = durable_write(buf_str(path), buf_str(bytes), buf_len(bytes)) < 0
                 ? fault_set(f, EX_IOERR, "%s: cannot write the feed: %s",
                       buf_str(path), strerror(errno))
                 : 0;
    buf_free(bytes);
    return rc;
}

/* Write every feed even when one fails, and keep the first fault. */
static int
write_all(const struct pass *p, const struct snapshot *s, struct fault *f)
{
    const struct fleet *fleet = pass_fleet(p);
    struct buf *path = buf_new();
    int rc = 0;

    if (path == NULL)
        return fault_set(f, EX_OSERR, "out of memory");
    for (size_t i = 0; i < fleet->n_feeds; i++)
        if (write_feed(p, s, &fleet->feeds[i], path, rc ? NULL : f))
            rc = -1;
    buf_free(path);
    return rc;
}

int
publish_all(const struct pass *p, struct fault *f)
{
    const char *folder = pass_fleet(p)->site.feed_folder;

    if (folder == NULL || pass_fleet(p)->n_feeds == 0)
        return 0;
    if (durable_folder(folder))
        return fault_set(f, EX_CANTCREAT, "%s: cannot make the folder: %s",
            folder, strerror(errno));
    struct snapshot *s = pass_settled(p, publish_horizon(p), f);
    if (s == NULL)
        return -1;
    int rc = write_all(p, s, f);
    snapshot_free(s);
    return rc;
}

day_t
publish_horizon(const struct pass *p)
{
    const struct fleet *fleet = pass_fleet(p);
    day_t last = DAY_NONE;

    for (size_t i = 0; i < fleet->n_feeds; i++)
        last =
            day_later(last, step_span(pass_moment(p).today,
                                fleet->feeds[i].horizon, 1, MONTH_END_CLAMP));
    return last;
}

const struct feed *
publish_find(const struct pass *p, const char *id)
{
    const struct fleet *fleet = pass_fleet(p);

    for (size_t i = 0; i < fleet->n_feeds; i++)
        if (strcasecmp(fleet->feeds[i].id, id) == 0)
            return &fleet->feeds[i];
    return NULL;
}
