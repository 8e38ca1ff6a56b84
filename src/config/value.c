#include "value.h"

#include "files.h"
#include "items.h"
#include "nearest.h"
#include "num.h"
#include "scan.h"
#include "span.h"

#include <string.h>
#include <strings.h>

#define COUNT_MOST 9999999
#define HOURS_MOST 8784 /* those of a leap year */
#define FEED_MOST 1000000

void
value_nothing(struct reading *r, const struct key *k, struct entry *e, void *at)
{
    (void)r;
    (void)k;
    (void)e;
    (void)at;
}

void
value_text(struct reading *r, const struct key *k, struct entry *e, void *at)
{
    (void)k;
    *(const char **)at = reading_text(r, e);
}

void
value_path(struct reading *r, const struct key *k, struct entry *e, void *at)
{
    const char *path = reading_text(r, e);

    (void)k;
    if (path != NULL)
        *(const char **)at = files_path(r->document, e->place.file, path);
}

void
value_day(struct reading *r, const struct key *k, struct entry *e, void *at)
{
    const char *text = reading_text(r, e);

    (void)k;
    if (text == NULL)
        return;
    day_t day = day_parse(text, strlen(text));
    if (day == DAY_NONE)
        reading_refuse(r, e, e->place, "'%s' " VALUE_NOT_A_DAY, text);
    *(day_t *)at = day;
}

static void
read_number(
    struct reading *r, struct entry *e, int64_t least, int64_t most, void *at)
{
    const char *text = reading_text(r, e);

    if (text != NULL && num_parse(text, strlen(text), least, most, at))
        reading_refuse(r, e, e->place,
            "'%s' is not a whole number from %lld to %lld", text,
            (long long)least, (long long)most);
}

/* Take one reading from the scan: of which meter, or -1 when it is none. */
static int
take_reading(struct scan *s, struct baseline *b, int64_t *value)
{
    static const char *const units[] = {
        "km", "miles", "mile", "hours", "hour", NULL};

    if (!scan_number(s, 0, COUNT_MOST, value))
        return -1;
    if (scan_end(s))
        return METER_NONE;
    int unit = scan_choice(s, units);
    if (unit < 0 || !scan_end(s))
        return -1;
    if (unit < 3)
        b->unit = unit == 0 ? UNIT_KM : UNIT_MILES;
    return unit < 3 ? METER_DISTANCE : METER_HOURS;
}

void
value_readings(
    struct reading *r, const struct key *k, struct entry *e, void *at)
{
    struct baseline *b = at;
    struct items item = items_of(e, ITEMS_COMMAS);

    while (items_next(&item)) {
        struct scan s = scan_start(item.text);
        int64_t value;
        int meter = take_reading(&s, b, &value);
        if (meter < 0)
            reading_refuse(r, e, item.place,
                "'%s' is not a reading; expected %s, each a whole number from "
                "0 to %d",
                item.text, k->form, COUNT_MOST);
        else if (b->last_reading[meter] >= 0 ||
                 b->last_reading[METER_NONE] >= 0)
            reading_refuse(r, e, item.place,
                "'%s' is one reading too many; expected %s", item.text,
                k->form);
        else
            b->last_reading[meter] = value;
    }
}

void
value_hours(struct reading *r, const struct key *k, struct entry *e, void *at)
{
    (void)k;
    read_number(r, e, 1, HOURS_MOST, at);
}

void
value_most(struct reading *r, const struct key *k, struct entry *e, void *at)
{
    (void)k;
    read_number(r, e, 10, FEED_MOST, at);
}

static void
refuse_choice(
    struct reading *r, const struct key *k, struct entry *e, const char *text)
{
    struct nearest near = nearest_start(text);

    for (int i = 0; k->words[i] != NULL; i++)
        if (k->words[i][0] != '\0')
            nearest_offer(&near, k->words[i]);
    if (nearest_best(&near))
        reading_refuse(r, e, e->place, "'%s' is none of %s; did you mean '%s'?",
            text, k->form, nearest_best(&near));
    else
        reading_refuse(r, e, e->place, "'%s' is none of %s", text, k->form);
}

