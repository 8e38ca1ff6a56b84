#include "fleet.h"

#include <string.h>
#include <strings.h>

const struct depot *
fleet_depot(const struct subject *s)
{
    while (s->depot == NULL && s->carrier != NULL)
        s = s->carrier;
    return s->depot;
}

const struct workplace *
fleet_workplace(const struct task *t)
{
    const struct depot *depot = fleet_depot(t->subject);

    if (t->rule->at != NULL)
        return t->rule->at;
    return depot ? depot->at : NULL;
}

const struct workplace *
fleet_workplace_named(const struct fleet *f, const char *id)
{
    for (size_t i = 0; i < f->n_workplaces; i++)
        if (strcasecmp(f->workplaces[i].id, id) == 0)
            return &f->workplaces[i];
    return NULL;
}

const struct subject *
fleet_subject(const struct fleet *f, const char *id)
{
    for (size_t i = 0; i < f->n_subjects; i++)
        if (strcasecmp(f->subjects[i].id, id) == 0)
            return &f->subjects[i];
    return NULL;
}

const struct job *
fleet_job(const struct fleet *f, const char *id)
{
    for (size_t i = 0; i < f->n_jobs; i++)
        if (strcasecmp(f->jobs[i].id, id) == 0)
            return &f->jobs[i];
    return NULL;
}

const struct task *
fleet_task(const struct fleet *f, const struct subject *s, const struct job *j)
{
    for (size_t i = 0; i < s->n_tasks; i++)
        if (f->tasks[s->first_task + i].job == j)
            return &f->tasks[s->first_task + i];
    return NULL;
}

const char *fleet_class_word(enum job_class class)
{
    static const char *const words[] = {
        "law", "recommendation", "maker", "own"};

    return words[class];
}

const char *
fleet_kind_word(enum subject_kind kind)
{
    static const char *const words[] = {"vehicle", "equipment", "driver"};

    return words[kind];
}

const char *
fleet_unit_word(enum distance_unit unit)
{
    return unit == UNIT_KM ? "km" : "miles";
}

const char *
fleet_meter_word(const struct subject *s, enum meter meter)
{
    return meter == METER_HOURS ? "hours" : fleet_unit_word(s->unit);
}

enum distance_unit
fleet_other_unit(enum distance_unit unit)
{
    return unit == UNIT_KM ? UNIT_MILES : UNIT_KM;
}

#define MM_PER_KM 1000000
#define MM_PER_MILE 1609344

static int64_t
mm_per(enum distance_unit unit)
{
    return unit == UNIT_KM ? MM_PER_KM : MM_PER_MILE;
}

int64_t
fleet_in_unit(int64_t n, enum distance_unit from, enum distance_unit to)
{
    return from == to ? n : n * mm_per(from) / mm_per(to);
}

int64_t
fleet_in_unit_at_most(int64_t n, enum distance_unit from, enum distance_unit to)
{
    int64_t mm = n * mm_per(from);

    return from == to ? n : mm / mm_per(to) + (mm % mm_per(to) > 0);
}
