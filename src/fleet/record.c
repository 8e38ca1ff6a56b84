#include "record.h"

#include "buf.h"

#include <stdlib.h>
#include <string.h>
#include <strings.h>

#define WHO_WHEN (RECORD_HAS_SUBJECT | RECORD_HAS_DAY)
#define WORK (WHO_WHEN | RECORD_HAS_JOB)

_Static_assert(RECORD_KINDS <= 32, "a bit for each kind");

/* The fields of a body, each {word, type, whether it is needed, how it is
 * said}. */
#define BODY(...)                                                              \
    (const struct record_body_field[])                                         \
    {                                                                          \
        __VA_ARGS__,                                                           \
        {                                                                      \
            NULL, RECORD_TEXT, 0, NULL                                         \
        }                                                                      \
    }
/* As due_cycle_text() has it. */
#define CYCLE                                                                  \
    {                                                                          \
        "cycle", RECORD_TEXT, 1, NULL                                          \
    }

#define ON_DEFECT (RECORD_HAS_DAY | RECORD_HAS_ABOUT)
#define AT_AND_ALONE                                                           \
    {"at", RECORD_CLOCK, 1, "at"},                                             \
    {                                                                          \
        "alone", RECORD_NUMBER, 0, NULL                                        \
    }

/* The table of kinds: a new one is a row here, and its check at entry. */
static const struct record_kind_row kinds[RECORD_KINDS] = {
    [RECORD_COMPLETED] = {.word = "completed",
        .needs = WORK,
        .may = RECORD_HAS_READING,
        .is_result = 1,
        .is_due = 1,
        .is_imported = 1},
    [RECORD_FAILED] = {.word = "failed",
        .needs = WORK,
        .may = RECORD_HAS_READING,
        .is_result = 1,
        .is_due = 1,
        .is_imported = 1},
    [RECORD_READING] = {.word = "reading",
        .needs = WHO_WHEN | RECORD_HAS_READING,
        .is_due = 1,
        .is_imported = 1},
    [RECORD_OFF_ROAD] = {.word = "off-road",
        .needs = WHO_WHEN,
        .may = RECORD_HAS_UNTIL,
        .voids = RECORD_BIT(RECORD_OFF_ROAD),
        .is_due = 1},
    [RECORD_REPLACED] = {.word = "meter-replaced",
        .needs = WHO_WHEN | RECORD_HAS_READING,
        .is_due = 1},
    [RECORD_MOVED] = {.word = "moved",
        .needs = WHO_WHEN | RECORD_HAS_OTHER,
        .about = RECORD_BIT(RECORD_MOVED), /* which stands in for it */
        .is_due = 1},
    [RECORD_BOOKED] = {.word = "booked",
        .needs = WORK,
        .body = BODY(CYCLE),
        .voids = RECORD_BIT(RECORD_BOOKED)},
    [RECORD_UNBOOKED] = {.word = "unbooked",
        .needs = WORK | RECORD_HAS_VOIDS,
        .body = BODY(CYCLE),
        .voids = RECORD_BIT(RECORD_BOOKED)},
    [RECORD_VOIDED] = {.word = "voided",
        .needs = RECORD_HAS_VOIDS,
        .voids = ~(RECORD_BIT(RECORD_UNBOOKED) | RECORD_BIT(RECORD_VOIDED)),
        .about = RECORD_BIT(RECORD_MOVED)}, /* which brought what was missing */
    [RECORD_CHECKED] = {.word = "checked",
        .needs = WHO_WHEN,
        .may = RECORD_HAS_READING,
        .body = BODY({"sheet", RECORD_TEXT, 1, NULL},
            {"at", RECORD_CLOCK, 1, "at"}, {"nil", RECORD_NUMBER, 1, NULL},
            {"answered", RECORD_LIST, 0, NULL}, /* numbers of defects */
            {"reported", RECORD_LIST, 0, NULL}, /* of records before it */
            {"items", RECORD_LIST, 0, NULL}, {"opened", RECORD_CLOCK, 0, NULL},
            {"end", RECORD_NUMBER, 0, NULL},
            {"paper", RECORD_TEXT, 0, "paper"})},
    [RECORD_REPORTED] = {.word = "reported",
        .needs = WHO_WHEN,
        .about = RECORD_BIT(RECORD_REPORTED) | RECORD_BIT(RECORD_CHECKED) |
                 RECORD_BIT(RECORD_FAILED) | RECORD_BIT(RECORD_MOVED),
        .body = BODY({"item", RECORD_TEXT, 1, "item"},
            {"grade", RECORD_TEXT, 1, "grade"},
            {"at", RECORD_CLOCK, 0, "at"}, /* none: at some time that day */
            {"number", RECORD_NUMBER, 0, "defect"},
            {"check", RECORD_NUMBER, 0, NULL},
            {"paper", RECORD_TEXT, 0, "paper"})},
    [RECORD_ASSESSED] = {.word = "assessed",
        .needs = ON_DEFECT,
        .may = RECORD_HAS_SUBJECT | RECORD_HAS_UNTIL,
        .about = RECORD_BIT(RECORD_REPORTED),
        .body = BODY({"verdict", RECORD_TEXT, 1, "verdict"}, AT_AND_ALONE,
            {"up-to", RECORD_NUMBER, 0, "up to"})}, /* a reading, no fact */
    [RECORD_REPAIRED] = {.word = "repaired",
        .needs = ON_DEFECT,
        .may = RECORD_HAS_SUBJECT,
        .about = RECORD_BIT(RECORD_REPORTED),
        .body = BODY(AT_AND_ALONE)},
    [RECORD_RELEASED] = {.word = "released",
        .needs = ON_DEFECT,
        .may = RECORD_HAS_SUBJECT,
        .about = RECORD_BIT(RECORD_REPORTED) | RECORD_BIT(RECORD_FAILED),
        .body = BODY(AT_AND_ALONE)},
    [RECORD_LEFT] = {.word = "left",
        .needs = WHO_WHEN,
        .body = BODY({"why", RECORD_TEXT, 1, NULL})},
};

