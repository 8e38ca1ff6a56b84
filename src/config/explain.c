#include "explain.h"

#include "items.h"
#include "kind.h"
#include "sheets.h"
#include "value.h"

#include <stdio.h>
#include <string.h>

/* Where a value comes from: the entry that states it, in @outer unless that is
 * the section being shown; or, without one, in words. */
struct provenance {
    const struct entry *entry;
    const struct section *outer;
    const char *words;
};

struct explaining {
    const struct load_context *context;
    struct buf *out;
};

static void
say_place(struct explaining *x, struct place place, const struct section *outer)
{
    buf_print(x->out, "  (%s:%d", x->context->document->files[place.file],
        place.line);
    if (outer != NULL)
        buf_print(x->out, ", %s %s", section_word(outer->kind), outer->id);
    buf_text(x->out, ")\n");
}

static void
say_key(struct explaining *x, size_t indent, const struct key *k,
    const struct provenance *from, const void *part)
{
    buf_fill(x->out, ' ', indent);
    buf_print(x->out, "%-16s ", k->word);
    if (k->type->format != NULL)
        k->type->format(
            x->context, k, from->entry, (const char *)part + k->offset, x->out);
    else if (from->entry == NULL)
        value_format_unset(k, x->out);
    else
        for (const struct value_line *l = from->entry->lines; l; l = l->next)
            buf_print(
                x->out, "%s%s", l == from->entry->lines ? "" : " ", l->text);
    if (from->entry != NULL)
        say_place(x, from->entry->place, from->outer);
    else
        buf_print(x->out, "  (%s)\n", from->words);
}

/* The entry of the subject itself, of its type, or, of a job, of the job. */
static struct provenance
origin_of(
    const struct subject_def *h, const struct section *of_job, const char *key)
{
    const struct section *places[] = {
        h->section, h->type ? h->type->section : NULL, of_job};

    for (size_t i = 0; i < 3; i++) {
        const struct entry *e =
            of_job != NULL      ? section_job_entry(places[i], of_job->id, key)
            : places[i] != NULL ? section_entry(places[i], key)
                                : NULL;
        if (e != NULL)
            return (struct provenance){e, i > 0 ? places[i] : NULL, NULL};
    }
    return (struct provenance){.words = "default"};
}

/* A key of a job is shown when it bears on the job or is stated for it; of the
 * two words for the interval, the one that the job uses. */
static int
is_shown(const struct key *k, const struct use *use,
    const struct section *of_job, const struct provenance *from)
{
    if (strcmp(k->word, "every") == 0 || strcmp(k->word, "within") == 0)
        return section_entry(of_job, k->word) != NULL;
    if (from->entry != NULL)
        return 1;
    return !kind_never_due(use->rule) &&
           (k->applies == NULL || k->applies(use->rule));
}

/* A rule is shown key by key as it holds for this subject, whoever states
 * it. */
static void
explain_use(
    struct explaining *x, const struct subject_def *h, const struct use *use)
{
    const struct section *of_job =
        document_find(x->context->document, SECTION_JOB, use->job->id);
    const struct section *from = use->from == h->section ? NULL : use->from;

    buf_print(x->out, "  [job %s]", use->job->id);
    say_place(x, section_entry(use->from, "jobs")->place, from);
    for (size_t i = 0; i < key_table_size; i++) {
        const struct key *k = &key_table[i];
        const void *part = use->rule;
        if (k->part == PART_WHOLE || k->part == PART_ITEM)
            continue;
        if (k->part == PART_BASELINE)
            part = &use->baseline;
        struct provenance o = origin_of(h, of_job, k->word);
        if (is_shown(k, use, of_job, &o))
            say_key(x, 4, k, &o, part);
    }
}

/* What a record or the carrier decides is not in the section, so it is said in
 * words. */
static void
explain_subject(struct explaining *x, const struct section *s)
{
    const struct subject_def *h = s->object;
    char carrier[ID_MOST + 16];

    for (size_t i = 0; i < key_table_size; i++) {
        const struct key *k = &key_table[i];
        struct provenance o = origin_of(h, NULL, k->word);
        /* Each job says by itself who lists it. */
        if (!(k->sections >> s->kind & 1) || strcmp(k->word, "jobs") == 0)
            continue;
        if (strcmp(k->word, "carried-by") == 0 && h->moved)
            o = (struct provenance){.words = "a record"};
        if (strcmp(k->word, "depot") == 0 && h->subject.depot == NULL &&
            fleet_depot(&h->subject) != NULL) {
            snprintf(
                carrier, sizeof carrier, "vehicle %s", h->subject.carrier->id);
            o = (struct provenance){.words = carrier};
        }
        say_key(x, 2, k, &o, h);
    }
    for (size_t i = 0; i < h->n_uses; i++)
        explain_use(x, h, &h->uses[i]);
}

