#include "document.h"

#include "suggest.h"

#include <stdlib.h>
#include <string.h>
#include <strings.h>

static const char *const words[SECTION_KINDS] = {"site", "mail", "server",
    "holidays", "calendar", "depot", "job", "check", "type", "vehicle",
    "equipment", "driver", "person", "feed", "limit"};

const char *
section_word(enum section_kind kind)
{
    return words[kind];
}

enum section_kind
section_group(enum section_kind kind)
{
    return kind == SECTION_EQUIPMENT || kind == SECTION_DRIVER ? SECTION_VEHICLE
                                                               : kind;
}

static void *
take(struct document *d, size_t size)
{
    void *taken = arena_take(d->arena, size);

    if (taken == NULL)
        d->out_of_memory = 1;
    return taken;
}

static const char *
copy(struct document *d, const char *text, size_t len)
{
    const char *taken = arena_text(d->arena, text, len);

    if (taken == NULL)
        d->out_of_memory = 1;
    return taken;
}

static int
refuse_section(struct document *d, struct place place, const char *word)
{
    struct suggest near = suggest_start(word);

    for (int i = 0; i < SECTION_KINDS; i++)
        suggest_offer(&near, words[i]);
    if (suggest_best(&near))
        problems_add(d->problems, PROBLEM_ERROR, place,
            "unknown section '%s'; did you mean '%s'?", word,
            suggest_best(&near));
    else
        problems_add(d->problems, PROBLEM_ERROR, place,
            "unknown section '%s'; expected site, mail, server, holidays, "
            "calendar, depot, job, check, type, vehicle, equipment, driver, "
            "person, "
            "feed or limit",
            word);
    return -1;
}

/* Letters, digits, '-' and '_' of ASCII, whatever the locale. */
static int
is_id(const char *id)
{
    static const char allowed[] = "abcdefghijklmnopqrstuvwxyz"
                                  "ABCDEFGHIJKLMNOPQRSTUVWXYZ"
                                  "0123456789-_";

    return id[strspn(id, allowed)] == '\0';
}

/* An id stands in the ledger, in the names of feeds and in addresses of pages,
 * so it is kept to letters that are safe in all of them. */
static int
check_id(struct document *d, struct place place, const struct section *s)
{
    int alone = s->kind <= SECTION_SERVER;

    if (alone && s->id[0] == '\0')
        return 0;
    if (alone)
        problems_add(d->problems, PROBLEM_ERROR, place,
            "[%s] takes no name; expected [%s]", words[s->kind],
            words[s->kind]);
    else if (s->id[0] == '\0')
        problems_add(d->problems, PROBLEM_ERROR, place,
            "[%s] without a name; expected [%s NAME]", words[s->kind],
            words[s->kind]);
    else if (!is_id(s->id))
        problems_add(d->problems, PROBLEM_ERROR, place,
            "'%s' is not a name; expected letters, digits, '-' and '_'", s->id);
    else if (strlen(s->id) > ID_MOST)
        problems_add(d->problems, PROBLEM_ERROR, place,
            "'%s' has %zu letters; a name has at most %d", s->id, strlen(s->id),
            ID_MOST);
    else
        return 0;
    return -1;
}

/* Split @text into its first word and the rest, without blanks around. */
static char *
split_word(char *text)
{
    size_t len = strlen(text);

    while (len > 0 && strchr(" \t", text[len - 1]))
        text[--len] = '\0';
    char *rest = text + strcspn(text, " \t");
    if (*rest != '\0')
        *rest++ = '\0';
    return rest + strspn(rest, " \t");
}

static int
kind_of(const char *word, enum section_kind *kind)
{
    for (int i = 0; i < SECTION_KINDS; i++)
        if (strcasecmp(words[i], word) == 0) {
            *kind = (enum section_kind)i;
            return 0;
        }
    return -1;
}

static void
append_section(struct document *d, struct section *s)
{
    s->order = d->n_sections++;
    if (d->last_section)
        d->last_section->next = s;
    else
        d->sections = s;
    d->last_section = s;
    d->open = s;
}

/* A section that is refused is not kept, and no key can be added to it. */
int
document_section(
    struct document *d, const char *name, size_t len, struct place place)
{
    struct section *s = take(d, sizeof *s);
    char *word = arena_text(d->arena, name, len);

    d->open = NULL;
    if (s == NULL || word == NULL) {
        d->out_of_memory = 1;
        return -1;
    }
    word += strspn(word, " \t");
    s->id = split_word(word);
    s->place = place;
    s->preset = d->reading_presets;
    if (kind_of(word, &s->kind))
        return refuse_section(d, place, word);
    if (check_id(d, place, s))
        return -1;
    s->title = arena_print(
        d->arena, "[%s%s%s]", words[s->kind], s->id[0] ? " " : "", s->id);
    if (s->title == NULL) {
        d->out_of_memory = 1;
        return -1;
    }
    append_section(d, s);
    return 0;
}

void
document_begin_file(struct document *d)
{
    d->open = NULL;
}

/* A new key of the open section, or NULL when memory is out. */
static struct entry *
append_entry(
    struct document *d, const char *key, size_t len, struct place place)
{
    struct entry *e = take(d, sizeof *e);
    const char *text = copy(d, key, len);

    if (e == NULL || text == NULL)
        return NULL;
    e->key = text;
    e->place = place;
    if (d->open->last_entry)
        d->open->last_entry->next = e;
    else
        d->open->entries = e;
    d->open->last_entry = e;
    return e;
}

void
document_key(
    struct document *d, const char *key, const char *value, struct place place)
{
    if (d->open == NULL) {
        problems_add(d->problems, PROBLEM_ERROR, place,
            "'%s' stands before any section; begin with a line such as [site]",
            key);
        return;
    }
    if (append_entry(d, key, strlen(key), place) && *value != '\0')
        document_more(d, value, place);
}

void
document_refused(
    struct document *d, const char *key, size_t len, struct place place)
{
    if (d->open == NULL)
        return;
    struct entry *e =
        key ? append_entry(d, key, len, place) : d->open->last_entry;
    if (e != NULL)
        e->refused = 1;
}

/* An empty line of a value says nothing; inih hands over none. */
void
document_more(struct document *d, const char *value, struct place place)
{
    if (d->open == NULL || d->open->last_entry == NULL)
        return; /* its key was refused */
    struct entry *e = d->open->last_entry;
    struct value_line *line = take(d, sizeof *line);
    const char *text = copy(d, value, strlen(value));
    if (line == NULL || text == NULL)
        return;
    line->text = text;
    line->place = place;
    if (e->last_line)
        e->last_line->next = line;
    else
        e->lines = line;
    e->last_line = line;
}
