#include "arena.h"
#include "length.h"
#include "reasons.h"
#include "reckon.h"
#include "rhythm.h"
#include "scan.h"

#include <libical/ical.h>
#include <stdlib.h>
#include <string.h>

/*
 * "rule FREQ=MONTHLY;BYDAY=-1FR from 2026-01-30": an RFC 5545 RRULE and its
 * DTSTART.  A date that a month lacks is skipped, as the RFC says; with
 * RSCALE=GREGORIAN;SKIP=BACKWARD (RFC 7529) it is the last day instead.
 */

/* Not icaltime_null_date(): its hours are -1, which is the day before. */
static struct icaltimetype
to_ical(day_t d)
{
    struct ymd t = day_ymd(d);
    struct icaltimetype out = icaltime_null_time();

    out.year = t.year;
    out.month = t.month;
    out.day = t.day;
    out.is_date = 1;
    return out;
}

static int
parse(struct scan *s, struct arena *a, struct interval *out)
{
    size_t len;

    if (!scan_word(s, "rule"))
        return -1;
    /* The rule is one word, commas and all. */
    const char *rule = scan_peek(s, &len);
    len = strcspn(rule, " \t\n");
    s->at = rule + len;
    out->recurrence = arena_text(a, rule, len);
    if (out->recurrence == NULL || !scan_word(s, "from"))
        return -1;
    const char *from = scan_peek(s, &len);
    out->from = day_parse(from, len);
    s->at = from + len;
    struct icalrecurrencetype parsed =
        icalrecurrencetype_from_string(out->recurrence);
    free(parsed.rscale);
    /* The units shorter than a day come before it. */
    return out->from == DAY_NONE || parsed.freq < ICAL_DAILY_RECURRENCE ||
                   parsed.freq == ICAL_NO_RECURRENCE
               ? -1
               : 0;
}

/* The first occurrence on or after @d, or DAY_NONE when there is none. */
static day_t
occurrence_from(const struct interval *every, day_t d)
{
    day_t found = DAY_NONE;

    if (d == DAY_NONE)
        return DAY_NONE;
    struct icalrecurrencetype rule =
        icalrecurrencetype_from_string(every->recurrence);
    icalrecur_iterator *it = icalrecur_iterator_new(rule, to_ical(every->from));

    /* A rule that counts its occurrences has to be run from its start. */
    if (it != NULL && rule.count == 0 && d > every->from)
        icalrecur_iterator_set_start(it, to_ical(d));
    while (it != NULL && found == DAY_NONE) {
        struct icaltimetype t = icalrecur_iterator_next(it);
        if (icaltime_is_null_time(t) || t.year >= 2200)
            break;
        day_t day = day_of(t.year, t.month, t.day);
        if (day >= d)
            found = day;
    }
    if (it != NULL)
        icalrecur_iterator_free(it);
    free(rule.rscale);
    return found;
}

static void
step(const struct reckoning *r, const struct interval *every, struct limit *l)
{
    (void)r;
    l->deadline = occurrence_from(every, step_days(l->deadline, 1));
}

static void
first(const struct reckoning *r, const struct interval *every, struct limit *l)
{
    day_t from = length_first(r);

    if (from == DAY_NONE)
        return;
    l->previous = length_first_from(r->task);
    l->deadline = occurrence_from(every, from);
    reasons_add(r->why, REASON_INTERVAL, from, l->deadline, "%s (%s)",
        every->text, fleet_class_word(r->task->job->class));
}

static void
next(const struct reckoning *r, const struct interval *every, size_t i,
    struct limit *l)
{
    day_t day = r->done[i].day;

    if (l->deadline == DAY_NONE)
        rhythm_begin(
            r, every, day, occurrence_from(every, step_days(day, 1)), step, l);
    else
        rhythm_complete(r, every, day, step, l);
    reasons_add(r->why, REASON_INTERVAL, day, l->deadline, "%s (%s)",
        every->text, fleet_class_word(r->task->job->class));
}

const struct interval_kind kind_recurrence = {
    .form = "rule RRULE from DAY",
    .calendar_rule = 1,
    .needs_history = 1,
    .parse = parse,
    .first = first,
    .next = next,
};
