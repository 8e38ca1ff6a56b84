#include "arena.h"
#include "reckon.h"
#include "scan.h"
#include "season.h"

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
    /* The units shorter than a day come before it.  A start that is no day of
     * the rule makes the set undefined (RFC 5545, 3.8.5.3). */
    if (out->from == DAY_NONE || parsed.freq < ICAL_DAILY_RECURRENCE ||
        parsed.freq == ICAL_NO_RECURRENCE)
        return -1;
    return occurrence_from(out, out->from) == out->from ? 0 : -1;
}

const struct interval_kind kind_recurrence = {
    .form = "rule RRULE from DAY",
    .date_from = occurrence_from,
    .needs_history = 1,
    .parse = parse,
    .before = season_before,
    .first = season_first,
    .next = season_next,
};
