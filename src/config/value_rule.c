#include "value.h"

#include "intervals.h"
#include "items.h"
#include "kind.h"
#include "scan.h"
#include "span.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* The next piece of "A or B" in @rest, which moves past it; NULL at the end.
 * The text is cut in place. */
static char *
take_piece(char **rest)
{
    char *piece = *rest;

    if (piece == NULL)
        return NULL;
    char * or = strcasestr(piece, " or ");
    char *end = or ? or : piece + strlen(piece);
    *rest = or ? or +4 : NULL;
    while (end > piece && end[-1] == ' ')
        end--;
    *end = '\0';
    return piece + strspn(piece, " ");
}

/* Nonzero for a distance or hours that no kind took: they are too many. */
static int
is_too_much(const char *piece)
{
    static const char *const units[] = {
        "km", "miles", "mile", "hours", "hour", NULL};
    struct scan s = scan_start(piece);
    int64_t n;

    return scan_number(&s, 1, INT64_MAX, &n) && scan_choice(&s, units) >= 0 &&
           scan_end(&s);
}

/* The forms come from the table of kinds, so a new kind is in the message. */
static void
refuse_interval(struct load_context *r, struct entry *e, const char *piece)
{
    char forms[400] = "";
    size_t at = 0;

    if (is_too_much(piece)) {
        context_refuse(r, e, e->place,
            "'%s' is more than any meter shows; correct the number or the unit",
            piece);
        return;
    }

    for (size_t i = 0; kind_form(i) != NULL && at < sizeof forms; i++) {
        int n = snprintf(forms + at, sizeof forms - at, "%s%s",
            i > 0 ? ", " : "", kind_form(i));
        at += n > 0 ? (size_t)n : 0;
    }
    context_refuse(
        r, e, e->place, "'%s' is not an interval; expected %s", piece, forms);
}

/* One more of the @n intervals of @list, which has room for RULE_INTERVALS. */
static void
take_interval(struct load_context *r, struct entry *e, const char *piece,
    struct interval *list, int *n)
{
    struct scan s = scan_start(piece);
    struct interval every;

    int rc = kind_parse(&s, r->arena, &every);
    if (rc == KIND_NO_MEMORY) {
        r->document->out_of_memory = 1;
        return;
    }
    if (rc != 0 || !scan_end(&s)) {
        refuse_interval(r, e, piece);
        return;
    }
    const char *wrong = value_check_span(every.span, 0);
    if (wrong == NULL && every.apart.n > 0 &&
        span_size(every.apart) >= span_size(every.span))
        wrong = "has an 'apart' that is never reached; it must be shorter than "
                "the time before it";
    if (wrong != NULL)
        context_refuse(r, e, e->place, "'%s' %s", piece, wrong);
    else if (*n == RULE_INTERVALS)
        context_refuse(r, e, e->place,
            "'%s' is one too many; expected at most "
            "%d intervals",
            piece, RULE_INTERVALS);
    else
        list[(*n)++] = every;
}

/* The intervals of "A or B" into @list; how many. */
static int
take_intervals(struct load_context *r, struct entry *e, struct interval *list)
{
    const char *text = context_text(r, e);
    char *rest = text ? context_copy(r, text, strlen(text)) : NULL;
    char *piece;
    int n = 0;

    while ((piece = take_piece(&rest)) != NULL)
        take_interval(r, e, piece, list, &n);
    return n;
}

VALUE_PARSER(parse_every)
{
    struct rule *rule = at;

    rule->n_every = take_intervals(r, e, rule->every);
}

static void
format_intervals(const struct interval *list, int n, struct buf *out)
{
    for (int i = 0; i < n; i++) {
        buf_text(out, i > 0 ? " or " : "");
        kind_print(&list[i], out);
    }
}

VALUE_FORMATTER(format_every)
{
    const struct rule *rule = at;

    format_intervals(rule->every, rule->n_every, out);
}

const struct value_type value_every = {
    .parse = parse_every, .format = format_every};

/* What can be longer or shorter than another of its sort. */
static int
is_measured(const struct interval *i)
{
    return kind_meter(i) != METER_NONE ||
           (kind_is_length(i) && !kind_looks_back(i));
}

VALUE_PARSER(parse_at_most)
{
    struct rule *rule = at;

    rule->n_at_most = take_intervals(r, e, rule->at_most);
    for (int i = 0; i < rule->n_at_most; i++)
        if (!is_measured(&rule->at_most[i]))
            context_refuse(r, e, e->place,
                "'%s' is no length, so nothing is longer than it; expected "
                "N days|weeks|months|years, N km|miles or N hours",
                rule->at_most[i].text);
}

VALUE_FORMATTER(format_at_most)
{
    const struct rule *rule = at;

    format_intervals(rule->at_most, rule->n_at_most, out);
}

