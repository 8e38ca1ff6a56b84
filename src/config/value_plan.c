#include "value.h"

#include "holder.h"
#include "items.h"
#include "num.h"
#include "scan.h"

#include <string.h>

#define VEHICLES_MOST 1000
#define DAY_MINUTES INT64_C(1440)

/* What the planner goes by: places, work and who may be away. */

static void
read_few(struct reading *r, struct entry *e, int64_t least, int64_t *at)
{
    const char *text = reading_text(r, e);

    if (text != NULL && num_parse(text, strlen(text), least, VEHICLES_MOST, at))
        reading_refuse(r, e, e->place,
            "'%s' is not a number of vehicles from %lld to %d", text,
            (long long)least, VEHICLES_MOST);
}

void
value_few(struct reading *r, const struct key *k, struct entry *e, void *at)
{
    (void)k;
    read_few(r, e, 1, at);
}

void
value_away(struct reading *r, const struct key *k, struct entry *e, void *at)
{
    (void)k;
    read_few(r, e, 0, at);
}

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

void
value_hours_a_day(
    struct reading *r, const struct key *k, struct entry *e, void *at)
{
    const char *text = reading_text(r, e);
    int64_t minutes = text ? minutes_of_hours(text) : 1;

    (void)k;
    if (minutes < 1 || minutes > DAY_MINUTES)
        reading_refuse(r, e, e->place,
            "'%s' is not the hours of a working day; expected HOURS up to 24, "
            "such as 7.5",
            text);
    else
        *(int64_t *)at = minutes;
}

static int64_t
take_work(const char *text)
{
    static const char *const minutes[] = {"minutes", "minute", NULL};
    static const char *const hours[] = {"hours", "hour", NULL};
    struct scan s = scan_start(text);
    char number[ITEM_SIZE];
    int64_t n;

    if (!scan_any(&s, number, sizeof number))
        return -1;
    if (scan_choice(&s, minutes) >= 0)
        return scan_end(&s) && num_parse(number, strlen(number), 1, DAY_MINUTES,
                                   &n) == 0
                   ? n
                   : -1;
    if (scan_choice(&s, hours) >= 0 && scan_end(&s))
        return minutes_of_hours(number);
    return -1;
}

void
value_takes(struct reading *r, const struct key *k, struct entry *e, void *at)
{
    const char *text = reading_text(r, e);
    int64_t minutes = text ? take_work(text) : 1;

    (void)k;
    if (minutes < 1 || minutes > DAY_MINUTES)
        reading_refuse(r, e, e->place,
            "'%s' is not how long work takes; expected N minutes or HOURS "
            "hours, at most 24 hours",
            text);
    else
        *(int64_t *)at = minutes;
}

/* One item of 'of': which vehicles. */
struct members {
    int all;
    const struct depot *depot;
    const struct holder *type;
    const struct subject *one;
};

static int
refuse_member(struct reading *r, struct entry *e, const struct items *item)
{
    return reading_refuse(r, e, item->place,
        "'%s' does not say which vehicles; expected all, depot DEPOT, type "
        "TYPE or subject VEHICLE",
        item->text);
}

static int
take_named(struct reading *r, struct entry *e, const struct items *item,
    const struct section *found, struct members *m)
{
    if (found == NULL)
        return -1;
    if (found->kind == SECTION_DEPOT)
        m->depot = found->object;
    else if (found->kind == SECTION_TYPE)
        m->type = found->object;
    else if (found->kind == SECTION_VEHICLE)
        m->one = &r->subjects[found->index];
    else
        return reading_refuse(r, e, item->place,
            "'%s' is no vehicle; only vehicles are away", found->id);
    return 0;
}

static int
take_members(struct reading *r, struct entry *e, const struct items *item,
    struct members *m)
{
    static const char *const words[] = {
        "all", "depot", "type", "subject", NULL};
    static const enum section_kind kinds[] = {
        SECTION_SITE, SECTION_DEPOT, SECTION_TYPE, SECTION_VEHICLE};
    struct scan s = scan_start(item->text);
    char id[ITEM_SIZE];
    int kind = scan_choice(&s, words);

    *m = (struct members){.all = kind == 0};
    if (kind < 0 || (kind > 0 && !scan_any(&s, id, sizeof id)) || !scan_end(&s))
        return refuse_member(r, e, item);
    if (m->all)
        return 0;
    return take_named(
        r, e, item, reading_find(r, e, item->place, kinds[kind], id), m);
}

static int
is_member(const struct members *m, const struct holder *h)
{
    return m->all || (m->depot && fleet_depot(&h->subject) == m->depot) ||
           (m->type && h->type == m->type) ||
           (m->one && m->one->index == h->subject.index);
}

static void
add_member(struct away_limit *l, const struct subject *s)
{
    for (size_t i = 0; i < l->n_of; i++)
        if (l->of[i] == s)
            return;
    l->of[l->n_of++] = s;
}

void
value_limited(struct reading *r, const struct key *k, struct entry *e, void *at)
{
    struct away_limit *l = at;
    struct items item = items_of(e, ITEMS_COMMAS);
    struct members m;

    (void)k;
    l->of = reading_take(r, (r->fleet->n_subjects + 1) * sizeof(void *));
    while (l->of != NULL && items_next(&item)) {
        if (take_members(r, e, &item, &m))
            continue;
        for (size_t i = 0; i < r->fleet->n_subjects; i++)
            if (r->holders[i].subject.kind == SUBJECT_VEHICLE &&
                is_member(&m, &r->holders[i]))
                add_member(l, &r->subjects[i]);
    }
    if (l->n_of == 0 && !e->refused)
        reading_refuse(r, e, e->place, "there is no such vehicle");
}

void
value_on(struct reading *r, const struct key *k, struct entry *e, void *at)
{
    struct away_limit *l = at;
    const char *id = reading_text(r, e);
    const struct section *found =
        id ? reading_find(r, e, e->place, SECTION_CALENDAR, id) : NULL;

    (void)k;
    if (found != NULL)
        l->on = ((const struct calendar *)found->object)->workplace;
}