/* The names of the fields, in the order of their bits. */
static const char *const fields[] = {"subject", "job", "day", "last day",
    "reading", "vehicle that carries it", "record that it is about",
    "record that it voids"};

/* What a value of that type is, for messages. */
static const char *const types[] = {[RECORD_TEXT] = "a text",
    [RECORD_PERSON] = "the id of a person",
    [RECORD_NUMBER] = "a whole number",
    [RECORD_DAY] = "a day",
    [RECORD_CLOCK] = "a time of day",
    [RECORD_LIST] = "a list of texts"};

static int
by_subject_and_day(const void *left, const void *right)
{
    const struct record *a = left;
    const struct record *b = right;

    /* Subjects stand in one array; NULL, the unknown, comes first. */
    if (a->subject != b->subject)
        return a->subject < b->subject ? -1 : 1;
    if (a->day != b->day)
        return a->day < b->day ? -1 : 1;
    return (a->id > b->id) - (a->id < b->id);
}

struct facts
facts_of(
    const struct fleet *fleet, struct record *records, size_t n, size_t *first)
{
    size_t all = n;
    size_t at = 0;

    n = 0;
    for (size_t i = 0; i < all; i++) {
        if (kinds[records[i].kind].is_due)
            records[n++] = records[i];
        else if (records[i].reading >= 0) {
            /* Of a check the dues see what the meter showed. */
            records[n] = records[i];
            records[n++].kind = RECORD_READING;
        }
    }
    if (n > 1)
        qsort(records, n, sizeof *records, by_subject_and_day);
    while (at < n && records[at].subject == NULL)
        at++;
    for (size_t s = 0; s < fleet->n_subjects; s++) {
        first[s] = at;
        while (at < n && records[at].subject == &fleet->subjects[s])
            at++;
    }
    first[fleet->n_subjects] = at;
    return (struct facts){fleet, records, first};
}

static enum distance_unit
unit_of(const struct record *r)
{
    enum distance_unit unit = r->subject->unit;

    return r->other_unit ? fleet_other_unit(unit) : unit;
}

const char *
record_unit_word(const struct record *r)
{
    if (r->meter == METER_HOURS)
        return "hours";
    return r->subject ? fleet_unit_word(unit_of(r)) : "";
}

int64_t
record_reading(const struct record *r)
{
    if (r->meter == METER_HOURS || r->reading < 0)
        return r->reading;
    return fleet_in_unit(r->reading, unit_of(r), r->subject->unit);
}

int64_t
record_reading_at_most(const struct record *r)
{
    if (r->meter == METER_HOURS || r->reading < 0)
        return r->reading;
    return fleet_in_unit_at_most(r->reading, unit_of(r), r->subject->unit);
}

const struct record_kind_row *
record_kind(enum record_kind kind)
{
    return &kinds[kind];
}

const char *
record_kind_word(enum record_kind kind)
{
    return kinds[kind].word;
}

int
record_kind_find(const char *word)
{
    for (int k = 0; k < RECORD_KINDS; k++)
        if (strcmp(kinds[k].word, word) == 0)
            return k;
    return -1;
}

int
record_result(const char *word)
{
    for (int k = 0; k < RECORD_KINDS; k++)
        if (kinds[k].is_result && strcasecmp(kinds[k].word, word) == 0)
            return k;
    return -1;
}

int
record_imported(const char *word)
{
    for (int k = 0; k < RECORD_KINDS; k++)
        if (kinds[k].is_imported && strcasecmp(kinds[k].word, word) == 0)
            return k;
    return -1;
}

const struct record_value *
record_value(const struct record *r, const char *word)
{
    for (size_t i = 0; i < r->n_values; i++)
        if (strcmp(r->values[i].word, word) == 0)
            return &r->values[i];
    return NULL;
}

const char *
record_text(const struct record *r, const char *word)
{
    const struct record_value *v = record_value(r, word);

    return v ? v->text : NULL;
}

