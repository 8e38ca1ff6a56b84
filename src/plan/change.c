#include "change.h"

#include "num.h"
#include "scan.h"
#include "suggest.h"

#include <stdio.h>
#include <string.h>
#include <strings.h>

#define WORD 64
#define CHANGE_TEXT 200

/* One change while it is read. */
struct change_reader {
    const struct fleet *fleet;
    struct scan scan;
    const char *text;
    char *fault;
};

static int
refuse(struct change_reader *r, const char *what)
{
    snprintf(r->fault, CHANGE_FAULT,
        "'%.60s' %s; expected place PLACE N, hours PLACE HOURS, away LIMIT N, "
        "sold SUBJECT, shut PLACE DAY..DAY or holiday DAY",
        r->text, what);
    return -1;
}

static int
unknown(struct change_reader *r, const char *what, const char *id,
    struct suggest near)
{
    const char *best = suggest_best(&near);

    snprintf(r->fault, CHANGE_FAULT, "the fleet file has no %s '%s'%s%s%s",
        what, id, best ? "; did you mean '" : "", best ? best : "",
        best ? "'?" : "");
    return -1;
}

static int
take_place(struct change_reader *r, struct change *c)
{
    char id[WORD];
    struct suggest near;

    if (!scan_any(&r->scan, id, sizeof id))
        return refuse(r, "names no place");
    c->place = fleet_workplace_named(r->fleet, id);
    if (c->place != NULL)
        return 0;
    near = suggest_start(id);
    for (size_t i = 0; i < r->fleet->n_workplaces; i++)
        suggest_offer(&near, r->fleet->workplaces[i].id);
    return unknown(r, "calendar", id, near);
}

static int
take_limit(struct change_reader *r, struct change *c)
{
    char id[WORD];
    struct suggest near;

    if (!scan_any(&r->scan, id, sizeof id))
        return refuse(r, "names no limit");
    near = suggest_start(id);
    for (size_t i = 0; i < r->fleet->n_limits; i++) {
        if (strcasecmp(r->fleet->limits[i].id, id) == 0) {
            c->limit = &r->fleet->limits[i];
            return 0;
        }
        suggest_offer(&near, r->fleet->limits[i].id);
    }
    return unknown(r, "limit", id, near);
}

static int
take_subject(struct change_reader *r, struct change *c)
{
    char id[WORD];
    struct suggest near;

    if (!scan_any(&r->scan, id, sizeof id))
        return refuse(r, "names nothing that could be sold");
    c->subject = fleet_subject(r->fleet, id);
    if (c->subject != NULL)
        return 0;
    near = suggest_start(id);
    for (size_t i = 0; i < r->fleet->n_subjects; i++)
        suggest_offer(&near, r->fleet->subjects[i].id);
    return unknown(r, "subject", id, near);
}

static int
take_number(struct change_reader *r, struct change *c)
{
    int64_t n;

    if (!scan_number(&r->scan, 0, 1000, &n))
        return refuse(r, "says no number from 0 to 1000");
    c->amount = (int)n;
    return 0;
}

/* Whole hours, or with a half: the fleet file takes finer ones. */
static int
take_hours(struct change_reader *r, struct change *c)
{
    char text[WORD];
    int64_t n;

    if (!scan_any(&r->scan, text, sizeof text))
        return refuse(r, "says no hours");
    size_t len = strcspn(text, ".");
    int half = strcmp(text + len, ".5") == 0;
    if (num_parse(text, len, 0, 24, &n) || (text[len] != '\0' && !half))
        return refuse(r, "says no hours such as 7 or 7.5");
    c->amount = (int)n * 60 + half * 30;
    return 0;
}

/* A day, or a range of days. */
static int
take_days(struct change_reader *r, struct change *c)
{
    char text[WORD];

    if (!scan_any(&r->scan, text, sizeof text))
        return refuse(r, "says no day");
    const char *dots = strstr(text, "..");
    size_t len = dots ? (size_t)(dots - text) : strlen(text);
    c->from = c->to = day_parse(text, len);
    if (dots != NULL)
        c->to = day_parse(dots + 2, strlen(dots + 2));
    if (c->from == DAY_NONE || c->to == DAY_NONE || c->to < c->from)
        return refuse(r, "says no days such as 2027-02-01..2027-02-14");
    return 0;
}

static int
take_change(struct change_reader *r, struct change *c)
{
    static const char *const words[] = {
        "place", "hours", "away", "sold", "shut", "holiday", NULL};
    int kind = scan_choice(&r->scan, words);

    if (kind < 0)
        return refuse(r, "is no change");
    *c = (struct change){
        .kind = (enum change_kind)kind, .from = DAY_NONE, .to = DAY_NONE};
    switch (c->kind) {
    case CHANGE_VEHICLES:
        return take_place(r, c) || take_number(r, c) ? -1 : 0;
    case CHANGE_MINUTES:
        return take_place(r, c) || take_hours(r, c) ? -1 : 0;
    case CHANGE_AWAY:
        return take_limit(r, c) || take_number(r, c) ? -1 : 0;
    case CHANGE_SOLD:
        return take_subject(r, c);
    case CHANGE_SHUT:
        return take_place(r, c) || take_days(r, c) ? -1 : 0;
    case CHANGE_HOLIDAY:
        return take_days(r, c);
    }
    return -1;
}

static int
read_one(const struct fleet *f, const char *text, struct change *out,
    char fault[CHANGE_FAULT])
{
    struct change_reader r = {f, scan_start(text), text, fault};

    if (take_change(&r, out))
        return -1;
    return scan_end(&r.scan) ? 0 : refuse(&r, "goes on too long");
}

int
change_read(const struct fleet *f, const char *text,
    struct change out[CHANGES_MOST], size_t *n, char fault[CHANGE_FAULT])
{
    char one[CHANGE_TEXT];

    *n = 0;
    for (;;) {
        size_t len = strcspn(text, ",");
        if (len >= sizeof one || *n == CHANGES_MOST) {
            snprintf(fault, CHANGE_FAULT,
                "that is too much at once; at most %d changes", CHANGES_MOST);
            return -1;
        }
        memcpy(one, text, len);
        one[len] = '\0';
        if (read_one(f, one, &out[*n], fault))
            return -1;
        ++*n;
        if (text[len] == '\0')
            return 0;
        text += len + 1;
    }
}
