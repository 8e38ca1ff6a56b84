#include "keys.h"

#include "scan.h"
#include "suggest.h"

#include <assert.h>
#include <string.h>
#include <strings.h>

static const struct key *
find_key(enum section_kind kind, const char *word)
{
    for (size_t i = 0; i < key_table_size; i++)
        if ((key_table[i].sections >> kind & 1) &&
            strcasecmp(key_table[i].word, word) == 0)
            return &key_table[i];
    return NULL;
}

/* Whether keys with a dot say something of one part of what the section
 * describes. */
static int
holds_parts(enum section_kind kind)
{
    return kind == SECTION_TYPE || kind == SECTION_CHECK ||
           section_group(kind) == SECTION_VEHICLE;
}

static void
refuse_key(struct load_context *r, const struct section *s, struct entry *e,
    const struct suggest *near)
{
    if (suggest_best(near))
        context_error(r, e->place, "unknown key '%s' in %s; did you mean '%s'?",
            e->key, s->title, suggest_best(near));
    else
        context_error(r, e->place,
            "unknown key '%s' in %s; ostler-fleet(5) lists what there is",
            e->key, s->title);
    e->refused = 1;
}

/* The key by which the section has a secret of that name read from a file of
 * its own, or NULL. */
static const struct key *
secret_key(const struct section *s, const char *word)
{
    size_t len = strlen(word);

    for (size_t i = 0; i < key_table_size; i++)
        if ((key_table[i].sections >> s->kind & 1) &&
            strncasecmp(key_table[i].word, word, len) == 0 &&
            strcmp(key_table[i].word + len, "-file") == 0)
            return &key_table[i];
    return NULL;
}

static void
refuse_secret(struct load_context *r, struct entry *e, struct place place,
    const struct key *k)
{
    context_refuse(r, e, place,
        "a secret stands in a file of its own that only you can read; take "
        "it out and add %s = PATH",
        k->word);
}

static void
refuse_unknown(struct load_context *r, const struct section *s, struct entry *e)
{
    struct suggest near = suggest_start(e->key);
    const struct key *secret = secret_key(s, e->key);

    if (secret != NULL) {
        refuse_secret(r, e, e->place, secret);
        return;
    }
    for (size_t i = 0; i < key_table_size; i++)
        if (key_table[i].sections >> s->kind & 1)
            suggest_offer(&near, key_table[i].word);
    refuse_key(r, s, e, &near);
}

/* Only the keys of rules and baselines are looked at: of the rest a subject has
 * no own value for a job. */
const struct key *
keys_after_dot(struct load_context *r, const struct section *s, struct entry *e,
    const char *word)
{
    struct suggest near = suggest_start(word);

    for (size_t i = 0; i < key_table_size; i++) {
        enum key_part part = key_table[i].part;
        if (part == PART_WHOLE ||
            (part == PART_ITEM) != (s->kind == SECTION_CHECK))
            continue;
        if (strcasecmp(key_table[i].word, word) == 0)
            return &key_table[i];
        suggest_offer(&near, key_table[i].word);
    }
    refuse_key(r, s, e, &near);
    return NULL;
}

#define WORD_SIZE 64

/* What stands before '=', or "". */
static const char *
word_before_equals(const char *text, char word[WORD_SIZE])
{
    const char *equals = strchr(text, '=');
    size_t len = equals ? (size_t)(equals - text) : 0;

    while (len > 0 && strchr(" \t", text[len - 1]))
        len--;
    if (len >= WORD_SIZE)
        len = 0;
    memcpy(word, text, len);
    word[len] = '\0';
    return word;
}

/* An indented line that looks like a key of this section was meant as one:
 * inih takes it for more of the value above. */
static int
is_hidden_key(const struct section *s, const char *word)
{
    if (holds_parts(s->kind) && strchr(word, '.') && !strpbrk(word, " \t"))
        return 1;
    return find_key(s->kind, word) != NULL;
}

/* Indented by mistake, a key would become part of the value above, and its own
 * meaning would be lost in silence. */
static void
check_hidden_keys(
    struct load_context *r, const struct section *s, struct entry *e)
{
    char word[WORD_SIZE];

    for (const struct value_line *l = e->lines; l != NULL; l = l->next) {
        if (l->place.line == e->place.line ||
            *word_before_equals(l->text, word) == '\0')
            continue;
        const struct key *secret = secret_key(s, word);
        if (secret != NULL)
            refuse_secret(r, e, l->place, secret);
        else if (is_hidden_key(s, word))
            context_refuse(r, e, l->place,
                "the indented line '%s' goes on with this value; "
                "begin a key at the start of the line",
                l->text);
    }
}

static void
read_value(
    struct load_context *r, const struct key *k, struct entry *e, void *at)
{
    if (k->type->parse != NULL)
        k->type->parse(r, k, e, at);
    if (k->type->take == NULL)
        return;
    const char *text = context_text(r, e);
    if (text == NULL)
        return;
    struct scan s = scan_start(text);
    const char *wrong = k->type->take(k, &s, at);
    if (wrong != NULL)
        context_refuse(r, e, e->place, "'%s' %s", text, wrong);
}

void
keys_read_one(struct load_context *r, const struct section *s,
    const struct key *k, struct entry *e, void *part)
{
    if (e->lines == NULL) {
        context_refuse(r, e, e->place, "no value; expected %s", k->form);
        return;
    }
    check_hidden_keys(r, s, e);
    if (!e->refused)
        read_value(r, k, e, (char *)part + k->offset);
}

/* It is read as if it stood in the file, so that the table says it in the
 * words of the manual. */
void
keys_set_usual(struct load_context *r, enum section_kind kind,
    enum key_part part, void *object)
{
    for (size_t i = 0; i < key_table_size; i++) {
        const struct key *k = &key_table[i];
        if (!(k->sections >> kind & 1) || k->part != part || k->usual == NULL)
            continue;
        struct value_line line = {.text = k->usual};
        struct entry e = {.key = k->word, .lines = &line};
        read_value(r, k, &e, (char *)object + k->offset);
        assert(!e.refused);
    }
}

void
keys_read(struct load_context *r, const struct section *s, void *object,
    struct rule *rule)
{
    for (struct entry *e = s->entries; e != NULL; e = e->next) {
        if (e->again || e->refused ||
            (holds_parts(s->kind) && strchr(e->key, '.')))
            continue;
        const struct key *k = find_key(s->kind, e->key);
        if (k == NULL)
            refuse_unknown(r, s, e);
        else
            keys_read_one(r, s, k, e, k->part == PART_RULE ? rule : object);
    }
    for (size_t i = 0; i < key_table_size; i++)
        if (key_table[i].required && (key_table[i].sections >> s->kind & 1) &&
            section_entry(s, key_table[i].word) == NULL)
            context_error(r, s->place, "%s has no '%s'; add %s = %s", s->title,
                key_table[i].word, key_table[i].word, key_table[i].form);
}
