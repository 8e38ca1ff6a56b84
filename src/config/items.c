#include "items.h"

#include <assert.h>
#include <string.h>

struct items
items_of(struct entry *e, enum items_by by)
{
    static const char *const ends[] = {"", ",", ", \t"};
    struct items it = {.line = e->lines, .ends = ends[by]};

    it.at = it.line ? it.line->text : "";
    return it;
}

static void
take_item(struct items *it, size_t len)
{
    assert(len < ITEM_SIZE);
    memcpy(it->text, it->at, len);
    it->place = it->line->place;
    it->at += len;
    while (len > 0 && strchr(" \t", it->text[len - 1]))
        len--;
    it->text[len] = '\0';
}

int
items_next(struct items *it)
{
    while (it->line != NULL) {
        it->at += strspn(it->at, ", \t");
        size_t len = strcspn(it->at, it->ends);
        if (len > 0) {
            take_item(it, len);
            return 1;
        }
        it->line = it->line->next;
        it->at = it->line ? it->line->text : "";
    }
    return 0;
}

size_t
items_count(struct entry *e, enum items_by by)
{
    struct items it = items_of(e, by);
    size_t n = 0;

    while (items_next(&it))
        n++;
    return n;
}
