#include "value.h"

#include "items.h"
#include "num.h"
#include "scan.h"
#include "span.h"

#include <string.h>

#define DAY_MINUTES INT64_C(1440)

/* Lengths of time, on the calendar and on the clock. */

#define NOT_A_SPAN "is not a length of time; expected N days|weeks|months|years"

const char *
value_check_span(struct span s, int64_t least)
{
    static const struct span most = {60, STEP_YEARS};

    if (s.n < least)
        return "is no time at all; expected 1 or more";
    if (span_size(s) > span_size(most))
        return "is longer than 60 years; correct the number or the unit";
    return NULL;
}

VALUE_TAKER(take_span)
{
    struct span *span = at;

    if (!span_scan(s, span))
        return NOT_A_SPAN;
    const char *wrong = value_check_span(*span, k->least);
    if (wrong != NULL)
        return wrong;
    if (!scan_end(s))
        return NOT_A_SPAN;
    return k->most > 0 && span_size(*span) > span_size((struct span){
                                                 (int32_t)k->most, STEP_DAYS})
               ? k->wrong
               : NULL;
}

VALUE_FORMATTER(format_span)
{
    const struct span *s = at;
    char text[SPAN_TEXT];

    if (s->n == 0)
        value_format_unset(k, out);
    else
        buf_text(out, span_text(*s, text));
}

const struct value_type value_span = {.take = take_span, .format = format_span};

VALUE_FORMATTER(format_alarm)
{
    const struct span *s = at;
    char text[SPAN_TEXT];

    buf_text(out, s->n < 0 ? "none" : span_text(*s, text));
}

const struct value_type value_alarm = {
    .take = take_span, .format = format_alarm};

VALUE_TAKER(take_seconds)
{
    static const char *const units[] = {
        "second", "seconds", "minute", "minutes", NULL};
    int64_t n;

    if (!scan_number(s, 1, k->most, &n))
        return k->wrong;
    int unit = scan_choice(s, units);
    if (unit >= 2)
        n *= 60;
    if (unit < 0 || !scan_end(s) || n > k->most)
        return k->wrong;
    *(int64_t *)at = n;
    return NULL;
}

VALUE_FORMATTER(format_seconds)
{
    int64_t n = *(const int64_t *)at;

    buf_print(out, "%lld second%s", (long long)n, n == 1 ? "" : "s");
}

const struct value_type value_seconds = {
    .take = take_seconds, .format = format_seconds};

/* Hours with at most two decimals, "7.5", as minutes; -1 when they are not. */
static int64_t
minutes_of_hours(const char *text)
{
    size_t whole = strcspn(text, ".");
    size_t decimals = text[whole] == '.' ? strlen(text + whole + 1) : 0;
    int64_t hours;
    int64_t part = 0;

    if (num_parse(text, whole, 0, DAY_MINUTES / 60, &hours) ||
        (text[whole] == '.' &&
            (decimals < 1 || decimals > 2 ||
                num_parse(text + whole + 1, decimals, 0, 99, &part))))
        return -1;
    /* Rounded up: work is never taken for shorter than it was said to be. */
    int64_t hundredths = hours * 100 + (decimals == 1 ? part * 10 : part);
    return (hundredths * 60 + 99) / 100;
}

/* "90 minutes" or "1.5 hours" as minutes; -1 when it is neither. */
static int64_t
minutes_of_work(const char *text)
{
    static const char *const units[] = {
        "minutes", "minute", "hours", "hour", NULL};
    struct scan s = scan_start(text);
    char number[ITEM_SIZE];
    int64_t n;

    if (!scan_any(&s, number, sizeof number))
        return -1;
    int unit = scan_choice(&s, units);
    if (unit < 0 || !scan_end(&s))
        return -1;
    if (unit >= 2)
        return minutes_of_hours(number);
    return num_parse(number, strlen(number), 1, DAY_MINUTES, &n) ? -1 : n;
}

VALUE_PARSER(parse_work)
{
    const char *text = context_text(r, e);

    if (text == NULL)
        return;
    int64_t minutes = k->unit ? minutes_of_hours(text) : minutes_of_work(text);
    if (minutes < 1 || minutes > DAY_MINUTES)
        context_refuse(r, e, e->place, "'%s' %s", text, k->wrong);
    else
        *(int64_t *)at = minutes;
}

VALUE_FORMATTER(format_work)
{
    int64_t n = *(const int64_t *)at;

    if (n == 0)
        value_format_unset(k, out);
    else if (n % 60 == 0)
        buf_print(out, "%lld hour%s", (long long)(n / 60), n == 60 ? "" : "s");
    else
        buf_print(out, "%lld minute%s", (long long)n, n == 1 ? "" : "s");
}

const struct value_type value_work = {
    .parse = parse_work, .format = format_work};

VALUE_PARSER(parse_clock)
{
    const char *text = context_text(r, e);
    int64_t hour;
    int64_t minute;

    if (text == NULL)
        return;
    if (strlen(text) != 5 || text[2] != ':' ||
        num_parse(text, 2, 0, 23, &hour) ||
        num_parse(text + 3, 2, 0, 59, &minute))
        context_refuse(r, e, e->place,
            "'%s' is no time of day; expected %s, such as 07:00", text,
            k->form);
    else
        *(int64_t *)at = hour * 60 + minute;
}

VALUE_FORMATTER(format_clock)
{
    int64_t n = *(const int64_t *)at;

    buf_print(out, "%02d:%02d", (int)(n / 60), (int)(n % 60));
}

const struct value_type value_clock = {
    .parse = parse_clock, .format = format_clock};
