#include "arena.h"
#include "buf.h"
#include "calc_context.h"
#include "calendar_rule.h"
#include "kind.h"
#include "recur.h"
#include "scan.h"

#include <libical/ical.h>
#include <stdlib.h>
#include <string.h>
#include <strings.h>

/*
 * "rule FREQ=MONTHLY;BYDAY=-1FR from 2026-01-30": an RFC 5545 RRULE and its
 * DTSTART.  A date that a month lacks is skipped, as the RFC says; with
 * RSCALE=GREGORIAN;SKIP=BACKWARD (RFC 7529) it is the last day instead.
 *
 * libical reads the text and no more: the days that its iterator finds are not
 * those of the RFC for one rule in ten (3.0.16; tests/reference/dateutil).
 */

/* A list of libical's as places of at most @most. */
static int
take_places(const short *from, size_t size, int most, struct recur_places *out)
{
    for (size_t i = 0; i < size && from[i] != ICAL_RECURRENCE_ARRAY_MAX; i++)
        if (recur_add(out, from[i], most))
            return -1;
    return 0;
}

#define TAKE(list, most, out)                                                  \
    take_places((list), sizeof(list) / sizeof *(list), (most), (out))

/* libical's weekdays begin with Sunday, as 1. */
static int
monday_first(int weekday)
{
    return (weekday + 5) % 7;
}

static int
take_weekdays(const struct icalrecurrencetype *rule, struct recur *out)
{
    size_t size = sizeof rule->by_day / sizeof *rule->by_day;

    for (size_t i = 0; i < size && rule->by_day[i] != ICAL_RECURRENCE_ARRAY_MAX;
         i++) {
        short day = rule->by_day[i];
        int nth = icalrecurrencetype_day_position(day);
        int weekday =
            monday_first((int)icalrecurrencetype_day_day_of_week(day));
        if (nth == 0)
            out->all_weekdays |= 1U << weekday;
        else if (recur_add(&out->weekdays[weekday], nth, 53))
            return -1;
        out->by_weekday = 1;
    }
    return 0;
}

static int
take_parts(const struct icalrecurrencetype *rule, struct recur *out)
{
    return TAKE(rule->by_month, 12, &out->months) ||
                   TAKE(rule->by_week_no, 53, &out->weeks) ||
                   TAKE(rule->by_year_day, 366, &out->year_days) ||
                   TAKE(rule->by_month_day, 31, &out->month_days) ||
                   TAKE(rule->by_set_pos, 366, &out->positions) ||
                   take_weekdays(rule, out)
               ? -1
               : 0;
}

static int
counts_weekdays(const struct recur *r)
{
    for (int i = 0; i < 7; i++)
        if (r->weekdays[i].any)
            return 1;
    return 0;
}

/* Nonzero where the RFC forbids one part beside another. */
static int
is_forbidden(const struct recur *r)
{
    int by_any = r->months.any || r->weeks.any || r->year_days.any ||
                 r->month_days.any || r->by_weekday;

    return (r->weeks.any && r->freq != RECUR_YEARLY) ||
           (r->year_days.any && r->freq != RECUR_YEARLY) ||
           (r->month_days.any && r->freq == RECUR_WEEKLY) ||
           (counts_weekdays(r) && (r->freq < RECUR_MONTHLY || r->weeks.any)) ||
           (r->positions.any && !by_any);
}

/* RFC 7529 knows other calendars; and which day one counted from the end of a
 * month would be moved to, it leaves open. */
static int
take_skip(const struct icalrecurrencetype *rule, struct recur *out)
{
    uint64_t from_end = 0;

    for (size_t i = 0; i < sizeof out->month_days.back / sizeof(uint64_t); i++)
        from_end |= out->month_days.back[i];
    out->skips_back = rule->skip == ICAL_SKIP_BACKWARD;
    if (rule->rscale != NULL && strcasecmp(rule->rscale, "GREGORIAN") != 0)
        return -1;
    return rule->skip == ICAL_SKIP_FORWARD || (out->skips_back && from_end) ? -1
                                                                            : 0;
}

