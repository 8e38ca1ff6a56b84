#include "value.h"

#include "holiday_file.h"
#include "items.h"
#include "num.h"
#include "scan.h"

#include <string.h>
#include <strings.h>

/* The longest closure, in days: ten years. */
#define CLOSED_MOST 3653

/* Easter and so many days stay in the year of that Easter. */
#define EASTER_BEFORE (-80)
#define EASTER_AFTER 250

#define NOT_A_RULE                                                             \
    "is not a yearly holiday; expected D MONTH, "                              \
    "first|second|third|fourth|fifth|last WEEKDAY of MONTH, or easter +N|-N"

static int
scan_month(struct scan *s)
{
    size_t len;
    const char *word = scan_peek(s, &len);
    int month = value_month(word, len);

    s->at += len;
    return month + 1;
}

static int
scan_weekday(struct scan *s)
{
    size_t len;
    const char *word = scan_peek(s, &len);
    int weekday = value_weekday(word, len);

    s->at += len;
    return weekday;
}

static int
take_easter(struct scan *s, struct holiday_rule *rule)
{
    size_t len;
    int64_t offset = 0;
    const char *word = scan_peek(s, &len);

    rule->kind = HOLIDAY_EASTER;
    if (len > 0) {
        size_t sign = word[0] == '+';
        if ((!sign && word[0] != '-') ||
            num_parse(word + sign, len - sign, sign ? 0 : EASTER_BEFORE,
                EASTER_AFTER, &offset))
            return -1;
        s->at += len;
    }
    rule->offset = (int)offset;
    return 0;
}

static int
take_fixed(struct scan *s, struct holiday_rule *rule)
{
    int64_t day;

    rule->kind = HOLIDAY_FIXED;
    if (!scan_number(s, 1, 31, &day))
        return -1;
    rule->month = scan_month(s);
    rule->day = (int)day;
    /* 2000 has a 29 February. */
    if (rule->month == 0 || day > day_month_length(2000, rule->month))
        return -1;
    return 0;
}

/* Easter is told by its word, the nth weekday by its place; all else has to be
 * a date. */
static int
take_yearly(const char *text, struct holiday_rule *rule)
{
    static const char *const places[] = {
        "first", "second", "third", "fourth", "fifth", "last", NULL};
    struct scan s = scan_start(text);
    int bad;

    if (scan_word(&s, "easter")) {
        bad = take_easter(&s, rule);
    } else {
        int nth = scan_choice(&s, places);
        if (nth < 0) {
            bad = take_fixed(&s, rule);
        } else {
            rule->kind = HOLIDAY_WEEKDAY;
            rule->nth = nth == 5 ? -1 : nth + 1;
            rule->weekday = scan_weekday(&s);
            bad = rule->weekday < 0 || !scan_word(&s, "of");
            rule->month = scan_month(&s);
            bad = bad || rule->month == 0;
        }
    }
    return bad || !scan_end(&s) ? -1 : 0;
}

/* Cut "A, B" after A, without blanks around either; "" when there is no B. */
static char *
cut_comma(char *text)
{
    size_t len = strcspn(text, ",");
    char *rest = text + len + (text[len] == ',');

    while (len > 0 && strchr(" \t", text[len - 1]))
        len--;
    text[len] = '\0';
    return rest + strspn(rest, " \t");
}

/* The name is the last part, and without one the rule itself is the name. */
static int
take_rule(struct load_context *r, struct entry *e, struct items *item,
    struct holiday_rule *rule)
{
    char *name = cut_comma(item->text);
    char *after = name + strcspn(name, ",");
    size_t word = (size_t)(after - name);

    *rule = (struct holiday_rule){.kind = HOLIDAY_FIXED};
    if (take_yearly(item->text, rule))
        return context_refuse(
            r, e, item->place, "'%s' " NOT_A_RULE, item->text);
    while (word > 0 && strchr(" \t", name[word - 1]))
        word--;
    if (word == strlen("substitute") &&
        strncasecmp(name, "substitute", word) == 0) {
        rule->substitute = 1;
        name = cut_comma(name);
    }
    if (*name == '\0')
        name = item->text;
    rule->name = context_copy(r, name, strlen(name));
    return 0;
}

VALUE_PARSER(parse_rules)
{
    struct holidays *h = at;
    size_t n = items_count(e, ITEMS_LINES);
    struct holiday_rule *rules = context_take(r, n * sizeof *rules);
    struct items item = items_of(e, ITEMS_LINES);

    if (rules == NULL)
        return;
    for (n = 0; items_next(&item);)
        n += take_rule(r, e, &item, &rules[n]) == 0;
    h->set.rules = rules;
    h->set.n_rules = n;
}

VALUE_FORMATTER(format_rules)
{
    value_format_number(
        k, ((const struct holidays *)at)->set.n_rules, "rule", out);
}

const struct value_type value_rules = {
    .parse = parse_rules, .format = format_rules};

/* Split "DAY NAME" or "DAY..DAY NAME": the name, or NULL when it is neither;
 * sets the length of what stands before. */
static const char *
name_after_day(const char *text, size_t *len)
{
    *len = strcspn(text, " \t");
    const char *name = text + *len + strspn(text + *len, " \t");
    return *name != '\0' ? name : NULL;
}

