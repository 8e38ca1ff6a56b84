#include "ical.h"

#include "buf.h"
#include "caution.h"
#include "fold.h"
#include "step.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <uuid/uuid.h>

#define SECONDS_A_DAY 86400
/* "20260301T041700Z" */
#define TIME_TEXT 24

#define RING_HOUR 9

/*
 * The lines are written here, and read back by libical before they go out
 * (ical_check.c).  To build a component of libical for each item takes twice
 * the time, most of it to escape a text octet by octet; and libical 3.0.16
 * folds some lines in a way that readers stumble over.
 */

/* What is at hand while the items of a feed are written. */
struct ical {
    const struct ical_feed *feed;
    struct buf *summary; /* the words of the item at hand */
    struct buf *description;
    struct buf *categories;
    struct buf *escaped;           /* the value of the line at hand */
    const struct subject *subject; /* whose UUID is kept below */
    enum ical_kind kind;
    uuid_t uuid;
};

static const char *const names[] = {
    [FEED_EVENTS] = "VEVENT", [FEED_TODOS] = "VTODO"};

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
    if (kind == ICAL_DEFECT)
        return form == FEED_TODOS ? "defect to-do" : "defect";
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

static void
uuid_of_defect(struct ical *c, const struct defect *d, uuid_t out)
{
    char number[24];

    snprintf(number, sizeof number, "%lld", (long long)d->number);
    uuid_of_subject(c, d->subject, ICAL_DEFECT);
    uuid_copy(out, c->uuid);
    name_inside(out, number);
}

void
ical_uid(struct ical *c, const struct ical_item *item, char out[ICAL_UID_TEXT])
{
    uuid_t uuid;

    uuid_copy(uuid, ours);
    if (item->kind == ICAL_DUE || item->kind == ICAL_DONE) {
        uuid_of_task(c, item, uuid);
    } else if (item->kind == ICAL_DEFECT) {
        uuid_of_defect(c, item->defect, uuid);
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
    } else if (item->kind == ICAL_DEFECT) {
        add_part(out, item->defect->subject_id);
        numbers[1] = item->defect->number;
        numbers[2] = item->stops;
    }
    buf_add(out, numbers, sizeof numbers);
    add_part(out, buf_str(c->summary));
    add_part(out, buf_str(c->description));
    add_part(out, buf_str(c->categories));
    return buf_failed(out) ? -1 : 0;
}

/* --- Lines -----------------------------------------------------------------
 */

/* Append @text after @name, which ends with ":". */
static void
add_line(struct buf *out, const char *name, const char *text)
{
    buf_text(out, name);
    buf_text(out, text);
    buf_text(out, "\r\n");
}

static void
add_day(struct buf *out, const char *name, day_t day)
{
    char text[DAY_TEXT];

    day_text(day, text);
    buf_text(out, name);
    buf_text(out, ";VALUE=DATE:");
    buf_add(out, text, 4);
    buf_add(out, text + 5, 2);
    buf_add(out, text + 8, 2);
    buf_text(out, "\r\n");
}

/* DTEND is the day after (RFC 5545, 3.6.1); that of the last day we know is one
 * that we do not. */
static void
add_one_day(day_t day, struct buf *out)
{
    add_day(out, "DTSTART", day);
    if (day < DAY_LAST)
        add_day(out, "DTEND", day + 1);
    else
        add_line(out, "DTEND;VALUE=DATE:", "22000101");
}

/* Append clean words as a value of the type TEXT (RFC 5545, 3.3.11). */
static void
escape(struct buf *out, const char *words)
{
    for (;;) {
        size_t n = strcspn(words, "\\,;\n");
        buf_add(out, words, n);
        words += n;
        if (*words == '\0')
            return;
        buf_add(out, "\\", 1);
        buf_add(out, *words == '\n' ? "n" : words, 1);
        words++;
    }
}

/* Append @words after @name, which ends with ":", escaped and folded. */
static void
add_text(
    struct buf *out, struct ical *c, const char *name, const struct buf *words)
{
    buf_clear(c->escaped);
    escape(c->escaped, buf_str(words));
    fold_line(name, buf_str(c->escaped), out);
}

/* So many whole days before @day, at nine in the morning. */
static void
add_trigger(struct buf *out, enum feed_form form, int days)
{
    const char *name = form == FEED_TODOS ? "TRIGGER;RELATED=END" : "TRIGGER";

    if (days <= 0)
        buf_print(out, "%s:PT%dH\r\n", name, RING_HOUR);
    else if (days == 1)
        buf_print(out, "%s:-PT%dH\r\n", name, 24 - RING_HOUR);
    else
        buf_print(out, "%s:-P%dDT%dH\r\n", name, days - 1, 24 - RING_HOUR);
}

