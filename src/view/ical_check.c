#include "buf.h"
#include "ical_back.h"

#include <glib.h>
#include <libical/ical.h>
#include <stdlib.h>
#include <string.h>
#include <sysexits.h>

#define LINE_OCTETS 75

/* Nonzero when the @len bytes before a CRLF are a line as it should be. */
static int
line_fits(const char *line, size_t len)
{
    return len <= LINE_OCTETS && memchr(line, '\r', len) == NULL &&
           g_utf8_validate_len(line, len, NULL);
}

static int
check_lines(const char *bytes, size_t len, struct fault *f)
{
    const char *end = bytes + len;

    for (size_t line = 1; bytes < end; line++) {
        const char *lf = memchr(bytes, '\n', (size_t)(end - bytes));
        if (lf == NULL || lf == bytes || lf[-1] != '\r')
            return fault_set(
                f, EX_SOFTWARE, "line %zu does not end with CRLF", line);
        if (!line_fits(bytes, (size_t)(lf - 1 - bytes)))
            return fault_set(f, EX_SOFTWARE,
                "line %zu is not UTF-8 of at most 75 octets", line);
        bytes = lf + 1;
    }
    return 0;
}

/* Nonzero when @c has each of @kinds, which ends with ICAL_NO_PROPERTY, once.
 */
static int
has_once(icalcomponent *c, const icalproperty_kind *kinds)
{
    for (; *kinds != ICAL_NO_PROPERTY; kinds++)
        if (icalcomponent_count_properties(c, *kinds) != 1)
            return 0;
    return 1;
}

static int
is_one_day(icalcomponent *event)
{
    struct icaltimetype start = icalcomponent_get_dtstart(event);
    struct icaltimetype end = icalcomponent_get_dtend(event);

    if (!icaltime_is_date(start) || !icaltime_is_date(end))
        return 0;
    icaltime_adjust(&start, 1, 0, 0, 0);
    return icaltime_compare(start, end) == 0;
}

static int
is_well_dated(icalcomponent *c, enum feed_form form)
{
    static const icalproperty_kind of_event[] = {ICAL_DTSTART_PROPERTY,
        ICAL_DTEND_PROPERTY, ICAL_TRANSP_PROPERTY, ICAL_NO_PROPERTY};

    if (form == FEED_EVENTS)
        return has_once(c, of_event);
    return icalcomponent_count_properties(c, ICAL_DUE_PROPERTY) <= 1;
}

/* Check one event or to-do, with its UID. */
static int
check_component(
    icalcomponent *c, const char *uid, enum feed_form form, struct fault *f)
{
    static const icalproperty_kind required[] = {ICAL_UID_PROPERTY,
        ICAL_DTSTAMP_PROPERTY, ICAL_LASTMODIFIED_PROPERTY,
        ICAL_SEQUENCE_PROPERTY, ICAL_SUMMARY_PROPERTY,
        ICAL_DESCRIPTION_PROPERTY, ICAL_STATUS_PROPERTY, ICAL_NO_PROPERTY};

    if (c == NULL || icalcomponent_count_errors(c) != 0)
        return fault_set(f, EX_SOFTWARE, "event %s has lines that do not read",
            uid ? uid : "without UID");
    if (uid == NULL || !has_once(c, required) || !is_well_dated(c, form))
        return fault_set(f, EX_SOFTWARE,
            "event %s has a property too many or too few",
            uid ? uid : "without UID");
    if (form == FEED_EVENTS && !is_one_day(c))
        return fault_set(f, EX_SOFTWARE, "event %s is not one day long", uid);
    return 0;
}

/* Check what is read of one part, and keep its UID. */
static int
check_part(const struct ical_seen *s, enum feed_form form, struct buf *text,
    char uid[ICAL_UID_TEXT], struct fault *f)
{
    buf_clear(text);
    buf_add(text, s->text, s->len);
    if (buf_failed(text))
        return fault_set(f, EX_OSERR, "out of memory");
    icalcomponent *c = icalparser_parse_string(buf_str(text));
    const char *found = c ? icalcomponent_get_uid(c) : NULL;
    int rc = check_component(c, found, form, f);
    if (rc == 0 && found != NULL) {
        if (strlen(found) != ICAL_UID_TEXT - 1)
            rc = fault_set(f, EX_SOFTWARE, "the UID %.80s is not ours", found);
        else
            memcpy(uid, found, ICAL_UID_TEXT);
    }
    if (c != NULL)
        icalcomponent_free(c);
    return rc;
}