static void
say_value(const struct record_body_field *b, const struct record_value *v,
    struct buf *out)
{
    char day[DAY_WORDS];

    buf_print(out, "  %s ", b->said);
    switch (b->type) {
    case RECORD_TEXT:
    case RECORD_PERSON:
        buf_text(out, v->text);
        break;
    case RECORD_NUMBER:
        buf_print(out, "%lld", (long long)v->number);
        break;
    case RECORD_DAY:
        buf_text(out, day_words((day_t)v->number, day));
        break;
    case RECORD_CLOCK:
        buf_print(out, "%02d:%02d", (int)v->number / 60, (int)v->number % 60);
        break;
    case RECORD_LIST:
        for (size_t i = 0; i < v->n_items; i++)
            buf_print(out, "%s%s", i ? ", " : "", v->items[i]);
        break;
    }
}

void
record_say(const struct record *r, struct buf *out)
{
    const struct record_body_field *b = kinds[r->kind].body;
    char until[DAY_WORDS];

    if (r->reading >= 0)
        buf_print(
            out, "  at %lld %s", (long long)r->reading, record_unit_word(r));
    if (r->until != DAY_NONE)
        buf_print(out, "  to %s", day_words(r->until, until));
    if (r->other_id != NULL)
        buf_print(out, "  to %s", r->other_id);
    if (r->about != 0)
        buf_print(out, "  about record %lld", (long long)r->about);
    for (; b != NULL && b->word != NULL; b++)
        if (b->said != NULL && record_value(r, b->word) != NULL)
            say_value(b, record_value(r, b->word), out);
    if (r->by != NULL)
        buf_print(out, "  by %s", r->by);
    if (r->reference != NULL)
        buf_print(out, "  ref %s", r->reference);
    if (r->note != NULL)
        buf_print(out, "  \"%s\"", r->note);
}

/* The fields that @r has, as bits. */
static unsigned
has(const struct record *r, int64_t voids)
{
    return (r->subject_id ? RECORD_HAS_SUBJECT : 0) |
           (r->job_id ? RECORD_HAS_JOB : 0) |
           (r->day != DAY_NONE ? RECORD_HAS_DAY : 0) |
           (r->until != DAY_NONE ? RECORD_HAS_UNTIL : 0) |
           (r->reading >= 0 ? RECORD_HAS_READING : 0) |
           (r->other_id ? RECORD_HAS_OTHER : 0) |
           (r->about != 0 ? RECORD_HAS_ABOUT : 0) |
           (voids != 0 ? RECORD_HAS_VOIDS : 0);
}

/* Nonzero when @v is what its field has to be.  Only what that type reads may
 * be there: the rest would be lost without a word. */
static int
is_of_type(const struct record_value *v, enum record_type type)
{
    int is_text = v->text != NULL && v->text[0] != '\0';
    int is_bare = v->text == NULL && v->items == NULL && v->n_items == 0;

    switch (type) {
    case RECORD_TEXT:
    case RECORD_PERSON:
        return is_text && v->number == 0 && v->n_items == 0;
    case RECORD_NUMBER:
        return is_bare;
    case RECORD_DAY:
        return is_bare && v->number >= DAY_FIRST && v->number <= DAY_LAST;
    case RECORD_CLOCK:
        return is_bare && v->number >= 0 && v->number < 24 * 60;
    case RECORD_LIST:
        for (size_t i = 0; i < v->n_items; i++)
            if (v->items[i] == NULL || v->items[i][0] == '\0')
                return 0;
        return v->text == NULL && v->number == 0;
    }
    return 0;
}

/* Each field at most once, and none that the kind has not. */
static enum record_amiss
body_amiss(const struct record *r, const char **field, const char **type)
{
    const struct record_body_field *b = kinds[r->kind].body;
    size_t known = 0;

    for (; b != NULL && b->word != NULL; b++) {
        const struct record_value *v = record_value(r, b->word);
        *field = b->word;
        *type = types[b->type];
        if (v == NULL && b->is_needed)
            return RECORD_LACKS;
        if (v != NULL && !is_of_type(v, b->type))
            return RECORD_IS_NOT;
        known += v != NULL;
    }
    if (known == r->n_values)
        return RECORD_FITS;
    *field = "other field, nor one twice";
    return RECORD_HAS_NO;
}

enum record_amiss
record_amiss(const struct record *r, int64_t voids, const char **field,
    const char **type)
{
    const struct record_kind_row *k = &kinds[r->kind];
    unsigned may = k->needs | k->may | (k->voids ? RECORD_HAS_VOIDS : 0) |
                   (k->about ? RECORD_HAS_ABOUT : 0);
    unsigned there = has(r, voids);

    for (size_t i = 0; i < sizeof fields / sizeof *fields; i++) {
        *field = fields[i];
        if (k->needs & ~there & 1U << i)
            return RECORD_LACKS;
        if (there & ~may & 1U << i)
            return RECORD_HAS_NO;
    }
    return body_amiss(r, field, type);
}