const struct value_type value_at_most = {
    .parse = parse_at_most, .format = format_at_most};

#define NOT_A_FIRST                                                            \
    "is not a first deadline; expected SPAN from "                             \
    "registered|built|in-service|earliest, or on DAY"

/* A length of 0 is allowed: the first deadline is then that very day. */
static const char *
take_first_after(struct scan *s, struct first *first)
{
    static const char *const origins[] = {
        "registered", "built", "in-service", "earliest", NULL};

    if (!span_scan(s, &first->after) || !scan_word(s, "from"))
        return NOT_A_FIRST;
    int origin = scan_choice(s, origins);
    if (origin < 0 || !scan_end(s))
        return NOT_A_FIRST;
    first->origin = (enum origin)(ORIGIN_REGISTERED + origin);
    return value_check_span(first->after, 0);
}

VALUE_TAKER(take_first)
{
    struct first *first = &((struct rule *)at)->first;
    size_t len;

    *first = (struct first){.on = DAY_NONE};
    if (!scan_word(s, "on"))
        return take_first_after(s, first);
    const char *day = scan_rest(s, &len);
    first->origin = ORIGIN_ON;
    first->on = day_parse(day, len);
    return first->on == DAY_NONE ? VALUE_NOT_A_DAY : NULL;
}

VALUE_FORMATTER(format_first)
{
    static const char *const words[] = {
        "", "registered", "built", "in-service", "earliest"};
    const struct first *first = &((const struct rule *)at)->first;
    char text[SPAN_TEXT];
    char day[DAY_TEXT];

    if (first->origin == ORIGIN_NONE)
        value_format_unset(k, out);
    else if (first->origin == ORIGIN_ON)
        buf_print(out, "on %s", day_text(first->on, day));
    else
        buf_print(out, "%s from %s", span_text(first->after, text),
            words[first->origin]);
}

const struct value_type value_first = {
    .take = take_first, .format = format_first};

#define NOT_AN_AGE "is not a step of age; expected SPAN: SPAN"

_Static_assert(RULE_AGES == 4, "so says the message below");

VALUE_TAKER(take_age)
{
    struct rule *rule = at;
    struct age_step age;

    if (!span_scan(s, &age.age) || !scan_word(s, ":") ||
        !span_scan(s, &age.every) || !scan_end(s))
        return NOT_AN_AGE;
    const char *wrong = value_check_span(age.age, 1);
    if (wrong == NULL)
        wrong = value_check_span(age.every, 1);
    if (wrong != NULL)
        return wrong;
    if (rule->n_ages == RULE_AGES)
        return "is one too many; expected at most 4 steps";
    rule->ages[rule->n_ages++] = age;
    return NULL;
}

static int
by_age(const void *left, const void *right)
{
    int64_t a = span_size(((const struct age_step *)left)->age);
    int64_t b = span_size(((const struct age_step *)right)->age);

    return (a > b) - (a < b);
}

VALUE_PARSER(parse_ages)
{
    struct rule *rule = at;

    rule->n_ages = 0;
    value_take_each(r, k, e, rule, take_age);
    qsort(rule->ages, (size_t)rule->n_ages, sizeof rule->ages[0], by_age);
    for (int i = 1; i < rule->n_ages; i++)
        if (by_age(&rule->ages[i - 1], &rule->ages[i]) == 0)
            context_refuse(r, e, e->place, "two steps begin at the same age");
}

VALUE_FORMATTER(format_ages)
{
    const struct rule *rule = at;
    char age[SPAN_TEXT];
    char every[SPAN_TEXT];

    if (rule->n_ages == 0)
        value_format_unset(k, out);
    for (int i = 0; i < rule->n_ages; i++)
        buf_print(out, "%s%s: %s", i > 0 ? ", " : "",
            span_text(rule->ages[i].age, age),
            span_text(rule->ages[i].every, every));
}

const struct value_type value_ages = {
    .parse = parse_ages, .format = format_ages};

#define LEAD_MOST 400

VALUE_TAKER(take_lead)
{
    struct lead *lead = &((struct rule *)at)->lead;
    static const char *const days[] = {"day", "days", NULL};
    struct scan attempt = *s;
    int64_t n;

    if (scan_number(&attempt, 0, LEAD_MOST, &n) &&
        scan_word(&attempt, "working") && scan_choice(&attempt, days) >= 0 &&
        scan_end(&attempt)) {
        *lead = (struct lead){{(int32_t)n, STEP_DAYS}, 1};
        return NULL;
    }
    lead->working = 0;
    if (!span_scan(s, &lead->span) || !scan_end(s))
        return "is not a lead; expected N working days (at most 400), or "
               "N days|weeks|months|years";
    return value_check_span(lead->span, 0);
}

