#include "publish.h"

#include "atomic_file.h"
#include "buf.h"
#include "compose.h"
#include "dues.h"
#include "event_version.h"
#include "file_map.h"
#include "lock.h"
#include "overflow.h"
#include "run_lock.h"

#include <errno.h>
#include <nettle/sha2.h>
#include <string.h>
#include <strings.h>
#include <sysexits.h>

/* The loss of two dues out of three is no sign of a fault. */
#define FEW 4

/* A feed on its way to its file. */
struct issue {
    const struct run_context *run;
    const struct feed *feed;
    int accepted; /* whatever it loses */
    struct buf *notes;
    struct buf *path;
    struct contents contents;
    struct feed_version last; /* what was published, and what is now */
    int64_t before;           /* dues in the file that is there */
    int is_known;             /* that file is the last one we wrote */
};

static int
no_memory(struct fault *f)
{
    return fault_set(f, EX_OSERR, "out of memory");
}

static int
set_path(struct issue *i, struct fault *f)
{
    buf_clear(i->path);
    buf_print(
        i->path, "%s/%s.ics", run_fleet(i->run)->site.feed_folder, i->feed->id);
    return buf_failed(i->path) ? no_memory(f) : 0;
}

/* The file is one the ledger does not know: the ledger was restored, or the
 * file was.  What subscribers have seen counts. */
static int
learn(struct issue *i, struct fault *f)
{
    struct file_map file;
    size_t dues;

    if (file_map_open(buf_str(i->path), &file))
        return 0; /* none is there, or none that anybody can see */
    int rc = compose_learn(i->run, i->feed, file.bytes, file.len, &dues, f);
    file_map_close(&file);
    i->before = (int64_t)dues;
    return rc;
}

/* Compare the file that is there with what the ledger says of it. */
static int
look_back(struct issue *i, struct fault *f)
{
    int64_t size = -1;
    int64_t written = 0;

    i->last = (struct feed_version){.hash = i->contents.hash, .size = -1};
    if (feed_version_find(run_ledger(i->run), i->feed->id, &i->last, f) < 0)
        return -1;
    int is_there = file_map_look(buf_str(i->path), &size, &written) == 0;
    i->is_known =
        is_there && size == i->last.size && written == i->last.written;
    i->before = i->is_known ? i->last.dues : 0;
    return is_there && !i->is_known ? learn(i, f) : 0;
}

static int
check_loss(const struct issue *i, struct fault *f)
{
    int64_t now = (int64_t)contents_room(&i->contents);

    if (i->accepted || i->before < FEW || now * 2 >= i->before)
        return 0;
    return fault_set(f, EX_DATAERR,
        "feed '%s' is held back and stays as it was: it would go from %lld "
        "dues to %lld; correct the fleet file, the records or the clock, or "
        "when they are right, run: ostler feed %s --accept",
        i->feed->id, (long long)i->before, (long long)now, i->feed->id);
}

/* What the feed has no room for is said each time. */
static int
note_full(const struct issue *i, struct fault *f)
{
    if (i->last.left_out == 0)
        return 0;
    buf_text(i->notes, "ostler: ");
    if (overflow_advice(run_fleet(i->run), &i->contents,
            (size_t)i->last.left_out, i->notes))
        return no_memory(f);
    buf_text(i->notes, "\n");
    return 0;
}

static int
keep(struct issue *i, const struct composed *done, struct fault *f)
{
    i->last.dues = (int64_t)done->dues;
    i->last.left_out = (int64_t)done->left_out;
    if (file_map_look(buf_str(i->path), &i->last.size, &i->last.written))
        return fault_set(f, EX_IOERR, "%s: cannot look at the feed: %s",
            buf_str(i->path), strerror(errno));
    return feed_version_keep(run_ledger(i->run), i->feed->id, &i->last, f);
}

static int
cannot_write(const struct issue *i, struct fault *f)
{
    return fault_set(f, EX_IOERR, "%s: cannot write the feed: %s",
        buf_str(i->path), strerror(errno));
}

/* Write the new file beside the old one, and read it back. */
static int
write_new(const struct issue *i, struct atomic_file *file,
    struct composed *done, struct fault *f)
{
    struct buf *out = buf_new();
    int rc = out ? compose_feed(i->run, &i->contents, out, file, done, f)
                 : no_memory(f);
    size_t len;

    buf_free(out);
    if (rc != 0)
        return -1;
    const char *bytes = atomic_file_bytes(file, &len);
    if (bytes == NULL)
        return cannot_write(i, f);
    return ical_check(bytes, len, &i->contents.form, done->items, f);
}

static int
replace(struct issue *i, struct fault *f)
{
    struct composed done;
    struct atomic_file *file = atomic_file_start(buf_str(i->path));

    if (file == NULL)
        return cannot_write(i, f);
    if (write_new(i, file, &done, f)) {
        atomic_file_drop(file);
        return -1;
    }
    if (atomic_file_finish(file) < 0)
        return cannot_write(i, f);
    return keep(i, &done, f);
}

static int
publish(struct issue *i, const struct snapshot *s, struct fault *f)
{
    int rc = -1;

    if (set_path(i, f))
        return -1;
    if (contents_choose(i->run, s, i->feed, &i->contents, f) == 0 &&
        look_back(i, f) == 0 && check_loss(i, f) == 0)
        rc = i->is_known && i->last.same ? 0 : replace(i, f);
    if (rc == 0)
        rc = note_full(i, f);
    contents_drop(&i->contents);
    return rc;
}

