#include "compose.h"

#include "atomic_file.h"
#include "buf.h"
#include "event_version.h"
#include "ical_back.h"

#include <nettle/sha2.h>
#include <sysexits.h>

/* Enough for the event that says where the feed ends, and for what comes after
 * it. */
#define LAST_BYTES 1500

#define DRAIN_BYTES 65536

/* What is at hand while a feed is written. */
struct composing {
    const struct run_context *run;
    const struct contents *c;
    struct ical *ical;
    struct buf *content; /* of one event */
    struct buf *out;
    struct atomic_file *file;
    size_t from;   /* where the feed begins in @out */
    size_t before; /* bytes of it that have gone to the file */
    struct composed *done;
};

static int
no_memory(struct fault *f)
{
    return fault_set(f, EX_OSERR, "out of memory");
}

static void
hash_content(const struct buf *content, unsigned char hash[EVENT_VERSION_HASH])
{
    struct sha256_ctx sha;

    sha256_init(&sha);
    sha256_update(&sha, buf_len(content), (const uint8_t *)buf_str(content));
    sha256_digest(&sha, EVENT_VERSION_HASH, hash);
}

/* The stamp that goes with what the item says now. */
static int
stamp(struct composing *w, const struct ical_item *item, struct ical_stamp *out,
    struct fault *f)
{
    char uid[ICAL_UID_TEXT];
    unsigned char hash[EVENT_VERSION_HASH];
    struct event_version kept;

    ical_uid(w->ical, item, uid);
    hash_content(w->content, hash);
    if (event_version_next(run_ledger(w->run),
            &(struct event_version_of){w->c->feed->id, uid, hash},
            run_moment(w->run).now, &kept, f))
        return -1;
    *out = (struct ical_stamp){kept.sequence, kept.modified};
    return 0;
}

/*
 * Some events only appear now and then, and are dated by their stamp.  While
 * one is not shown it says nothing, which is a change: when it is shown again,
 * its day is a new one.
 */
static int
stamp_absent(struct composing *w, enum ical_kind kind, struct fault *f)
{
    struct ical_stamp unused;

    buf_clear(w->content);
    return stamp(w, &(struct ical_item){.kind = kind}, &unused, f);
}

static void
drain(struct composing *w)
{
    if (w->file == NULL || buf_len(w->out) < DRAIN_BYTES)
        return;
    atomic_file_add(w->file, buf_str(w->out), buf_len(w->out));
    w->before += buf_len(w->out);
    buf_clear(w->out);
}

static int
fits(const struct composing *w)
{
    return w->before + buf_len(w->out) - w->from + buf_len(w->content) +
               LAST_BYTES <=
           (size_t)w->c->feed->most_kilobytes * 1000;
}

/* Add @item, unless it may be left out and has no room: 1, 0 or -1. */
static int
add_item(struct composing *w, const struct ical_item *item, int must,
    struct fault *f)
{
    struct ical_stamp when;

    buf_clear(w->content);
    if (ical_content(w->ical, item, w->content))
        return no_memory(f);
    if (!must && !fits(w))
        return 0;
    if (stamp(w, item, &when, f))
        return -1;
    if (ical_stamped(w->ical, item, w->content, &when, w->out))
        return no_memory(f);
    w->done->items++;
    drain(w);
    return 1;
}

/* However full the feed is: whether a vehicle may be driven goes before
 * dates. */
static int
add_defects(struct composing *w, struct fault *f)
{
    for (size_t i = 0; i < w->c->n_defects; i++) {
        struct ical_item item = contents_defect(w->run, w->c->defects[i]);
        if (add_item(w, &item, 1, f) < 0)
            return -1;
    }
    return 0;
}