VALUE_FORMATTER(format_lead)
{
    const struct lead *lead = &((const struct rule *)at)->lead;
    char text[SPAN_TEXT];

    if (lead->span.n == 0)
        value_format_unset(k, out);
    else if (lead->working)
        buf_print(out, "%d working day%s", lead->span.n,
            lead->span.n == 1 ? "" : "s");
    else
        buf_text(out, span_text(lead->span, text));
}

const struct value_type value_lead = {.take = take_lead, .format = format_lead};

#define NOT_A_STAGE "is not a reminder; expected SPAN or overdue every SPAN"

static const char *
take_overdue(struct scan *s, struct reminders *remind)
{
    if (remind->overdue_every.n > 0)
        return "is a second one for overdue; expected one";
    if (!scan_word(s, "every") || !span_scan(s, &remind->overdue_every) ||
        !scan_end(s))
        return NOT_A_STAGE;
    return value_check_span(remind->overdue_every, 1);
}

VALUE_TAKER(take_stage)
{
    struct reminders *remind = at;
    struct span before;
    const char *wrong;

    if (scan_word(s, "overdue"))
        return take_overdue(s, remind);
    if (!span_scan(s, &before) || !scan_end(s))
        return NOT_A_STAGE;
    wrong = value_check_span(before, 0);
    if (wrong != NULL)
        return wrong;
    if (remind->n_before == RULE_STAGES)
        return "is one too many; expected at most 12 before the deadline";
    remind->before[remind->n_before++] = before;
    return NULL;
}

static int
longest_first(const void *left, const void *right)
{
    int64_t a = span_size(*(const struct span *)left);
    int64_t b = span_size(*(const struct span *)right);

    return (a < b) - (a > b);
}

VALUE_PARSER(parse_reminders)
{
    struct reminders *remind = &((struct rule *)at)->remind;
    char text[SPAN_TEXT];

    *remind = (struct reminders){.n_before = 0};
    value_take_each(r, k, e, remind, take_stage);
    qsort(remind->before, (size_t)remind->n_before, sizeof remind->before[0],
        longest_first);
    for (int i = 1; i < remind->n_before; i++)
        if (longest_first(&remind->before[i - 1], &remind->before[i]) == 0)
            context_refuse(r, e, e->place,
                "'%s' stands there twice; take one out",
                span_text(remind->before[i], text));
}

VALUE_FORMATTER(format_reminders)
{
    const struct reminders *remind = &((const struct rule *)at)->remind;
    const char *gap = "";
    char text[SPAN_TEXT];

    if (remind->n_before == 0 && remind->overdue_every.n == 0)
        value_format_unset(k, out);
    for (int i = 0; i < remind->n_before; i++) {
        buf_print(out, "%s%s", gap, span_text(remind->before[i], text));
        gap = ", ";
    }
    if (remind->overdue_every.n > 0)
        buf_print(out, "%soverdue every %s", gap,
            span_text(remind->overdue_every, text));
}

const struct value_type value_reminders = {
    .parse = parse_reminders, .format = format_reminders};

#define READING_MOST 9999999

/* Take one reading from the scan: of which meter, or -1 when it is none. */
static int
take_reading(struct scan *s, struct baseline *b, int64_t *value)
{
    static const char *const units[] = {
        "km", "miles", "mile", "hours", "hour", NULL};

    if (!scan_number(s, 0, READING_MOST, value))
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

VALUE_PARSER(parse_readings)
{
    struct baseline *b = at;
    struct items item = items_of(e, ITEMS_COMMAS);

    while (items_next(&item)) {
        struct scan s = scan_start(item.text);
        int64_t value;
        int meter = take_reading(&s, b, &value);
        if (meter < 0)
            context_refuse(r, e, item.place,
                "'%s' is not a reading; expected %s, each a whole number from "
                "0 to %d",
                item.text, k->form, READING_MOST);
        else if (b->last_reading[meter] >= 0 ||
                 b->last_reading[METER_NONE] >= 0)
            context_refuse(r, e, item.place,
                "'%s' is one reading too many; expected %s", item.text,
                k->form);
        else
            b->last_reading[meter] = value;
    }
}

VALUE_FORMATTER(format_readings)
{
    const struct baseline *b = at;
    int64_t distance = b->last_reading[METER_DISTANCE];
    int64_t hours = b->last_reading[METER_HOURS];

    if (distance < 0 && hours < 0)
        value_format_unset(k, out);
    if (distance >= 0)
        buf_print(
            out, "%lld %s", (long long)distance, fleet_unit_word(b->unit));
    if (hours >= 0)
        buf_print(
            out, "%s%lld hours", distance >= 0 ? ", " : "", (long long)hours);
}

const struct value_type value_readings = {
    .parse = parse_readings, .format = format_readings};