int
publish_feed(const struct run_context *p, const struct snapshot *s,
    const struct feed *feed, struct buf *out, struct fault *f)
{
    struct issue i = {.run = p, .feed = feed, .path = buf_new()};
    size_t before = buf_len(out);
    struct composed done;
    int rc = i.path ? 0 : no_memory(f);

    if (rc == 0 && run_fleet(p)->site.feed_folder != NULL)
        rc = set_path(&i, f);
    if (rc == 0)
        rc = contents_choose(p, s, feed, &i.contents, f);
    if (rc == 0 && buf_len(i.path) > 0)
        rc = look_back(&i, f);
    if (rc == 0)
        rc = compose_feed(p, &i.contents, out, NULL, &done, f);
    if (rc == 0)
        rc = ical_check(buf_str(out) + before, buf_len(out) - before,
            &i.contents.form, done.items, f);
    contents_drop(&i.contents);
    buf_free(i.path);
    return rc;
}

/* Publish @only, or with NULL every feed, even when one fails: whoever has to
 * accept several hears of all at once. */
static int
publish_each(const struct run_context *p, const struct snapshot *s,
    const struct feed *only, struct buf *notes, struct fault *f)
{
    const struct fleet *fleet = run_fleet(p);
    struct buf *path = buf_new();
    int rc = 0;

    if (path == NULL)
        return no_memory(f);
    for (size_t i = 0; i < fleet->n_feeds; i++) {
        const struct feed *feed = &fleet->feeds[i];
        struct issue issue = {.run = p,
            .feed = feed,
            .accepted = only != NULL,
            .notes = notes,
            .path = path};
        if (only != NULL && feed != only)
            continue;
        struct fault seen;
        if (publish(&issue, s, &seen) == 0)
            continue;
        if (rc == 0)
            *f = seen;
        else
            fault_also(f, &seen);
        rc = -1;
    }
    buf_free(path);
    return rc;
}

static int
publish_some(const struct run_context *p, const struct feed *only,
    struct buf *notes, struct fault *f)
{
    const char *folder = run_fleet(p)->site.feed_folder;

    if (atomic_file_folder(folder))
        return fault_set(f, EX_CANTCREAT, "%s: cannot make the folder: %s",
            folder, strerror(errno));
    const struct snapshot *s = dues_of_run(p, f);
    return s ? publish_each(p, s, only, notes, f) : -1;
}

int
publish_all(const struct run_context *p, struct buf *notes, struct fault *f)
{
    const struct fleet *fleet = run_fleet(p);

    if (fleet->site.feed_folder == NULL || fleet->n_feeds == 0)
        return 0;
    return publish_some(p, NULL, notes, f);
}

int
publish_accept(const struct run_context *p, const struct feed *feed,
    struct buf *notes, struct fault *f)
{
    if (run_fleet(p)->site.feed_folder == NULL)
        return fault_set(f, EX_CONFIG,
            "the fleet file has no feed-folder, so no feed is held back");
    int lock = run_lock_take(p, f);
    if (lock < 0)
        return -1;
    int rc = publish_some(p, feed, notes, f);
    lock_drop(lock);
    return rc;
}

/* Warn where the dues of @feed are more than it may have events. */
static int
warn_full(const struct run_context *p, const struct snapshot *s,
    const struct feed *feed, struct problems *ps, struct fault *f)
{
    struct contents c;
    struct buf *text = buf_new();
    int rc = text ? contents_choose(p, s, feed, &c, f) : no_memory(f);

    if (text == NULL)
        return rc;
    if (rc == 0 && contents_room(&c) < c.n_dues) {
        if (overflow_advice(
                run_fleet(p), &c, c.n_dues - contents_room(&c), text))
            rc = no_memory(f);
        else
            problems_add(
                ps, PROBLEM_WARNING, (struct place){0, 0}, "%s", buf_str(text));
    }
    contents_drop(&c);
    buf_free(text);
    return rc;
}

int
publish_warn(const struct run_context *p, struct problems *ps, struct fault *f)
{
    const struct fleet *fleet = run_fleet(p);

    if (fleet->n_feeds == 0)
        return 0;
    const struct snapshot *s = dues_of_run(p, f);
    int rc = s ? 0 : -1;
    for (size_t i = 0; i < fleet->n_feeds && rc == 0; i++)
        rc = warn_full(p, s, &fleet->feeds[i], ps, f);
    return rc;
}

const struct feed *
publish_find(const struct run_context *p, const char *id)
{
    const struct fleet *fleet = run_fleet(p);

    for (size_t i = 0; i < fleet->n_feeds; i++)
        if (strcasecmp(fleet->feeds[i].id, id) == 0)
            return &fleet->feeds[i];
    return NULL;
}

int
publish_modified(const struct run_context *p, const struct feed *feed,
    const char *bytes, size_t len, int64_t *out, struct fault *f)
{
    struct sha256_ctx sha;
    unsigned char hash[EVENT_VERSION_HASH];
    struct event_version stamp;

    sha256_init(&sha);
    sha256_update(&sha, len, (const uint8_t *)bytes);
    sha256_digest(&sha, EVENT_VERSION_HASH, hash);
    /* The feed as a whole is stamped like its events, none of which has this
     * for its UID. */
    if (event_version_next(run_ledger(p),
            &(struct event_version_of){feed->id, "the feed", hash},
            run_moment(p).now, &stamp, f))
        return -1;
    *out = stamp.modified;
    return 0;
}
