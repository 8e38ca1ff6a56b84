#include "stated_line.h"

#include "document.h"

#include <stdio.h>

/* The line of @section that says @word of the job, or NULL. */
static const struct entry *
own_line(const struct section *section, const struct job *job, const char *word)
{
    char key[ID_MOST + 16];

    if (section == NULL)
        return NULL;
    snprintf(key, sizeof key, "%s.%s", job->id, word);
    return section_entry(section, key);
}

static const struct entry *
line_of(const struct reading *r, const struct task *t)
{
    const struct holder *h = &r->holders[t->subject->index];
    const struct entry *e = own_line(h->section, t->job, "deadline");

    if (e == NULL)
        e = own_line(h->section, t->job, "first");
    if (e == NULL && h->type != NULL)
        e = own_line(h->type->section, t->job, "first");
    if (e == NULL)
        e = section_entry(
            document_find(r->document, SECTION_JOB, t->job->id), "first");
    return e;
}

void
stated_line_warn(const struct reading *r, const struct task *t,
    const char *text, struct problems *ps)
{
    const struct entry *e = line_of(r, t);

    if (e == NULL)
        return;
    struct place place = {
        problems_file(ps, r->document->files[e->place.file]), e->place.line};
    problems_add(ps, PROBLEM_WARNING, place, "'%s': %s", e->key, text);
}
