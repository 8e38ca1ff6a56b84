#include "record.h"

#include <stdlib.h>

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
    size_t at = 0;

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

const char *
record_kind_word(enum record_kind kind)
{
    static const char *const words[] = {"completed", "failed", "reading",
        "off-road", "meter-replaced", "moved"};

    return words[kind];
}
