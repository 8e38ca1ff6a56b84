#include "warnings.h"

#include "people.h"
#include "sheets.h"
#include "subject_def.h"

/* The vehicles that one warning is about: said once, of the first, for a fleet
 * of a thousand would bury what else there is. */
struct vehicles {
    const struct subject_def *first;
    size_t n;
};

static void
count_vehicle(struct vehicles *v, const struct subject_def *h)
{
    if (v->n++ == 0)
        v->first = h;
}

/* "K7", "K7 and 1 more vehicle", or "K7 and 11 more vehicles". */
static const char *
say_vehicles(struct load_context *r, const struct vehicles *v)
{
    const char *first = v->first->subject.id;
    const char *text = v->n == 1
                           ? first
                           : arena_print(r->arena, "%s and %zu more vehicle%s",
                                 first, v->n - 1, v->n == 2 ? "" : "s");

    return text != NULL ? text : first;
}

/* Whether the fleet follows the condition of its vehicles at all.  Where it
 * does not, nothing is missed. */
static int
follows_condition(const struct load_context *r)
{
    for (size_t i = 0; i < r->fleet->n_subjects; i++)
        if (r->defs[i].subject.n_sheets > 0)
            return 1;
    for (size_t i = 0; i < r->fleet->n_persons; i++)
        if (r->persons[i].may != 0)
            return 1;
    return 0;
}

/* What nobody can release stays off the road for good; and what one person
 * mends and releases alone nobody has looked over. */
static void
warn_release(struct load_context *r)
{
    struct vehicles none = {0}, one = {0};

    for (size_t i = 0; i < r->fleet->n_subjects; i++) {
        if (r->defs[i].subject.kind != SUBJECT_VEHICLE)
            continue;
        size_t n = people_count(r->fleet, MAY_RELEASE, &r->subjects[i]);
        if (n < 2)
            count_vehicle(n == 0 ? &none : &one, &r->defs[i]);
    }
    if (none.n > 0)
        context_warning(r, none.first->section->place,
            "nobody may release %s, so a defect that stops it does so for "
            "good; give two people may = release, and 'told' where it is",
            say_vehicles(r, &none));
    if (one.n > 0)
        context_warning(r, one.first->section->place,
            "only one person may release %s, and will be asked why they did "
            "it alone; give a second one may = release",
            say_vehicles(r, &one));
}

/* Rights go by the vehicles that somebody is told of. */
static void
warn_rights(struct load_context *r)
{
    for (const struct section *s = r->document->sections; s; s = s->next) {
        const struct person *p = s->object;
        if (s->kind != SECTION_PERSON || p->may == 0)
            continue;
        size_t i = 0;
        while (i < r->fleet->n_subjects &&
               (r->subjects[i].kind != SUBJECT_VEHICLE ||
                   !people_may(p, p->may, &r->subjects[i])))
            i++;
        if (i == r->fleet->n_subjects)
            context_warning(r, section_entry(s, "may")->place,
                "'may': %s is told of no vehicle, so this allows nothing; add "
                "all, a depot or a vehicle to 'told'",
                s->title);
    }
}

/* A vehicle that nobody walks round is taken for forgotten where others have a
 * sheet: said at its type, which is where one is missing. */
static void
warn_no_sheet(struct load_context *r)
{
    char *said = context_take(r, r->fleet->n_types + 1);

    for (size_t i = 0; said != NULL && i < r->fleet->n_subjects; i++) {
        const struct subject_def *h = &r->defs[i];
        const struct section *of = h->type ? h->type->section : h->section;
        if (h->subject.kind != SUBJECT_VEHICLE || h->subject.n_sheets > 0 ||
            (h->type != NULL && said[of->index]++))
            continue;
        context_warning(r, of->place,
            "%s has no check sheet, though other vehicles have one; add "
            "check = CHECK",
            of->title);
    }
}

/* A deferral ends at the next inspection at the latest; where no job is known
 * to be one, nobody qualified is sure to see the defect. */
static void
warn_no_inspection(struct load_context *r)
{
    struct vehicles none = {0};

    for (size_t i = 0; i < r->fleet->n_subjects; i++) {
        const struct subject_def *h = &r->defs[i];
        size_t k = 0;
        while (k < h->n_uses && !h->uses[k].job->inspection)
            k++;
        if (h->subject.kind == SUBJECT_VEHICLE && h->subject.n_sheets > 0 &&
            k == h->n_uses)
            count_vehicle(&none, h);
    }
    if (none.n > 0)
        context_warning(r, none.first->section->place,
            "%s has a check sheet and no job that says inspection = yes, at "
            "the next of which a defect that was put off has to be looked at; "
            "add it to the safety inspection or the yearly test",
            say_vehicles(r, &none));
}

static int
any_equipment(const struct load_context *r, const struct subject_type *type)
{
    for (size_t i = 0; i < r->fleet->n_subjects; i++)
        if (r->subjects[i].kind == SUBJECT_EQUIPMENT &&
            r->subjects[i].type == type)
            return 1;
    return 0;
}

/* A type that only vehicles have, or that nothing has any more, looks as if the
 * item were asked for. */
static void
warn_never_asked(struct load_context *r, const struct section *s)
{
    const struct check_sheet *sheet = &r->sheets[s->index];

    for (size_t i = 0; i < sheet->n_items; i++) {
        const struct check_item *item = &sheet->items[i];
        if (item->carried == NULL || any_equipment(r, item->carried))
            continue;
        const struct entry *e = section_job_entry(s, item->code, "carried");
        context_warning(r, e->place,
            "'%s': no equipment is of the type '%s', so nobody is ever asked "
            "for %s; add type = %s to what is meant",
            e->key, item->carried->id, item->code, item->carried->id);
    }
}

/* Where nobody walks round anything, nothing is missed of a vehicle; rights are
 * looked at all the same, for a failed job stops a vehicle too. */
void
warn_checks(struct load_context *r)
{
    int any = 0;

    for (const struct section *s = r->document->sections; s; s = s->next) {
        if (s->kind != SECTION_CHECK)
            continue;
        int used = sheets_used(r, s);
        any |= used;
        if (used)
            warn_never_asked(r, s);
        else if (!s->preset)
            context_warning(r, s->place,
                "no vehicle has the check sheet '%s'; add check = %s to one or "
                "to a type",
                s->id, s->id);
    }
    if (any) {
        warn_no_sheet(r);
        warn_no_inspection(r);
    }
    if (follows_condition(r))
        warn_release(r);
    warn_rights(r);
}
