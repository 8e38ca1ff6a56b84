#include "holiday_file.h"

#include "files.h"
#include "reader.h"
#include "source.h"

#include <libical/ical.h>
#include <stdlib.h>
#include <string.h>
#include <strings.h>

#define FILE_MOST ((size_t)4 << 20)

/* The longest event taken for a holiday, in days. */
#define EVENT_MOST 366

struct holiday_file {
    struct load_context *context;
    struct entry *entry;
    struct holidays *holidays;
    const char *path;
    day_t last;
    size_t read; /* events, and lines of them that decide their days */
};

/* What decides the days of an event. */
static const struct {
    const char *name;
    icalproperty_kind kind;
} deciding[] = {{"DTSTART", ICAL_DTSTART_PROPERTY},
    {"DTEND", ICAL_DTEND_PROPERTY}, {"DURATION", ICAL_DURATION_PROPERTY},
    {"STATUS", ICAL_STATUS_PROPERTY}, {"RRULE", ICAL_RRULE_PROPERTY},
    {"RDATE", ICAL_RDATE_PROPERTY}};

static int
begins(const char *line, const char *with)
{
    return strncasecmp(line, with, strlen(with)) == 0;
}

static size_t
deciding_line(const char *line)
{
    size_t n = 0;

    for (size_t i = 0; i < sizeof deciding / sizeof *deciding; i++)
        n += begins(line, deciding[i].name) &&
             strchr(";:", line[strlen(deciding[i].name)]) != NULL;
    return n;
}

/* How many events, and lines that decide their days, stand in the text. */
static size_t
count_lines(const char *bytes)
{
    int inside = 0; /* 1 in an event, more in what it holds */
    size_t n = 0;

    for (const char *line = bytes; line != NULL; line = strchr(line, '\n')) {
        line += *line == '\n';
        if (begins(line, "BEGIN:VEVENT") ||
            (inside > 0 && begins(line, "BEGIN:")))
            n += ++inside == 1;
        else if (inside > 0 && begins(line, "END:"))
            inside--;
        else if (inside == 1)
            n += deciding_line(line);
    }
    return n;
}

/* How many of them libical read of an event. */
static size_t
count_read(icalcomponent *event)
{
    size_t n = 1;

    for (size_t i = 0; i < sizeof deciding / sizeof *deciding; i++)
        n += (size_t)icalcomponent_count_properties(event, deciding[i].kind);
    return n;
}

static day_t
to_day(struct icaltimetype t)
{
    return icaltime_is_null_time(t) ? DAY_NONE : day_of(t.year, t.month, t.day);
}

static int
has(icalcomponent *event, icalproperty_kind kind)
{
    return icalcomponent_get_first_property(event, kind) != NULL;
}

/* What is wrong with an event, or NULL. */
static const char *
fault_of(icalcomponent *event, day_t first, day_t last)
{
    if (has(event, ICAL_XLICERROR_PROPERTY))
        return "has a line that cannot be read";
    if (has(event, ICAL_RRULE_PROPERTY) || has(event, ICAL_RDATE_PROPERTY))
        return "repeats, which is not read here; write it as a 'day' rule";
    if (first == DAY_NONE)
        return "has no day from 1900-01-01 to 2199-12-31";
    if (last == DAY_NONE || last < first || last - first >= EVENT_MOST)
        return "does not end within a year after it begins";
    return NULL;
}

/* The name of an event, as one line of text. */
static const char *
name_of(struct holiday_file *p, icalcomponent *event)
{
    char fault[READER_FAULT];
    const char *summary = icalcomponent_get_summary(event);

    if (summary == NULL || *summary == '\0')
        return "Holiday";
    char *name = context_copy(p->context, summary, strlen(summary));
    if (name == NULL)
        return "";
    for (char *c = name; (c = strpbrk(c, "\r\n\t")) != NULL;)
        *c = ' ';
    if (reader_check_text(name, strlen(name), fault))
        return NULL;
    return name;
}

/* An event that is cancelled is no holiday, and one with an hour is no whole
 * day.  What repeats would need rules of its own, so it is refused rather than
 * taken once. */
