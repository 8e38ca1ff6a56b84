#include "sheet.h"

#include "suggest.h"

#include <string.h>
#include <strings.h>

static const char *const grade_words[] = {"minor", "major", "stops"};

const char *
sheet_grade_word(enum grade grade)
{
    return grade_words[grade];
}

const char *
sheet_when_word(enum check_when when)
{
    static const char *const words[] = {
        "each driver each day", "each use", "each week"};

    return words[when];
}

int
sheet_grade_find(const char *word)
{
    for (int i = GRADE_MINOR; i <= GRADE_STOPS; i++)
        if (strcasecmp(grade_words[i], word) == 0)
            return i;
    return -1;
}

const struct check_sheet *
sheet_named(const struct fleet *f, const char *id)
{
    for (size_t i = 0; i < f->n_sheets; i++)
        if (strcasecmp(f->sheets[i].id, id) == 0)
            return &f->sheets[i];
    return NULL;
}

/* Two sheets of one subject may share an item, but then it is the same in
 * both: the reader of the fleet file sees to that. */
const struct check_item *
sheet_item(const struct subject *s, const char *code)
{
    for (size_t i = 0; i < s->n_sheets; i++)
        for (size_t k = 0; k < s->sheets[i]->n_items; k++)
            if (strcasecmp(s->sheets[i]->items[k].code, code) == 0)
                return &s->sheets[i]->items[k];
    return NULL;
}

const char *
sheet_item_nearest(const struct subject *s, const char *code)
{
    struct suggest near = suggest_start(code);

    for (size_t i = 0; i < s->n_sheets; i++)
        for (size_t k = 0; k < s->sheets[i]->n_items; k++)
            suggest_offer(&near, s->sheets[i]->items[k].code);
    return suggest_best(&near);
}

const struct check_item *
sheet_item_carried(const struct subject *s, const struct subject_type *type)
{
    for (size_t i = 0; i < s->n_sheets; i++)
        for (size_t k = 0; k < s->sheets[i]->n_items; k++)
            if (s->sheets[i]->items[k].carried == type)
                return &s->sheets[i]->items[k];
    return NULL;
}

const struct subject *
sheet_carried(const struct fleet *f, const struct subject *s,
    const struct check_item *item, const struct subject *after)
{
    for (size_t i = after ? after->index + 1 : 0;
         item->carried != NULL && i < f->n_subjects; i++)
        if (f->subjects[i].carrier == s && f->subjects[i].type == item->carried)
            return &f->subjects[i];
    return NULL;
}

int
sheet_asks(const struct fleet *f, const struct subject *s,
    const struct check_item *item)
{
    return item->carried == NULL || sheet_carried(f, s, item, NULL) != NULL;
}
