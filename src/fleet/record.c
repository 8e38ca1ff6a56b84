#include "record.h"

#include <stdlib.h>
#include <string.h>
#include <strings.h>

#define WHO_WHEN (RECORD_HAS_SUBJECT | RECORD_HAS_DAY)
#define WORK (WHO_WHEN | RECORD_HAS_JOB)
#define ONE(kind) (1U << (kind))

/* The table of kinds: a new one is a row here, and its check at entry. */
static const struct record_kind_row kinds[RECORD_KINDS] = {
    [RECORD_COMPLETED] = {.word = "completed",
        .needs = WORK,
        .may = RECORD_HAS_READING,
        .is_result = 1,
        .is_due = 1},
    [RECORD_FAILED] = {.word = "failed",
        .needs = WORK,
        .may = RECORD_HAS_READING,
        .is_result = 1,
        .is_due = 1},
    [RECORD_READING] = {.word = "reading",
        .needs = WHO_WHEN | RECORD_HAS_READING,
        .is_due = 1},
    [RECORD_OFF_ROAD] = {.word = "off-road",
        .needs = WHO_WHEN,
        .may = RECORD_HAS_UNTIL,
        .voids = ONE(RECORD_OFF_ROAD),
        .is_due = 1},
    [RECORD_REPLACED] = {.word = "meter-replaced",
        .needs = WHO_WHEN | RECORD_HAS_READING,
        .is_due = 1},
    [RECORD_MOVED] = {.word = "moved",
        .needs = WHO_WHEN | RECORD_HAS_OTHER,
        .is_due = 1},
    [RECORD_BOOKED] = {.word = "booked",
        .needs = WORK | RECORD_HAS_CYCLE,
        .voids = ONE(RECORD_BOOKED)},
    [RECORD_UNBOOKED] = {.word = "unbooked",
        .needs = WORK | RECORD_HAS_CYCLE | RECORD_HAS_VOIDS,
        .voids = ONE(RECORD_BOOKED)},
    [RECORD_VOIDED] = {.word = "voided",
        .needs = RECORD_HAS_VOIDS,
        .voids = ~(ONE(RECORD_UNBOOKED) | ONE(RECORD_VOIDED))},
};

/* The names of the fields, in the order of their bits. */
static const char *const fields[] = {"subject", "job", "day", "last day",
    "reading", "vehicle that carries it", "cycle", "record that it is about",
    "record that it voids"};

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
    for (size_t i = 0; i < all; i++)
        if (kinds[records[i].kind].is_due)
            records[n++] = records[i];
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
           (r->cycle ? RECORD_HAS_CYCLE : 0) |
           (r->about != 0 ? RECORD_HAS_ABOUT : 0) |
           (voids != 0 ? RECORD_HAS_VOIDS : 0);
}

const char *
record_amiss(const struct record *r, int64_t voids, int *lacks)
{
    const struct record_kind_row *k = &kinds[r->kind];
    unsigned may = k->needs | k->may | (k->voids ? RECORD_HAS_VOIDS : 0);
    unsigned there = has(r, voids);

    for (size_t i = 0; i < sizeof fields / sizeof *fields; i++) {
        *lacks = (k->needs & ~there & 1U << i) != 0;
        if (*lacks || (there & ~may & 1U << i))
            return fields[i];
    }
    return NULL;
}
