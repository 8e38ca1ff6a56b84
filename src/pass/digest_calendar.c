#include "digest_calendar.h"

#include "ical.h"

#include <stdlib.h>
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
render(const struct ical_feed *feed, const struct ical_stamp *stamps,
    struct buf *whole, struct fault *f)
{
    if (ical_render(feed, stamps, whole) || buf_failed(whole))
        return fault_set(f, EX_OSERR, "out of memory");
    return ical_check(buf_str(whole), buf_len(whole), ical_events(feed), f);
}

static int
any_event(const struct due *const *dues, size_t n)
{
    for (size_t i = 0; i < n; i++)
        if (ical_has_event(dues[i]))
            return 1;
    return 0;
}

int
digest_calendar(const struct pass *p, const struct due *const *dues, size_t n,
    struct buf *out, struct fault *f)
{
    struct ical_feed feed = {
        .site = pass_fleet(p)->site.name,
        .id = "",
        .title = pass_fleet(p)->site.name, /* which is left out */
        .dues = dues,
        .n = n,
    };
    int rc = -1;

    if (!any_event(dues, n))
        return 0;
    struct ical_stamp *stamps = calloc(n + 1, sizeof *stamps);
    struct buf *whole = buf_new();
    for (size_t i = 0; stamps != NULL && i <= n; i++)
        stamps[i].modified = pass_moment(p).now;
    if (stamps == NULL || whole == NULL)
        fault_fill(f, EX_OSERR, "out of memory");
    else
        rc = render(&feed, stamps, whole, f);
    if (rc == 0)
        add_events(buf_str(whole), out);
    buf_free(whole);
    free(stamps);
    return rc;
}