static void
add_event(struct holiday_file *p, icalcomponent *event)
{
    struct icaltimetype start = icalcomponent_get_dtstart(event);
    day_t first = to_day(start);
    day_t last = first;
    const char *name = name_of(p, event);

    p->read += count_read(event);
    if (icalcomponent_get_status(event) == ICAL_STATUS_CANCELLED)
        return;
    if (name == NULL) {
        context_refuse(p->context, p->entry, p->entry->place,
            "%s: an event on %04d-%02d-%02d has a name that is not UTF-8 text",
            p->path, start.year, start.month, start.day);
        return;
    }
    if (first != DAY_NONE && !start.is_date) {
        context_warning(p->context, p->entry->place,
            "'%s': %s: the event '%s' is not all day and is left out",
            p->entry->key, p->path, name);
        return;
    }
    if (has(event, ICAL_DTEND_PROPERTY) || has(event, ICAL_DURATION_PROPERTY))
        last = step_days(to_day(icalcomponent_get_dtend(event)), -1);
    const char *fault = fault_of(event, first, last);
    if (fault != NULL) {
        context_refuse(p->context, p->entry, p->entry->place,
            "%s: the event '%s' %s", p->path, name, fault);
        return;
    }
    for (day_t d = first; d <= last; d++)
        context_add_holiday(p->context, p->holidays, d, name);
    p->last = day_later(p->last, last);
}

/* The events of each calendar; several stand in a root without a name. */
static void
add_events(struct holiday_file *p, icalcomponent *c)
{
    icalcomponent *inner;

    if (icalcomponent_isa(c) == ICAL_XROOT_COMPONENT) {
        for (inner =
                 icalcomponent_get_first_component(c, ICAL_VCALENDAR_COMPONENT);
             inner != NULL; inner = icalcomponent_get_next_component(
                                c, ICAL_VCALENDAR_COMPONENT))
            add_events(p, inner);
        return;
    }
    for (inner = icalcomponent_get_first_component(c, ICAL_VEVENT_COMPONENT);
         inner != NULL;
         inner = icalcomponent_get_next_component(c, ICAL_VEVENT_COMPONENT))
        add_event(p, inner);
}

/* Nonzero when each component begins and ends.  A calendar that is cut short
 * libical would pass over, and one that ends before it begins too, which it
 * even says on stderr. */
static int
is_whole(const char *bytes)
{
    int depth = 0;

    if (strncmp(bytes, "\xef\xbb\xbf", 3) == 0) /* a byte order mark */
        bytes += 3;
    for (const char *line = bytes; line != NULL && depth >= 0;
         line = strchr(line, '\n')) {
        line += *line == '\n';
        if (strncasecmp(line, "BEGIN:", strlen("BEGIN:")) == 0)
            depth++;
        else if (strncasecmp(line, "END:", strlen("END:")) == 0)
            depth--;
    }
    return depth == 0;
}

/* libical reads almost anything, so a file without a single day is taken for
 * the wrong file.  Where it lacks memory it leaves events and lines out and
 * says nothing, so what it read is counted. */
static void
add_calendar(struct holiday_file *p, const char *bytes, size_t len)
{
    size_t had = p->holidays->set.n_added;
    size_t wrong = problems_count(p->context->problems, PROBLEM_ERROR);
    icalcomponent *c = strlen(bytes) == len && is_whole(bytes)
                           ? icalparser_parse_string(bytes)
                           : NULL;

    if (c == NULL) {
        context_refuse(p->context, p->entry, p->entry->place,
            "%s is not an iCalendar file; fetch it again or take it out",
            p->path);
        return;
    }
    add_events(p, c);
    icalcomponent_free(c);
    if (problems_count(p->context->problems, PROBLEM_ERROR) > wrong)
        return;
    if (p->holidays->set.n_added == had)
        context_refuse(p->context, p->entry, p->entry->place,
            "%s has no all-day event; is it the right file?", p->path);
    else if (p->read != count_lines(bytes))
        context_refuse(p->context, p->entry, p->entry->place,
            "%s could not be read whole, perhaps for want of memory; try again",
            p->path);
}

void
holiday_file_read(struct load_context *r, struct entry *e, struct holidays *h)
{
    const char *text = context_text(r, e);
    struct fault fault;
    size_t len;

    if (text == NULL)
        return;
    struct holiday_file p = {
        r, e, h, files_path(r->document, e->place.file, text), DAY_NONE, 0};
    if (p.path == NULL)
        return;
    /* It is one of the fleet's files, to whoever watches them. */
    (void)problems_file(r->problems, p.path);
    char *bytes = source_read(p.path, FILE_MOST, &len, &fault);
    if (bytes == NULL) {
        context_refuse(r, e, e->place, "%s %s", p.path, fault.text);
        return;
    }
    size_t had = h->set.n_added;
    add_calendar(&p, bytes, len);
    free(bytes);
    h->file = p.path;
    h->n_published = h->set.n_added - had;
    if (p.last != DAY_NONE)
        h->published_until = day_of(day_ymd(p.last).year, 12, 31);
}