/* What the rule does not say is taken from its first day. */
static void
take_rest(struct recur *r)
{
    struct ymd t = day_ymd(r->first);
    int days = r->by_weekday || r->month_days.any || r->year_days.any;

    r->weekdays_of_month = r->freq == RECUR_MONTHLY || r->months.any;
    if (days || r->freq == RECUR_DAILY)
        return;
    if (r->freq == RECUR_WEEKLY || r->weeks.any) {
        r->all_weekdays = 1U << day_weekday(r->first);
        r->by_weekday = 1;
        return;
    }
    (void)recur_add(&r->month_days, t.day, 31);
    if (r->freq == RECUR_YEARLY && !r->months.any)
        (void)recur_add(&r->months, t.month, 12);
}

/* The last day, by UNTIL or by COUNT. */
static int
take_end(const struct icalrecurrencetype *rule, struct recur *r)
{
    struct icaltimetype until = rule->until;

    r->until = DAY_LAST;
    if (!icaltime_is_null_time(until) && until.year <= 2199)
        r->until = day_of(until.year, until.month, until.day);
    if (r->until == DAY_NONE)
        return -1;
    day_t last = r->first;
    for (int n = 1; n < rule->count && last != DAY_NONE; n++)
        last = recur_from(r, last + 1);
    if (rule->count > 0 && last != DAY_NONE)
        r->until = last;
    return 0;
}

/* Nonzero when the rule has that part, such as BYDAY. */
static int
has_part(const char *text, const char *name)
{
    size_t len = strlen(name);

    for (; text != NULL; text = strchr(text, ';')) {
        text += *text == ';';
        if (strncasecmp(text, name, len) == 0 && text[len] == '=')
            return 1;
    }
    return 0;
}

/* Where it lacks memory, libical leaves a part out and says nothing. */
static int
is_whole(const char *text, const struct recur *r, const char *rscale)
{
    return has_part(text, "BYMONTH") == r->months.any &&
           has_part(text, "BYWEEKNO") == r->weeks.any &&
           has_part(text, "BYYEARDAY") == r->year_days.any &&
           has_part(text, "BYMONTHDAY") == r->month_days.any &&
           has_part(text, "BYSETPOS") == r->positions.any &&
           has_part(text, "BYDAY") == r->by_weekday &&
           has_part(text, "RSCALE") == (rscale != NULL);
}

static int
take_rule(
    const struct icalrecurrencetype *rule, const char *text, struct recur *out)
{
    /* The units shorter than a day come before it. */
    if (rule->freq < ICAL_DAILY_RECURRENCE ||
        rule->freq > ICAL_YEARLY_RECURRENCE)
        return -1;
    out->freq = (enum recur_freq)(rule->freq - ICAL_DAILY_RECURRENCE);
    out->interval = rule->interval;
    out->week_start = monday_first((int)rule->week_start);
    if (rule->interval < 1 || take_parts(rule, out))
        return -1;
    if (!is_whole(text, out, rule->rscale))
        return KIND_NO_MEMORY;
    if (take_skip(rule, out) || is_forbidden(out))
        return -1;
    take_rest(out);
    if (take_end(rule, out))
        return -1;
    /* A start that is no day of the rule makes the set undefined (RFC 5545,
     * 3.8.5.3). */
    return recur_from(out, out->first) == out->first ? 0 : -1;
}

static int
read_rule(struct interval *out, struct recur *recur)
{
    icalerror_clear_errno();
    struct icalrecurrencetype rule =
        icalrecurrencetype_from_string(out->recurrence);
    int rc = icalerrno == ICAL_NEWFAILED_ERROR
                 ? KIND_NO_MEMORY
                 : take_rule(&rule, out->recurrence, recur);

    free(rule.rscale);
    out->recur = recur;
    return rc;
}

static day_t
date_from(const struct interval *every, day_t d)
{
    return recur_from(every->recur, d);
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
    struct recur *recur = arena_take(a, sizeof *recur);
    if (out->recurrence == NULL || recur == NULL)
        return KIND_NO_MEMORY;
    if (!scan_word(s, "from"))
        return -1;
    const char *from = scan_peek(s, &len);
    out->from = recur->first = day_parse(from, len);
    s->at = from + len;
    return out->from == DAY_NONE ? -1 : read_rule(out, recur);
}

static void
print(const struct interval *every, struct buf *out)
{
    buf_print(out, "rule %s from %s", every->recurrence,
        day_text(every->from, (char[DAY_TEXT]){0}));
}

const struct interval_kind kind_recurrence = {
    .form = "rule RRULE from DAY",
    .date_from = date_from,
    .needs_history = 1,
    .parse = parse,
    .print = print,
    .before = calendar_rule_before,
    .first = calendar_rule_first,
    .next = calendar_rule_next,
};