void
value_choice(struct reading *r, const struct key *k, struct entry *e, void *at)
{
    const char *text = reading_text(r, e);

    if (text == NULL)
        return;
    for (int i = 0; k->words[i] != NULL; i++)
        if (strcasecmp(k->words[i], text) == 0) {
            /* Every enum of ours has the size of an int. */
            memcpy(at, &i, sizeof i);
            return;
        }
    refuse_choice(r, k, e, text);
}

int64_t
value_span_size(struct span s)
{
    /* In 4800ths of a day: 400 years are 4800 months of 146097 days. */
    static const int64_t day = 4800;
    static const int64_t month = 146097;
    const int64_t sizes[] = {day, 7 * day, month, 12 * month};

    return s.n * sizes[s.unit];
}

const char *
value_check_span(struct span s, int least)
{
    static const struct span most = {60, STEP_YEARS};

    if (s.n < least)
        return "is no time at all; expected 1 or more";
    if (value_span_size(s) > value_span_size(most))
        return "is longer than 60 years; correct the number or the unit";
    return NULL;
}

const char *
value_take_span(struct scan *s, int least, struct span *out)
{
    return span_scan(s, out) ? value_check_span(*out, least) : VALUE_NOT_A_SPAN;
}

static void
read_span(struct reading *r, struct entry *e, int least, void *at)
{
    const char *text = reading_text(r, e);

    if (text == NULL)
        return;
    struct scan s = scan_start(text);
    const char *wrong = value_take_span(&s, least, at);
    if (wrong == NULL && !scan_end(&s))
        wrong = VALUE_NOT_A_SPAN;
    if (wrong != NULL)
        reading_refuse(r, e, e->place, "'%s' %s", text, wrong);
}

void
value_span(struct reading *r, const struct key *k, struct entry *e, void *at)
{
    (void)k;
    read_span(r, e, 1, at);
}

void
value_any_span(
    struct reading *r, const struct key *k, struct entry *e, void *at)
{
    (void)k;
    read_span(r, e, 0, at);
}

/* What is held back longer is not calm, but out of date. */
void
value_calm(struct reading *r, const struct key *k, struct entry *e, void *at)
{
    static const struct span most = {31, STEP_DAYS};
    struct span *span = at;

    (void)k;
    read_span(r, e, 0, span);
    if (!e->refused && value_span_size(*span) > value_span_size(most))
        reading_refuse(r, e, e->place,
            "'%s' is too long to hold a date back; expected at most 1 month",
            reading_text(r, e));
}

static int
named(const char *const *names, const char *word, size_t len)
{
    for (int i = 0; names[i] != NULL; i++)
        if ((len == 3 || len == strlen(names[i])) &&
            strncasecmp(names[i], word, len) == 0)
            return i;
    return -1;
}

int
value_weekday(const char *word, size_t len)
{
    static const char *const names[] = {"monday", "tuesday", "wednesday",
        "thursday", "friday", "saturday", "sunday", NULL};

    return named(names, word, len);
}

int
value_month(const char *word, size_t len)
{
    static const char *const names[] = {"january", "february", "march", "april",
        "may", "june", "july", "august", "september", "october", "november",
        "december", NULL};

    return named(names, word, len);
}

void
value_weekdays(
    struct reading *r, const struct key *k, struct entry *e, void *at)
{
    struct items item = items_of(e, ITEMS_WORDS);
    weekdays_t days = 0;

    (void)k;
    while (items_next(&item)) {
        int day = value_weekday(item.text, strlen(item.text));
        if (day < 0)
            reading_refuse(r, e, item.place,
                "'%s' is not a weekday; expected mon, tue, wed, thu, fri, sat "
                "or sun",
                item.text);
        else
            days |= 1u << day;
    }
    *(weekdays_t *)at = days;
}

void
value_works(struct reading *r, const struct key *k, struct entry *e, void *at)
{
    const char *text = reading_text(r, e);

    /* A place that opens on single days only. */
    if (text != NULL && strcasecmp(text, "none") == 0)
        *(weekdays_t *)at = 0;
    else
        value_weekdays(r, k, e, at);
}
