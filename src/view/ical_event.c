#include "ical_event.h"

#include "buf.h"
#include "ical_text.h"
#include "refold.h"
#include "step.h"

#include <stdio.h>
#include <string.h>

/*
 * The lines are written here and read back by libical before they go out: a
 * component of libical takes twice the time, most of it to escape a text octet
 * by octet.
 */

#define RING_HOUR 9

static const char *const names[] = {
    [FEED_EVENTS] = "VEVENT", [FEED_TODOS] = "VTODO"};

size_t
ical_event_opening(enum feed_form form)
{
    return strlen("BEGIN:\r\nUID:\r\n") + strlen(names[form]) + ICAL_UID_TEXT -
           1;
}

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
void
ical_event_day(day_t day, struct buf *out)
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
    refold_line(name, buf_str(c->escaped), out);
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
    int open = item->kind == ICAL_DUE || item->kind == ICAL_END;

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

int
ical_event(struct ical *c, const struct ical_item *item, const char *uid,
    struct buf *out)
{
    enum feed_form form = c->feed->form;
    day_t day = ical_day(item);

    add_line(out, "BEGIN:", names[form]);
    add_line(out, "UID:", uid);
    if (day != DAY_NONE && form == FEED_EVENTS)
        ical_event_day(day, out);
    else if (day != DAY_NONE && item->kind != ICAL_DONE)
        add_day(out, "DUE", day);
    add_text(out, c, "SUMMARY:", c->summary);
    add_text(out, c, "DESCRIPTION:", c->description);
    refold_line("CATEGORIES:", buf_str(c->categories), out);
    if (form == FEED_EVENTS)
        add_event_status(out, item);
    else
        add_todo_status(out, item);
    if (c->feed->url != NULL)
        refold_line("URL:", c->feed->url, out);
    add_alarm(out, c, item);
    add_line(out, "END:", names[form]);
    return buf_failed(out) || buf_failed(c->escaped) ? -1 : 0;
}
