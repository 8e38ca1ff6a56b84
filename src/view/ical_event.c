#include "ical_event.h"

#include "buf.h"
#include "caution.h"
#include "ical_text.h"
#include "refold.h"
#include "select.h"

#include <stdlib.h>

#define SECONDS_A_DAY 86400

/* The parts in which one event differs from another. */
struct event {
    const char *uid;
    const struct ical_stamp *stamp; /* may be NULL */
    day_t day;                      /* DAY_NONE to leave it out */
    const char *summary;
    const char *description;
    const char *categories; /* may be NULL */
    icalproperty_status status;
};

void
ical_start(void)
{
    /* Where the list of zones cannot be read this sets icalerrno, once. */
    (void)icaltimezone_get_utc_timezone();
    icalerror_clear_errno();
}

int
ical_finish(const char *text)
{
    return text == NULL || icalerrno != ICAL_NO_ERROR ? -1 : 0;
}

int
ical_add(icalcomponent *c, icalproperty *p)
{
    if (p == NULL)
        return -1;
    icalcomponent_add_property(c, p);
    return 0;
}

int
ical_add_x(icalcomponent *c, const char *name, const char *value)
{
    icalproperty *p = icalproperty_new_x(value);

    if (p != NULL)
        icalproperty_set_x_name(p, name);
    return ical_add(c, p);
}

static int
add_stamp(icalcomponent *c, const struct ical_stamp *stamp)
{
    struct icaltimetype when = icaltime_from_timet_with_zone(
        (time_t)stamp->modified, 0, icaltimezone_get_utc_timezone());

    if (ical_add(c, icalproperty_new_dtstamp(when)) ||
        ical_add(c, icalproperty_new_lastmodified(when)))
        return -1;
    return ical_add(c, icalproperty_new_sequence(stamp->sequence));
}

/* All of one day: DTEND is the day after (RFC 5545, 3.6.1). */
static int
add_day(icalcomponent *c, day_t day)
{
    struct ymd date = day_ymd(day);
    struct icaltimetype t = icaltime_null_date();

    t.year = date.year;
    t.month = date.month;
    t.day = date.day;
    if (ical_add(c, icalproperty_new_dtstart(t)))
        return -1;
    icaltime_adjust(&t, 1, 0, 0, 0);
    return ical_add(c, icalproperty_new_dtend(t));
}

static int
fill(icalcomponent *c, const struct event *e)
{
    if (ical_add(c, icalproperty_new_uid(e->uid)))
        return -1;
    if (e->stamp != NULL && add_stamp(c, e->stamp))
        return -1;
    if (e->day != DAY_NONE && add_day(c, e->day))
        return -1;
    if (ical_add(c, icalproperty_new_summary(e->summary)) ||
        ical_add(c, icalproperty_new_description(e->description)))
        return -1;
    if (e->categories != NULL &&
        ical_add(c, icalproperty_new_categories(e->categories)))
        return -1;
    if (ical_add(c, icalproperty_new_status(e->status)) ||
        ical_add(c, icalproperty_new_transp(ICAL_TRANSP_TRANSPARENT)))
        return -1;
    return ical_add_x(c, "X-MICROSOFT-CDO-BUSYSTATUS", "FREE");
}

static int
write_event(const struct event *e, struct buf *out)
{
    icalcomponent *c;
    char *text = NULL;

    ical_start();
    c = icalcomponent_new(ICAL_VEVENT_COMPONENT);
    if (c != NULL && fill(c, e) == 0)
        text = icalcomponent_as_ical_string_r(c);
    int rc = ical_finish(text);
    if (rc == 0)
        refold(text, out);
    free(text);
    if (c != NULL)
        icalcomponent_free(c);
    return rc || buf_failed(out) ? -1 : 0;
}

int
ical_event_due(const char *site, const struct due *d,
    const struct ical_stamp *stamp, struct buf *out)
{
    int rc = -1;
    char uid[ICAL_UID_TEXT];
    struct buf *summary = buf_new();
    struct buf *description = buf_new();
    struct buf *categories = buf_new();

    if (summary == NULL || description == NULL || categories == NULL)
        goto done;
    ical_uid(site, d, uid);
    ical_summary(d, summary);
    ical_description(d, description);
    ical_categories(d, categories);
    if (buf_failed(summary) || buf_failed(description) ||
        buf_failed(categories))
        goto done;
    rc = write_event(
        &(struct event){
            .uid = uid,
            .stamp = stamp,
            .day = select_day(d),
            .summary = buf_str(summary),
            .description = buf_str(description),
            .categories = buf_str(categories),
            .status = ical_is_tentative(d) ? ICAL_STATUS_TENTATIVE
                                           : ICAL_STATUS_CONFIRMED,
        },
        out);
done:
    buf_free(categories);
    buf_free(description);
    buf_free(summary);
    return rc;
}

int
ical_event_empty(const char *site, const char *feed,
    const struct ical_stamp *stamp, struct buf *out)
{
    char uid[ICAL_UID_TEXT];

    ical_empty_uid(site, feed, uid);
    return write_event(
        &(struct event){
            .uid = uid,
            .stamp = stamp,
            .day = stamp ? (day_t)(stamp->modified / SECONDS_A_DAY) : DAY_NONE,
            .summary = "Nothing due in this window",
            .description = CAUTION_TEXT,
            .status = ICAL_STATUS_CONFIRMED,
        },
        out);
}