/* What failed or is overdue has rung. */
static void
add_alarm(struct buf *out, struct ical *c, const struct ical_item *item)
{
    const struct ical_feed *feed = c->feed;
    day_t day = ical_day(item);

    if (feed->alarm.n < 0 || item->kind != ICAL_DUE || day == DAY_NONE ||
        item->due->state == DUE_FAILED || item->due->state == DUE_OVERDUE)
        return;
    day_t rings = step_span(day, feed->alarm, -1, MONTH_END_CLAMP);
    if (rings == DAY_NONE)
        return;
    buf_text(out, "BEGIN:VALARM\r\nACTION:DISPLAY\r\n");
    add_text(out, c, "DESCRIPTION:", c->summary);
    add_trigger(out, feed->form, day - rings);
    buf_text(out, "END:VALARM\r\n");
}

/* A to-do that is done was so at noon, which is that day wherever it is read:
 * COMPLETED takes a time and no date. */
static void
add_completed(struct buf *out, day_t day)
{
    struct ymd t = day_ymd(day);

    buf_print(out, "COMPLETED:%04d%02d%02dT120000Z\r\nPERCENT-COMPLETE:100\r\n",
        t.year, t.month, t.day);
}

static void
add_todo_status(struct buf *out, const struct ical_item *item)
{
    int open = item->kind == ICAL_DUE || item->kind == ICAL_DEFECT ||
               item->kind == ICAL_END;

    add_line(out, "STATUS:", open ? "NEEDS-ACTION" : "COMPLETED");
    if (item->kind == ICAL_DONE)
        add_completed(out, item->proof->done);
}

static void
add_event_status(struct buf *out, const struct ical_item *item)
{
    int open = item->kind == ICAL_DUE && ical_is_tentative(item->due);

    add_line(out, "STATUS:", open ? "TENTATIVE" : "CONFIRMED");
    buf_text(out, "TRANSP:TRANSPARENT\r\n"
                  "X-MICROSOFT-CDO-BUSYSTATUS:FREE\r\n");
}

/* --- Items -----------------------------------------------------------------
 */

int
ical_content(struct ical *c, const struct ical_item *item, struct buf *out)
{
    enum feed_form form = c->feed->form;
    day_t day = ical_day(item);
    char uid[ICAL_UID_TEXT];

    if (put_words(c, item))
        return -1;
    buf_text(c->description, CAUTION_TEXT);
    if (buf_failed(c->description))
        return -1;
    ical_uid(c, item, uid);

    add_line(out, "BEGIN:", names[form]);
    add_line(out, "UID:", uid);
    if (day != DAY_NONE && form == FEED_EVENTS)
        add_one_day(day, out);
    else if (day != DAY_NONE && item->kind != ICAL_DONE)
        add_day(out, "DUE", day);
    add_text(out, c, "SUMMARY:", c->summary);
    add_text(out, c, "DESCRIPTION:", c->description);
    fold_line("CATEGORIES:", buf_str(c->categories), out);
    if (form == FEED_EVENTS)
        add_event_status(out, item);
    else
        add_todo_status(out, item);
    if (c->feed->url != NULL)
        fold_line("URL:", c->feed->url, out);
    add_alarm(out, c, item);
    add_line(out, "END:", names[form]);
    return buf_failed(out) || buf_failed(c->escaped) ? -1 : 0;
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
    /* The first two lines, after which the stamp belongs. */
    size_t opening = strlen("BEGIN:\r\nUID:\r\n") +
                     strlen(names[c->feed->form]) + ICAL_UID_TEXT - 1;

    buf_add(out, buf_str(content), opening);
    add_stamp(stamp, out);
    if (ical_day(item) == DAY_NONE && c->feed->form == FEED_EVENTS)
        add_one_day((day_t)(stamp->modified / SECONDS_A_DAY), out);
    buf_add(out, buf_str(content) + opening, buf_len(content) - opening);
    return buf_failed(out) ? -1 : 0;
}

int
ical_begin(struct ical *c, struct buf *out)
{
    buf_text(out, "BEGIN:VCALENDAR\r\nVERSION:2.0\r\n"
                  "PRODID:-//ostler//due dates//EN\r\n"
                  "CALSCALE:GREGORIAN\r\n");
    if (c->feed->title != NULL) {
        struct buf *name = c->summary;
        buf_clear(name);
        ical_calendar_name(c->feed->title, name);
        if (buf_failed(name))
            return -1;
        /* NAME is of RFC 7986, and so is the interval; older readers know the
         * two that begin with X. */
        fold_line("NAME:", buf_str(name), out);
        fold_line("X-WR-CALNAME:", buf_str(name), out);
        buf_text(out, "REFRESH-INTERVAL;VALUE=DURATION:PT6H\r\n"
                      "X-PUBLISHED-TTL:PT6H\r\n");
    }
    return buf_failed(out) ? -1 : 0;
}

void
ical_end(struct buf *out)
{
    buf_text(out, "END:VCALENDAR\r\n");
}
