#include "digest_calendar.h"

#include "ical.h"

#include <sysexits.h>

static int
add_item(struct ical *c, const struct due *d, int64_t now, struct buf *content,
    struct buf *out)
{
    struct ical_item item = {.kind = ICAL_DUE, .due = d};
    struct ical_stamp stamp = {0, now};

    buf_clear(content);
    return ical_content(c, &item, content) ||
           ical_stamped(c, &item, content, &stamp, out);
}

/* Append the file, and count its events: those of the dues that have a day. */
static int
write_file(const struct ical_feed *feed, const struct due *const *dues,
    size_t n, int64_t now, struct buf *out, size_t *events)
{
    struct ical *c = ical_new(feed);
    struct buf *content = buf_new();
    int failed = c == NULL || content == NULL || ical_begin(c, out) != 0;

    *events = 0;
    for (size_t i = 0; i < n && !failed; i++)
        if (ical_due_day(dues[i]) != DAY_NONE) {
            failed = add_item(c, dues[i], now, content, out);
            ++*events;
        }
    if (!failed)
        ical_end(out);
    buf_free(content);
    ical_free(c);
    return failed || buf_failed(out) ? -1 : 0;
}

int
digest_calendar(const struct run_context *p, const struct due *const *dues,
    size_t n, struct buf *out, struct fault *f)
{
    const struct ical_feed feed = {
        .site = run_fleet(p)->site.name,
        .id = "mail",
        .form = FEED_EVENTS,
        .alarm = {-1, STEP_DAYS},
    };
    size_t events;

    buf_clear(out);
    if (write_file(&feed, dues, n, run_moment(p).now, out, &events))
        return fault_set(f, EX_OSERR, "out of memory");
    if (events == 0) {
        buf_clear(out);
        return 0;
    }
    return ical_check(buf_str(out), buf_len(out), &feed, events, f);
}
