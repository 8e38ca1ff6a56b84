#include "digest_calendar.h"

#include "ical.h"

#include <string.h>
#include <sysexits.h>

/* What only a calendar to subscribe to has. */
static int
is_of_a_feed(const char *line)
{
    static const char *const names[] = {
        "NAME:", "X-WR-CALNAME:", "REFRESH-INTERVAL", "X-PUBLISHED-TTL"};

    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++)
        if (strncmp(line, names[i], strlen(names[i])) == 0)
            return 1;
    return 0;
}

/* Append the lines of @feed, those of a feed left out; a line goes on over
 * those that begin with a blank. */
static void
add_events(const char *feed, struct buf *out)
{
    const char *events = strstr(feed, "BEGIN:VEVENT");
    int left_out = 0;

    for (const char *end; feed < events; feed = end) {
        end = strstr(feed, "\r\n") + 2;
        if (*feed != ' ')
            left_out = is_of_a_feed(feed);
        if (!left_out)
            buf_add(out, feed, (size_t)(end - feed));
    }
    buf_text(out, feed);
}

static int
add_item(struct ical *c, const struct due *d, int64_t now, struct buf *content,
    struct buf *whole)
{
    struct ical_item item = {.kind = ICAL_DUE, .due = d};
    struct ical_stamp stamp = {0, now};

    buf_clear(content);
    return ical_content(c, &item, content) ||
           ical_stamped(c, &item, content, &stamp, whole);
}

static int
write_items(struct ical *c, const struct pass *p, const struct due *const *dues,
    size_t n, struct buf *whole)
{
    struct buf *content = buf_new();
    int failed = content == NULL || ical_begin(c, whole) != 0;

    for (size_t i = 0; i < n && !failed; i++)
        if (ical_due_day(dues[i]) != DAY_NONE)
            failed = add_item(c, dues[i], pass_moment(p).now, content, whole);
    if (!failed)
        ical_end(whole);
    buf_free(content);
    return failed || buf_failed(whole) ? -1 : 0;
}

static size_t
count_events(const struct due *const *dues, size_t n)
{
    size_t count = 0;

    for (size_t i = 0; i < n; i++)
        count += ical_due_day(dues[i]) != DAY_NONE;
    return count;
}

int
digest_calendar(const struct pass *p, const struct due *const *dues, size_t n,
    struct buf *out, struct fault *f)
{
    struct ical_feed feed = {
        .site = pass_fleet(p)->site.name,
        .id = "mail",
        .title = pass_fleet(p)->site.name, /* which is left out */
        .form = FEED_EVENTS,
        .alarm = {-1, STEP_DAYS},
    };
    size_t events = count_events(dues, n);
    int rc = -1;

    if (events == 0)
        return 0;
    struct buf *whole = buf_new();
    struct ical *c = ical_new(&feed);
    if (whole == NULL || c == NULL || write_items(c, p, dues, n, whole))
        fault_fill(f, EX_OSERR, "out of memory");
    else
        rc = ical_check(buf_str(whole), buf_len(whole), FEED_EVENTS, events, f);
    if (rc == 0)
        add_events(buf_str(whole), out);
    ical_free(c);
    buf_free(whole);
    return rc;
}
