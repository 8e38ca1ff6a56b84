#include "ical.h"

#include "buf.h"
#include "caution.h"
#include "ical_event.h"
#include "ical_text.h"
#include "refold.h"

#include <libical/ical.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <uuid/uuid.h>

#define CALENDAR_END "END:VCALENDAR\r\n"
#define SECONDS_A_DAY 86400
/* "20260301T041700Z" */
#define TIME_TEXT 24

/* The namespace of all our UIDs: a random UUID, drawn once. */
static const uuid_t ours = {0x46, 0x71, 0x71, 0xcb, 0xf2, 0x08, 0x40, 0xce,
    0x86, 0xdd, 0x51, 0xa5, 0x39, 0xe4, 0xc4, 0xec};

struct ical *
ical_new(const struct ical_feed *feed)
{
    struct ical *c = calloc(1, sizeof *c);

    if (c == NULL)
        return NULL;
    c->feed = feed;
    c->summary = buf_new();
    c->description = buf_new();
    c->categories = buf_new();
    c->escaped = buf_new();
    if (c->summary && c->description && c->categories && c->escaped)
        return c;
    ical_free(c);
    return NULL;
}

void
ical_free(struct ical *c)
{
    if (c == NULL)
        return;
    buf_free(c->escaped);
    buf_free(c->categories);
    buf_free(c->description);
    buf_free(c->summary);
    free(c);
}

/*
 * Put the name @name inside @at.  Hashing each with the UUID of those before
 * it keeps "ab" "c" apart from "a" "bc".
 */
static void
name_inside(uuid_t at, const char *name)
{
    uuid_t within;

    uuid_copy(within, at);
    uuid_generate_sha1(at, within, name, strlen(name));
}

/* To-dos and events of one due, or one completion, are two things. */
static const char *
sort_of_uid(enum ical_kind kind, enum feed_form form)
{
    if (kind == ICAL_DONE)
        return form == FEED_TODOS ? "done to-do" : "done";
    return form == FEED_TODOS ? "to-do" : "due";
}

/* The UUID of the subject; most items are of the same as the one before. */
static void
uuid_of_subject(struct ical *c, const struct subject *s, enum ical_kind kind)
{
    if (c->subject == s && c->kind == kind)
        return;
    uuid_copy(c->uuid, ours);
    name_inside(c->uuid, sort_of_uid(kind, c->feed->form));
    name_inside(c->uuid, c->feed->site);
    name_inside(c->uuid, s->id);
    c->subject = s;
    c->kind = kind;
}

static void
uuid_of_task(struct ical *c, const struct ical_item *item, uuid_t out)
{
    char cycle[CYCLE_TEXT];
    char day[DAY_TEXT];
    const struct task *t =
        item->kind == ICAL_DONE ? item->proof->task : item->due->task;

    uuid_of_subject(c, t->subject, item->kind);
    uuid_copy(out, c->uuid);
    name_inside(out, t->job->id);
    name_inside(out, item->kind == ICAL_DONE
                         ? day_text(item->proof->done, day)
                         : due_cycle_text(&item->due->cycle, cycle));
}

void
ical_uid(struct ical *c, const struct ical_item *item, char out[ICAL_UID_TEXT])
{
    uuid_t uuid;

    uuid_copy(uuid, ours);
    if (item->kind == ICAL_DUE || item->kind == ICAL_DONE) {
        uuid_of_task(c, item, uuid);
    } else {
        name_inside(
            uuid, item->kind == ICAL_END ? "end of feed" : "empty feed");
        name_inside(uuid, c->feed->site);
        name_inside(uuid, c->feed->id);
    }
    uuid_unparse_lower(uuid, out);
}

static int
put_words(struct ical *c, const struct ical_item *item)
{
    buf_clear(c->summary);
    buf_clear(c->description);
    buf_clear(c->categories);
    ical_summary(item, c->summary);
    ical_description(item, c->description);
    ical_categories(item, c->categories);
    return buf_failed(c->summary) || buf_failed(c->description) ||
                   buf_failed(c->categories)
               ? -1
               : 0;
}

/* Append @text with its NUL, which is in no text and so keeps them apart. */
static void
add_part(struct buf *out, const char *text)
{
    buf_add(out, text, strlen(text) + 1);
}