static int
compare_uids(const void *a, const void *b)
{
    return strcmp(a, b);
}

static int
check_unique(char (*uids)[ICAL_UID_TEXT], size_t n, struct fault *f)
{
    qsort(uids, n, sizeof *uids, compare_uids);
    for (size_t i = 1; i < n; i++)
        if (strcmp(uids[i - 1], uids[i]) == 0)
            return fault_set(
                f, EX_SOFTWARE, "two events have the UID %s", uids[i]);
    return 0;
}

/*
 * Check the parts of @bytes one by one; what stands outside them is appended
 * to @around, which the calendar is checked by.  @uids has room for @n_items.
 */
static int
check_parts(struct ical_back *back, enum feed_form form, size_t n_items,
    char (*uids)[ICAL_UID_TEXT], struct buf *around, struct fault *f)
{
    struct buf *text = buf_new();
    struct ical_seen s;
    size_t n = 0;
    int rc = 0;

    if (text == NULL)
        return fault_set(f, EX_OSERR, "out of memory");
    while (rc == 0) {
        const char *before = back->at;
        if (!ical_back_part(back, form, &s))
            break;
        buf_add(around, before, (size_t)(s.text - before));
        if (n++ < n_items)
            rc = check_part(&s, form, text, uids[n - 1], f);
    }
    buf_add(around, back->at, (size_t)(back->end - back->at));
    buf_free(text);
    if (rc == 0 && n != n_items)
        rc = fault_set(
            f, EX_SOFTWARE, "there are %zu events and not %zu", n, n_items);
    return rc ? -1 : check_unique(uids, n, f);
}

/* @around is the calendar without its events and to-dos. */
static int
check_calendar(
    const struct buf *around, const struct ical_feed *feed, struct fault *f)
{
    static const icalproperty_kind required[] = {ICAL_PRODID_PROPERTY,
        ICAL_VERSION_PROPERTY, ICAL_CALSCALE_PROPERTY, ICAL_NO_PROPERTY};
    static const icalproperty_kind of_a_name[] = {
        ICAL_NAME_PROPERTY, ICAL_REFRESHINTERVAL_PROPERTY, ICAL_NO_PROPERTY};
    icalcomponent *c = icalparser_parse_string(buf_str(around));
    int rc = 0;

    if (c == NULL || icalcomponent_isa(c) != ICAL_VCALENDAR_COMPONENT)
        rc = fault_set(f, EX_SOFTWARE, "it does not read as one calendar");
    else if (icalcomponent_count_errors(c) != 0)
        rc = fault_set(f, EX_SOFTWARE, "it has lines that do not read");
    else if (icalcomponent_count_components(c, ICAL_ANY_COMPONENT) != 0)
        rc = fault_set(f, EX_SOFTWARE, "it has more in it than events");
    else if (!has_once(c, required) ||
             (feed->title != NULL && !has_once(c, of_a_name)))
        rc = fault_set(
            f, EX_SOFTWARE, "the calendar has a property too many or too few");
    if (c != NULL)
        icalcomponent_free(c);
    return rc;
}

int
ical_check(const char *bytes, size_t len, const struct ical_feed *feed,
    size_t n_items, struct fault *f)
{
    struct ical_back back = {bytes, bytes + len};
    char(*uids)[ICAL_UID_TEXT] = NULL;
    struct buf *around = NULL;
    int rc = -1;

    if (memchr(bytes, '\0', len) != NULL)
        return fault_set(f, EX_SOFTWARE, "it has a NUL in it");
    if (check_lines(bytes, len, f))
        return -1;
    uids = calloc(n_items + 1, sizeof *uids);
    around = buf_new();
    if (uids == NULL || around == NULL)
        fault_fill(f, EX_OSERR, "out of memory");
    else if (check_parts(&back, feed->form, n_items, uids, around, f) == 0)
        rc = buf_failed(around) ? fault_set(f, EX_OSERR, "out of memory")
                                : check_calendar(around, feed, f);
    buf_free(around);
    free(uids);
    return rc;
}
