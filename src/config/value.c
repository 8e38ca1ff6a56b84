#include "value.h"

#include "items.h"
#include "num.h"
#include "scan.h"
#include "suggest.h"

#include <string.h>
#include <strings.h>

void
value_format_unset(const struct key *k, struct buf *out)
{
    buf_text(out, k->unset ? k->unset : "none");
}

void
value_format_number(
    const struct key *k, size_t n, const char *what, struct buf *out)
{
    if (n == 0)
        value_format_unset(k, out);
    else
        buf_print(out, "%zu %s%s", n, what, n == 1 ? "" : "s");
}

const struct value_type value_written = {.format = NULL};

void
value_take_each(struct load_context *r, const struct key *k, struct entry *e,
    void *at, const char *(*take)(const struct key *, struct scan *, void *))
{
    struct items item = items_of(e, ITEMS_COMMAS);

    while (items_next(&item)) {
        struct scan s = scan_start(item.text);
        const char *wrong = take(k, &s, at);
        if (wrong != NULL)
            context_refuse(r, e, item.place, "'%s' %s", item.text, wrong);
    }
}

VALUE_PARSER(parse_text)
{
    const char *text = context_text(r, e);

    if (text != NULL && k->fits != NULL && !k->fits(text))
        context_refuse(r, e, e->place, "'%s' %s", text, k->wrong);
    *(const char **)at = text;
}

VALUE_FORMATTER(format_text)
{
    const char *text = *(const char *const *)at;

    if (text == NULL)
        value_format_unset(k, out);
    else
        buf_text(out, text);
}

const struct value_type value_text = {
    .parse = parse_text, .format = format_text};

VALUE_PARSER(parse_day)
{
    const char *text = context_text(r, e);

    if (text == NULL)
        return;
    day_t day = day_parse(text, strlen(text));
    if (day == DAY_NONE)
        context_refuse(r, e, e->place, "'%s' " VALUE_NOT_A_DAY, text);
    *(day_t *)at = day;
}

VALUE_FORMATTER(format_day)
{
    day_t day = *(const day_t *)at;
    char text[DAY_TEXT];

    if (day == DAY_NONE)
        value_format_unset(k, out);
    else
        buf_text(out, day_text(day, text));
}

const struct value_type value_day = {.parse = parse_day, .format = format_day};

VALUE_PARSER(parse_days)
{
    day_t *days = context_take(r, items_count(e, ITEMS_WORDS) * sizeof *days);
    size_t *n = value_count(k, at);
    struct items item = items_of(e, ITEMS_WORDS);

    *n = 0;
    *(const day_t **)at = days;
    while (days != NULL && items_next(&item)) {
        day_t day = day_parse(item.text, strlen(item.text));
        if (day == DAY_NONE)
            context_refuse(
                r, e, item.place, "'%s' " VALUE_NOT_A_DAY, item.text);
        else
            days[(*n)++] = day;
    }
}

VALUE_FORMATTER(format_days)
{
    value_format_number(k, *value_count(k, at), "day", out);
}

const struct value_type value_days = {
    .parse = parse_days, .format = format_days};

VALUE_PARSER(parse_number)
{
    const char *text = context_text(r, e);

    if (text != NULL && num_parse(text, strlen(text), k->least, k->most, at))
        context_refuse(r, e, e->place, "'%s' is not a %s%s from %lld to %lld",
            text, k->unit ? "number of " : "whole number",
            k->unit ? k->unit : "", (long long)k->least, (long long)k->most);
}

VALUE_FORMATTER(format_number)
{
    int64_t n = *(const int64_t *)at;

    if (n < k->least)
        value_format_unset(k, out);
    else
        buf_print(out, "%lld", (long long)n);
}

const struct value_type value_number = {
    .parse = parse_number, .format = format_number};

VALUE_PARSER(parse_choice)
{
    const char *text = context_text(r, e);

    if (text == NULL)
        return;
    struct suggest near = suggest_start(text);
    for (int i = 0; k->words[i] != NULL; i++) {
        if (strcasecmp(k->words[i], text) == 0) {
            /* Every enum of ours has the size of an int. */
            memcpy(at, &i, sizeof i);
            return;
        }
        if (k->words[i][0] != '\0')
            suggest_offer(&near, k->words[i]);
    }
    if (suggest_best(&near))
        context_refuse(r, e, e->place, "'%s' is none of %s; did you mean '%s'?",
            text, k->form, suggest_best(&near));
    else
        context_refuse(r, e, e->place, "'%s' is none of %s", text, k->form);
}

VALUE_FORMATTER(format_choice)
{
    int i;

    memcpy(&i, at, sizeof i);
    buf_text(out, k->words[i]);
}

const struct value_type value_choice = {
    .parse = parse_choice, .format = format_choice};

VALUE_PARSER(parse_bits)
{
    struct items item = items_of(e, ITEMS_WORDS);

    while (items_next(&item)) {
        unsigned i = 0;
        while (k->words[i] != NULL && strcasecmp(k->words[i], item.text) != 0)
            i++;
        if (k->words[i] != NULL)
            *(unsigned *)at |= 1u << i;
        else
            context_refuse(
                r, e, item.place, "'%s' is none of %s", item.text, k->form);
    }
}

VALUE_FORMATTER(format_bits)
{
    unsigned bits = *(const unsigned *)at;
    const char *gap = "";

    if (bits == 0)
        value_format_unset(k, out);
    for (unsigned i = 0; k->words[i] != NULL; i++)
        if (bits >> i & 1) {
            buf_print(out, "%s%s", gap, k->words[i]);
            gap = " ";
        }
}

const struct value_type value_bits = {
    .parse = parse_bits, .format = format_bits};

static const char *const weekday_names[] = {"monday", "tuesday", "wednesday",
    "thursday", "friday", "saturday", "sunday", NULL};
static const char *const month_names[] = {"january", "february", "march",
    "april", "may", "june", "july", "august", "september", "october",
    "november", "december", NULL};

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
    return named(weekday_names, word, len);
}

int
value_month(const char *word, size_t len)
{
    return named(month_names, word, len);
}

VALUE_PARSER(parse_weekdays)
{
    struct items item = items_of(e, ITEMS_WORDS);
    const char *text = k->least == 0 ? context_text(r, e) : NULL;
    weekdays_t days = 0;

    /* A place that opens on single days only. */
    if (text != NULL && strcasecmp(text, "none") == 0)
        items_next(&item);
    while (items_next(&item)) {
        int day = value_weekday(item.text, strlen(item.text));
        if (day < 0)
            context_refuse(r, e, item.place,
                "'%s' is not a weekday; expected mon, tue, wed, thu, fri, sat "
                "or sun",
                item.text);
        else
            days |= 1u << day;
    }
    *(weekdays_t *)at = days;
}

VALUE_FORMATTER(format_weekdays)
{
    weekdays_t days = *(const weekdays_t *)at;
    const char *gap = "";

    if (days == 0)
        value_format_unset(k, out);
    for (unsigned i = 0; i < 7; i++)
        if (days >> i & 1) {
            buf_print(out, "%s%.3s", gap, weekday_names[i]);
            gap = " ";
        }
}

const struct value_type value_weekdays = {
    .parse = parse_weekdays, .format = format_weekdays};
