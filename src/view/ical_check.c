#include "ical.h"

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

/* Check one event; puts its UID, which @event keeps, into @uid. */
static int
check_event(icalcomponent *event, const char **uid, struct fault *f)
{
    static const icalproperty_kind required[] = {ICAL_UID_PROPERTY,
        ICAL_DTSTAMP_PROPERTY, ICAL_LASTMODIFIED_PROPERTY,
        ICAL_SEQUENCE_PROPERTY, ICAL_DTSTART_PROPERTY, ICAL_DTEND_PROPERTY,
        ICAL_SUMMARY_PROPERTY, ICAL_DESCRIPTION_PROPERTY, ICAL_STATUS_PROPERTY,
        ICAL_TRANSP_PROPERTY, ICAL_NO_PROPERTY};

    *uid = icalcomponent_get_uid(event);
    if (*uid == NULL || !has_once(event, required))
        return fault_set(f, EX_SOFTWARE,
            "event %s has a property too many or too few",
            *uid ? *uid : "without UID");
    if (!is_one_day(event))
        return fault_set(f, EX_SOFTWARE, "event %s is not one day long", *uid);
    return 0;
}

static int
compare_uids(const void *a, const void *b)
{
    return strcmp(*(const char *const *)a, *(const char *const *)b);
}

static int
check_unique(const char **uids, size_t n, struct fault *f)
{
    qsort(uids, n, sizeof *uids, compare_uids);
    for (size_t i = 1; i < n; i++)
        if (strcmp(uids[i - 1], uids[i]) == 0)
            return fault_set(
                f, EX_SOFTWARE, "two events have the UID %s", uids[i]);
    return 0;
}

/* @uids has room for @n_events. */
static int
check_events(icalcomponent *calendar, const char **uids, size_t n_events,
    struct fault *f)
{
    size_t n = 0;
    icalcomponent *c =
        icalcomponent_get_first_component(calendar, ICAL_ANY_COMPONENT);

    for (; c != NULL; n++) {
        if (n == n_events || icalcomponent_isa(c) != ICAL_VEVENT_COMPONENT)
            break;
        if (check_event(c, &uids[n], f))
            return -1;
        c = icalcomponent_get_next_component(calendar, ICAL_ANY_COMPONENT);
    }
    if (n != n_events || c != NULL)
        return fault_set(f, EX_SOFTWARE,
            "there are not %zu events and nothing else", n_events);
    return check_unique(uids, n, f);
}

static int
check_calendar(icalcomponent *calendar, struct fault *f)
{
    static const icalproperty_kind required[] = {ICAL_PRODID_PROPERTY,
        ICAL_VERSION_PROPERTY, ICAL_CALSCALE_PROPERTY, ICAL_NAME_PROPERTY,
        ICAL_REFRESHINTERVAL_PROPERTY, ICAL_NO_PROPERTY};

    if (calendar == NULL ||
        icalcomponent_isa(calendar) != ICAL_VCALENDAR_COMPONENT)
        return fault_set(f, EX_SOFTWARE, "it does not read as one calendar");
    if (icalcomponent_count_errors(calendar) != 0)
        return fault_set(f, EX_SOFTWARE, "it has lines that do not read");
    if (!has_once(calendar, required))
        return fault_set(
            f, EX_SOFTWARE, "the calendar has a property too many or too few");
    return 0;
}

int
ical_check(const char *bytes, size_t len, size_t n_events, struct fault *f)
{
    int rc = -1;

    if (strlen(bytes) != len)
        return fault_set(f, EX_SOFTWARE, "it has a NUL in it");
    if (check_lines(bytes, len, f))
        return -1;
    icalcomponent *calendar = icalparser_parse_string(bytes);
    const char **uids = calloc(n_events + 1, sizeof *uids);
    if (uids == NULL)
        fault_fill(f, EX_OSERR, "out of memory");
    else if (check_calendar(calendar, f) == 0)
        rc = check_events(calendar, uids, n_events, f);
    free(uids);
    if (calendar != NULL)
        icalcomponent_free(calendar);
    return rc;
}