/* The nearest dues first, and where some have no room, that it ends there. */
static int
add_dues(struct composing *w, struct fault *f)
{
    const struct contents *c = w->c;
    size_t room = contents_room(c);
    size_t n = 0;
    int rc = 1;

    for (; n < room && rc > 0; n += rc > 0)
        rc = add_item(w,
            &(struct ical_item){.kind = ICAL_DUE, .due = c->dues[n]},
            n < c->n_must, f);
    w->done->dues = n;
    w->done->left_out = c->n_dues - n;
    if (rc < 0 || n == c->n_dues)
        return rc < 0 ? -1 : 0;
    rc = add_item(w,
        &(struct ical_item){.kind = ICAL_END, .day = ical_due_day(c->dues[n])},
        1, f);
    return rc < 0 ? -1 : 0;
}

/* What is done has the room that is left, the newest first. */
static int
add_done(struct composing *w, struct fault *f)
{
    const struct contents *c = w->c;
    int rc = 1;

    for (size_t i = 0; i < c->n_done && rc > 0 &&
                       w->done->items < (size_t)c->feed->most_events;
         i++)
        rc = add_item(w,
            &(struct ical_item){.kind = ICAL_DONE, .proof = c->done[i]}, 0, f);
    return rc < 0 ? -1 : 0;
}

static int
add_all(struct composing *w, struct fault *f)
{
    if (ical_begin(w->ical, w->out))
        return no_memory(f);
    if (add_defects(w, f) || add_dues(w, f) || add_done(w, f))
        return -1;
    if (w->done->items == 0) {
        if (add_item(w, &(struct ical_item){.kind = ICAL_NOTHING}, 1, f) < 0)
            return -1;
    } else if (stamp_absent(w, ICAL_NOTHING, f)) {
        return -1;
    }
    ical_end(w->out);
    if (buf_failed(w->out))
        return no_memory(f);
    if (w->file != NULL)
        atomic_file_add(w->file, buf_str(w->out), buf_len(w->out));
    return 0;
}

/* All stamps of a feed are kept together, before its bytes go out. */
static int
add_in_group(struct composing *w, struct fault *f)
{
    struct ledger *l = run_ledger(w->run);

    if (ledger_begin(l, f))
        return -1;
    if (add_all(w, f) == 0)
        return ledger_commit(l, f);
    ledger_rollback(l);
    return -1;
}

int
compose_feed(const struct run_context *p, const struct contents *c,
    struct buf *out, struct atomic_file *file, struct composed *done,
    struct fault *f)
{
    struct composing w = {
        .run = p,
        .c = c,
        .ical = ical_new(&c->form),
        .content = buf_new(),
        .out = out,
        .file = file,
        .from = buf_len(out),
        .done = done,
    };

    *done = (struct composed){0};
    int rc = w.ical && w.content ? add_in_group(&w, f) : no_memory(f);
    buf_free(w.content);
    ical_free(w.ical);
    return rc;
}

static int
learn_all(const struct run_context *p, const struct feed *feed,
    struct ical_back *back, size_t *dues, struct fault *f)
{
    struct buf *content = buf_new();
    struct ical_seen seen;
    unsigned char hash[EVENT_VERSION_HASH];
    int rc = content ? 0 : no_memory(f);

    while (rc == 0 && ical_back_next(back, feed->form, &seen, content)) {
        *dues += seen.is_due != 0;
        hash_content(content, hash);
        rc = buf_failed(content)
                 ? no_memory(f)
                 : event_version_learn(run_ledger(p),
                       &(struct event_version_of){feed->id, seen.uid, hash},
                       &(struct event_version){
                           seen.stamp.sequence, seen.stamp.modified},
                       f);
    }
    buf_free(content);
    return rc;
}

int
compose_learn(const struct run_context *p, const struct feed *feed,
    const char *bytes, size_t len, size_t *dues, struct fault *f)
{
    struct ical_back back = {bytes, bytes + len};

    *dues = 0;
    if (ledger_begin(run_ledger(p), f))
        return -1;
    if (learn_all(p, feed, &back, dues, f) == 0)
        return ledger_commit(run_ledger(p), f);
    ledger_rollback(run_ledger(p));
    return -1;
}