int
ical_outline(struct ical *c, const struct ical_item *item, struct buf *out)
{
    int64_t numbers[5] = {ical_day(item)};

    if (put_words(c, item))
        return -1;
    if (item->kind == ICAL_DUE) {
        const struct cycle *cycle = &item->due->cycle;
        add_part(out, item->due->task->job->id);
        numbers[1] = cycle->record;
        numbers[2] = cycle->start;
        numbers[3] = cycle->ahead;
        numbers[4] = ical_is_tentative(item->due);
    } else if (item->kind == ICAL_DONE) {
        add_part(out, item->proof->task->job->id);
    }
    buf_add(out, numbers, sizeof numbers);
    add_part(out, buf_str(c->summary));
    add_part(out, buf_str(c->description));
    add_part(out, buf_str(c->categories));
    return buf_failed(out) ? -1 : 0;
}

int
ical_content(struct ical *c, const struct ical_item *item, struct buf *out)
{
    char uid[ICAL_UID_TEXT];

    if (put_words(c, item))
        return -1;
    buf_text(c->description, CAUTION_TEXT);
    if (buf_failed(c->description))
        return -1;
    ical_uid(c, item, uid);
    return ical_event(c, item, uid, out);
}

static void
add_stamp(const struct ical_stamp *stamp, struct buf *out)
{
    int64_t day = stamp->modified / SECONDS_A_DAY;
    int64_t second = stamp->modified % SECONDS_A_DAY;
    struct ymd t = day_ymd((day_t)day);
    char when[TIME_TEXT];

    snprintf(when, sizeof when, "%04d%02d%02dT%02d%02d%02dZ", t.year, t.month,
        t.day, (int)(second / 3600), (int)(second / 60 % 60),
        (int)(second % 60));
    buf_print(out, "DTSTAMP:%s\r\nLAST-MODIFIED:%s\r\nSEQUENCE:%lld\r\n", when,
        when, (long long)stamp->sequence);
}

int
ical_stamped(struct ical *c, const struct ical_item *item,
    const struct buf *content, const struct ical_stamp *stamp, struct buf *out)
{
    size_t opening = ical_event_opening(c->feed->form);

    buf_add(out, buf_str(content), opening);
    add_stamp(stamp, out);
    if (ical_day(item) == DAY_NONE && c->feed->form == FEED_EVENTS)
        ical_event_day((day_t)(stamp->modified / SECONDS_A_DAY), out);
    buf_add(out, buf_str(content) + opening, buf_len(content) - opening);
    return buf_failed(out) ? -1 : 0;
}

static int
add(icalcomponent *c, icalproperty *p)
{
    if (p == NULL)
        return -1;
    icalcomponent_add_property(c, p);
    return 0;
}

static int
add_x(icalcomponent *c, const char *name, const char *value)
{
    icalproperty *p = icalproperty_new_x(value);

    if (p != NULL)
        icalproperty_set_x_name(p, name);
    return add(c, p);
}

static int
fill(icalcomponent *c, const char *name)
{
    struct icaldurationtype six_hours = {.hours = 6};

    if (add(c, icalproperty_new_version("2.0")) ||
        add(c, icalproperty_new_prodid("-//ostler//due dates//EN")) ||
        add(c, icalproperty_new_calscale("GREGORIAN")) ||
        add(c, icalproperty_new_name(name)) || add_x(c, "X-WR-CALNAME", name) ||
        add(c, icalproperty_new_refreshinterval(six_hours)))
        return -1;
    return add_x(c, "X-PUBLISHED-TTL", "PT6H");
}

/* The calendar without any event, from BEGIN to END, or NULL. */
static char *
empty_calendar(const char *name)
{
    char *text = NULL;
    icalcomponent *c;

    icalerror_clear_errno();
    c = icalcomponent_new(ICAL_VCALENDAR_COMPONENT);
    if (c != NULL && fill(c, name) == 0)
        text = icalcomponent_as_ical_string_r(c);
    if (c != NULL)
        icalcomponent_free(c);
    if (icalerrno == ICAL_NO_ERROR)
        return text;
    free(text);
    return NULL;
}

int
ical_begin(struct ical *c, struct buf *out)
{
    struct buf *name = c->summary;
    char *text = NULL;

    buf_clear(name);
    ical_calendar_name(c->feed->title, name);
    if (!buf_failed(name))
        text = empty_calendar(buf_str(name));
    if (text == NULL)
        return -1;
    /* The events are made one at a time and go in before the end. */
    text[strlen(text) - strlen(CALENDAR_END)] = '\0';
    refold(text, out);
    free(text);
    return buf_failed(out) ? -1 : 0;
}

void
ical_end(struct buf *out)
{
    buf_text(out, CALENDAR_END);
}
