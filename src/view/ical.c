#include "ical.h"

#include "buf.h"
#include "ical_event.h"
#include "ical_text.h"
#include "refold.h"
#include "select.h"

#include <stdlib.h>
#include <string.h>
#include <uuid/uuid.h>

#define CALENDAR_END "END:VCALENDAR\r\n"

/* The namespace of all our UIDs: a random UUID, drawn once. */
static const uuid_t ours = {0x46, 0x71, 0x71, 0xcb, 0xf2, 0x08, 0x40, 0xce,
    0x86, 0xdd, 0x51, 0xa5, 0x39, 0xe4, 0xc4, 0xec};

/*
 * Name @names, which ends with NULL, one inside the other.  Hashing each with
 * the UUID of those before it keeps "ab" "c" apart from "a" "bc".
 */
static void
name_uid(const char *const *names, char out[ICAL_UID_TEXT])
{
    uuid_t at, within;

    uuid_copy(at, ours);
    for (; *names != NULL; names++) {
        uuid_copy(within, at);
        uuid_generate_sha1(at, within, *names, strlen(*names));
    }
    uuid_unparse_lower(at, out);
}

void
ical_uid(const char *site, const struct due *d, char out[ICAL_UID_TEXT])
{
    char cycle[CYCLE_TEXT];

    name_uid((const char *[]){"due", site, d->task->subject->id,
                 d->task->job->id, due_cycle_text(&d->cycle, cycle), NULL},
        out);
}

void
ical_empty_uid(const char *site, const char *feed, char out[ICAL_UID_TEXT])
{
    name_uid((const char *[]){"empty feed", site, feed, NULL}, out);
}

int
ical_has_event(const struct due *d)
{
    return select_day(d) != DAY_NONE;
}

int
ical_content(const char *site, const struct due *d, struct buf *out)
{
    return ical_event_due(site, d, NULL, out);
}

int
ical_empty_content(const char *site, const char *feed, struct buf *out)
{
    return ical_event_empty(site, feed, NULL, out);
}

/* A due's place among the events. */
struct entry {
    day_t day;
    char uid[ICAL_UID_TEXT];
    const struct due *due;
    const struct ical_stamp *stamp;
};

static int
compare(const void *a, const void *b)
{
    const struct entry *x = a;
    const struct entry *y = b;

    if (x->day != y->day)
        return x->day < y->day ? -1 : 1;
    return strcmp(x->uid, y->uid);
}

static size_t
list_entries(const struct ical_feed *feed, const struct ical_stamp *stamps,
    struct entry *entries)
{
    size_t n = 0;

    for (size_t i = 0; i < feed->n; i++) {
        const struct due *d = feed->dues[i];
        if (!ical_has_event(d))
            continue;
        struct entry *e = &entries[n++];
        e->day = select_day(d);
        ical_uid(feed->site, d, e->uid);
        e->due = d;
        e->stamp = &stamps[i];
    }
    qsort(entries, n, sizeof *entries, compare);
    return n;
}

size_t
ical_events(const struct ical_feed *feed)
{
    size_t n = 0;

    for (size_t i = 0; i < feed->n; i++)
        n += ical_has_event(feed->dues[i]) != 0;
    return n ? n : 1;
}

static int
write_events(const struct ical_feed *feed, const struct ical_stamp *stamps,
    struct buf *out)
{
    struct entry *entries = calloc(feed->n + 1, sizeof *entries);
    int rc = 0;

    if (entries == NULL)
        return -1;
    size_t n = list_entries(feed, stamps, entries);
    for (size_t i = 0; i < n && rc == 0; i++)
        rc = ical_event_due(feed->site, entries[i].due, entries[i].stamp, out);
    if (n == 0)
        rc = ical_event_empty(feed->site, feed->id, &stamps[feed->n], out);
    free(entries);
    return rc;
}

static int
fill(icalcomponent *c, const char *name)
{
    struct icaldurationtype six_hours = {.hours = 6};

    if (ical_add(c, icalproperty_new_version("2.0")) ||
        ical_add(c, icalproperty_new_prodid("-//ostler//due dates//EN")) ||
        ical_add(c, icalproperty_new_calscale("GREGORIAN")) ||
        ical_add(c, icalproperty_new_name(name)) ||
        ical_add_x(c, "X-WR-CALNAME", name) ||
        ical_add(c, icalproperty_new_refreshinterval(six_hours)))
        return -1;
    return ical_add_x(c, "X-PUBLISHED-TTL", "PT6H");
}

/* The calendar without any event, from BEGIN to END, or NULL. */
static char *
empty_calendar(const char *name)
{
    char *text = NULL;
    icalcomponent *c;

    ical_start();
    c = icalcomponent_new(ICAL_VCALENDAR_COMPONENT);
    if (c != NULL && fill(c, name) == 0)
        text = icalcomponent_as_ical_string_r(c);
    if (c != NULL)
        icalcomponent_free(c);
    if (ical_finish(text) == 0)
        return text;
    free(text);
    return NULL;
}

/* All but the last line of the calendar. */
static int
write_calendar(const char *title, struct buf *out)
{
    int rc = -1;
    char *text = NULL;
    struct buf *name = buf_new();

    if (name == NULL)
        return -1;
    ical_calendar_name(title, name);
    if (!buf_failed(name))
        text = empty_calendar(buf_str(name));
    if (text != NULL) {
        text[strlen(text) - strlen(CALENDAR_END)] = '\0';
        refold(text, out);
        rc = 0;
    }
    free(text);
    buf_free(name);
    return rc;
}

int
ical_render(const struct ical_feed *feed, const struct ical_stamp *stamps,
    struct buf *out)
{
    /* The events are made one at a time and go in before the end. */
    if (write_calendar(feed->title, out) || write_events(feed, stamps, out))
        return -1;
    buf_text(out, CALENDAR_END);
    return buf_failed(out) ? -1 : 0;
}