VALUE_PARSER(parse_added)
{
    struct items item = items_of(e, ITEMS_LINES);

    while (items_next(&item)) {
        size_t len;
        const char *name = name_after_day(item.text, &len);
        day_t day = day_parse(item.text, len);
        if (name == NULL || day == DAY_NONE)
            context_refuse(r, e, item.place,
                "'%s' is not a day added; expected YYYY-MM-DD NAME, one a line",
                item.text);
        else
            context_add_holiday(
                r, at, day, context_copy(r, name, strlen(name)));
    }
}

VALUE_FORMATTER(format_added)
{
    const struct holidays *h = at;

    value_format_number(k, h->set.n_added - h->n_published, "day", out);
}

const struct value_type value_added = {
    .parse = parse_added, .format = format_added};

VALUE_PARSER(parse_published)
{
    holiday_file_read(r, e, at);
}

VALUE_FORMATTER(format_published)
{
    const struct holidays *h = at;

    if (h->file != NULL)
        buf_print(out, "%s: ", h->file);
    value_format_number(k, h->n_published, "day", out);
}

const struct value_type value_published = {
    .parse = parse_published, .format = format_published};

VALUE_PARSER(parse_holidays)
{
    struct calendar *c = at;
    const char *text = context_text(r, e);
    if (text != NULL && strcasecmp(text, VALUE_NO_HOLIDAYS) == 0)
        return;
    const struct holiday_set **sets =
        context_take(r, items_count(e, ITEMS_WORDS) * sizeof(void *));
    struct items item = items_of(e, ITEMS_WORDS);
    size_t n = 0;

    while (sets != NULL && items_next(&item)) {
        const struct section *s =
            context_find(r, e, item.place, SECTION_HOLIDAYS, item.text);
        if (s != NULL)
            sets[n++] = &((const struct holidays *)s->object)->set;
    }
    c->plan.holidays = sets;
    c->plan.n_holidays = n;
}

/* The sections whose sets the calendar keeps, as it lists them. */
VALUE_FORMATTER(format_holidays)
{
    const struct work_calendar_plan *plan =
        &((const struct calendar *)at)->plan;

    if (plan->n_holidays == 0)
        value_format_unset(k, out);
    for (size_t i = 0; i < plan->n_holidays; i++)
        for (const struct section *s = r->document->sections; s; s = s->next)
            if (s->kind == SECTION_HOLIDAYS &&
                &((const struct holidays *)s->object)->set == plan->holidays[i])
                buf_print(out, "%s%s", i > 0 ? " " : "", s->id);
}

const struct value_type value_holidays = {
    .parse = parse_holidays, .format = format_holidays};

struct closure {
    day_t from;
    day_t to;
    const char *name;
};

/* A range goes from day to day without blanks, so that what follows the first
 * blank is the name. */
static const char *
take_closure(const char *text, struct closure *c)
{
    size_t len;
    c->name = name_after_day(text, &len);
    size_t one = strlen("YYYY-MM-DD");
    int range = len > one && strncmp(text + one, "..", 2) == 0;

    c->from = day_parse(text, range ? one : len);
    c->to = range ? day_parse(text + one + 2, len - one - 2) : c->from;
    if (c->name == NULL || c->from == DAY_NONE || c->to == DAY_NONE)
        return "is not a closure; expected YYYY-MM-DD NAME or "
               "YYYY-MM-DD..YYYY-MM-DD NAME, one a line";
    if (c->to < c->from)
        return "ends before it begins";
    if (c->to - c->from >= CLOSED_MOST)
        return "is longer than ten years; correct it or write several";
    return NULL;
}

/* Each closure day by day: into @days when it is not NULL; how many. */
static size_t
closed_days(struct load_context *r, struct entry *e, struct named_day *days)
{
    struct items item = items_of(e, ITEMS_LINES);
    struct closure c;
    size_t n = 0;

    while (items_next(&item)) {
        if (take_closure(item.text, &c) != NULL)
            continue;
        const char *name =
            days ? context_copy(r, c.name, strlen(c.name)) : NULL;
        for (day_t d = c.from; d <= c.to; d++, n++)
            if (days != NULL)
                days[n] = (struct named_day){d, name};
    }
    return n;
}

VALUE_PARSER(parse_closed)
{
    struct calendar *calendar = at;
    struct items item = items_of(e, ITEMS_LINES);
    struct closure c;

    while (items_next(&item)) {
        const char *wrong = take_closure(item.text, &c);
        if (wrong != NULL)
            context_refuse(r, e, item.place, "'%s' %s", item.text, wrong);
    }
    size_t n = closed_days(r, e, NULL);
    struct named_day *days = context_take(r, n * sizeof *days);
    if (days == NULL)
        return;
    calendar->plan.n_closed = closed_days(r, e, days);
    calendar->plan.closed = days;
}

VALUE_FORMATTER(format_closed)
{
    value_format_number(
        k, ((const struct calendar *)at)->plan.n_closed, "day", out);
}

const struct value_type value_closed = {
    .parse = parse_closed, .format = format_closed};