static void
explain_known_until(struct explaining *x, const struct calendar *c)
{
    day_t until = work_calendar_known_until(c->made);
    char day[DAY_TEXT];

    buf_print(x->out, "  %-16s %s  (its holidays)\n", "known-until",
        until == DAY_NONE ? "no end" : day_text(until, day));
}

/* Item by item in walking order, each with what is said of it. */
static void
explain_items(struct explaining *x, const struct section *s)
{
    static const char *const words[] = {"right", "carried"};
    const struct check_item *item =
        ((const struct sheet_def *)s->object)->sheet.items;
    struct items line = items_of(section_entry(s, "items"), ITEMS_LINES);

    while (items_next(&line)) {
        if (line.text[strlen(line.text) - 1] == ':') {
            buf_print(x->out, "  %s", line.text);
            say_place(x, line.place, NULL);
            continue;
        }
        buf_print(x->out, "  %-16s %s, %s", item->code, item->text,
            sheet_grade_word(item->grade));
        say_place(x, line.place, NULL);
        for (size_t i = 0; i < sizeof words / sizeof *words; i++) {
            struct entry *e = section_job_entry(s, item->code, words[i]);
            if (e == NULL)
                continue;
            buf_print(x->out, "  %s.%-*s %s", item->code,
                15 - (int)strlen(item->code), words[i],
                i == 0 ? item->right : item->carried->id);
            say_place(x, e->place, NULL);
        }
        item++;
    }
}

static void
explain_plain(struct explaining *x, const struct section *s)
{
    for (size_t i = 0; i < key_table_size; i++) {
        const struct key *k = &key_table[i];
        struct provenance o = {section_entry(s, k->word), NULL, "default"};
        if ((k->sections >> s->kind & 1) && k->part == PART_WHOLE)
            say_key(x, 2, k, &o, s->object);
    }
    if (s->kind == SECTION_CALENDAR)
        explain_known_until(x, s->object);
    if (s->kind == SECTION_CHECK)
        explain_items(x, s);
}

static int
is_had(const struct load_context *r, const struct job *job)
{
    for (size_t i = 0; i < r->fleet->n_tasks; i++)
        if (r->tasks[i].job == job)
            return 1;
    return 0;
}

/* What is only on offer does not bear on the fleet. */
static int
is_unused(const struct load_context *r, const struct section *s)
{
    if (s->kind == SECTION_JOB)
        return s->preset && !is_had(r, s->object);
    if (s->kind == SECTION_HOLIDAYS)
        return s->preset && !context_is_kept(r, s->object);
    if (s->kind == SECTION_CHECK)
        return s->preset && !sheets_used(r, s);
    return 0;
}

/* All sections of one group, in the order of the files. */
static void
explain_group(struct explaining *x, enum section_kind kind)
{
    for (const struct section *s = x->context->document->sections; s != NULL;
         s = s->next) {
        if (section_group(s->kind) != kind || is_unused(x->context, s))
            continue;
        buf_text(x->out, s->title);
        say_place(x, s->place, NULL);
        if (kind == SECTION_VEHICLE)
            explain_subject(x, s);
        else
            explain_plain(x, s);
        buf_text(x->out, "\n");
    }
}

void
explain_fleet(const struct load_context *r, struct buf *out)
{
    static const enum section_kind order[] = {SECTION_SITE, SECTION_MAIL,
        SECTION_SERVER, SECTION_HOLIDAYS, SECTION_CALENDAR, SECTION_DEPOT,
        SECTION_JOB, SECTION_CHECK, SECTION_PERSON, SECTION_FEED, SECTION_LIMIT,
        SECTION_VEHICLE};
    struct explaining x = {r, out};

    for (size_t i = 0; i < sizeof order / sizeof order[0]; i++)
        explain_group(&x, order[i]);
}
