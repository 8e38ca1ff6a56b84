#include "sheets.h"

#include "items.h"
#include "suggest.h"
#include "value.h"

#include <string.h>
#include <strings.h>

/* A code stands in a narrow column of paper and is typed on a command line. */
#define CODE_MOST 8
/* More than anybody looks at on one walk. */
#define ITEMS_MOST 200

struct sheet_def *
sheets_new(struct load_context *r, const struct section *s)
{
    struct sheet_def *d = context_take(r, sizeof *d);

    if (d != NULL)
        d->sheet = (struct check_sheet){
            .id = s->id, .title = s->id, .index = s->index};
    return d;
}

static struct check_item *
find_item(const struct sheet_def *d, const char *code, size_t len)
{
    for (size_t i = 0; i < d->sheet.n_items; i++)
        if (strlen(d->items[i].code) == len &&
            strncasecmp(d->items[i].code, code, len) == 0)
            return &d->items[i];
    return NULL;
}

static int
is_code(const char *text)
{
    static const char allowed[] = "abcdefghijklmnopqrstuvwxyz"
                                  "ABCDEFGHIJKLMNOPQRSTUVWXYZ"
                                  "0123456789";
    size_t len = strlen(text);

    return len > 0 && len <= CODE_MOST && text[strspn(text, allowed)] == '\0';
}

/* The grade at the end of a line.  Who knows the Directive writes its word. */
static int
take_grade(struct load_context *r, struct entry *e, struct place place,
    const char *word, enum grade *grade)
{
    struct suggest near = suggest_start(word);
    int found = sheet_grade_find(word);

    if (found >= 0) {
        *grade = (enum grade)found;
        return 0;
    }
    for (int i = GRADE_MINOR; i <= GRADE_STOPS; i++)
        suggest_offer(&near, sheet_grade_word((enum grade)i));
    const char *meant = strcasecmp(word, "dangerous") == 0
                            ? sheet_grade_word(GRADE_STOPS)
                            : suggest_best(&near);
    if (meant != NULL)
        return context_refuse(r, e, place,
            "the grade '%s' is none of minor, major or stops; did you mean "
            "'%s'?",
            word, meant);
    return context_refuse(r, e, place,
        "the grade '%s' is none of minor, major or stops; expected CODE, "
        "TEXT, GRADE",
        word);
}

/* Cut the blanks off the end of the @len bytes at @text. */
static size_t
trimmed(const char *text, size_t len)
{
    while (len > 0 && strchr(" \t", text[len - 1]))
        len--;
    return len;
}

/* "T1, Tyres: tread, cuts and cords, stops": the code stands before the first
 * comma and the grade after the last, so that the text may have commas. */
static int
take_item(struct load_context *r, struct entry *e, const struct items *line,
    const struct sheet_def *d, struct check_item *item)
{
    const char *first = strchr(line->text, ',');
    const char *last = strrchr(line->text, ',');

    if (first == NULL || first == last)
        return context_refuse(r, e, line->place,
            "'%s' is no item; expected CODE, TEXT, GRADE, or a group such as "
            "At the nearside:",
            line->text);
    const char *code = context_copy(
        r, line->text, trimmed(line->text, (size_t)(first - line->text)));
    const char *text = first + 1 + strspn(first + 1, " \t");
    size_t len = text < last ? trimmed(text, (size_t)(last - text)) : 0;
    if (code == NULL)
        return -1;
    if (!is_code(code))
        return context_refuse(r, e, line->place,
            "'%s' is no code; expected 1 to %d letters and digits", code,
            CODE_MOST);
    if (find_item(d, code, strlen(code)) != NULL)
        return context_refuse(r, e, line->place,
            "'%s' stands there twice; give one of them another code", code);
    if (len == 0)
        return context_refuse(r, e, line->place,
            "'%s' does not say what to look at; expected CODE, TEXT, GRADE",
            code);
    *item =
        (struct check_item){.code = code, .text = context_copy(r, text, len)};
    return take_grade(
        r, e, line->place, last + 1 + strspn(last + 1, " \t"), &item->grade);
}

/* "At the nearside:".  A comma is refused, for an item whose grade is forgotten
 * would pass for a group, and be asked of nobody. */
static const char *
take_group(struct load_context *r, struct entry *e, const struct items *line)
{
    size_t len = trimmed(line->text, strlen(line->text) - 1);

    if (len == 0 || memchr(line->text, ',', len) != NULL)
        context_refuse(r, e, line->place,
            "'%s' is no group; expected where one stands, without a comma, "
            "such as At the nearside:",
            line->text);
    return context_copy(r, line->text, len);
}

/* A group without items would be a question without anything to look at. */
static void
check_last_group(struct load_context *r, struct entry *e,
    const struct check_group *last, struct place place)
{
    if (last != NULL && last->n == 0 && !e->refused)
        context_refuse(r, e, place,
            "the group '%s' has no item; add CODE, TEXT, GRADE below it, or "
            "take it out",
            last->title);
}

/* The lines in walking order.  Items before the first group are one without a
 * title. */
VALUE_PARSER(parse_items)
{
    struct sheet_def *d = at;
    size_t n = items_count(e, ITEMS_LINES);
    struct check_group *groups = context_take(r, n * sizeof *groups);
    struct check_group *last = NULL;
    struct items line = items_of(e, ITEMS_LINES);
    struct place place = e->place;

    d->sheet.items = d->items = context_take(r, n * sizeof *d->items);
    d->sheet.groups = groups;
    if (n > ITEMS_MOST)
        context_refuse(r, e, e->place,
            "there are %zu lines; nobody looks at so much on one walk, "
            "expected at most %d",
            n, ITEMS_MOST);
    while (groups != NULL && d->items != NULL && n <= ITEMS_MOST &&
           items_next(&line)) {
        struct check_item *item = &d->items[d->sheet.n_items];
        size_t len = strlen(line.text);
        int begins = line.text[len - 1] == ':';
        if (begins || last == NULL) {
            check_last_group(r, e, last, place);
            last = &groups[d->sheet.n_groups++];
            *last = (struct check_group){
                begins ? take_group(r, e, &line) : NULL, d->sheet.n_items, 0};
            place = line.place;
        }
        if (begins || take_item(r, e, &line, d, item))
            continue;
        item->group = d->sheet.n_groups - 1;
        d->sheet.n_items++;
        last->n++;
    }
    check_last_group(r, e, last, place);
}

VALUE_FORMATTER(format_items)
{
    const struct check_sheet *s = &((const struct sheet_def *)at)->sheet;

    value_format_number(k, s->n_items, "item", out);
    if (s->n_groups > 1)
        buf_print(out, " in %zu groups", s->n_groups);
}

const struct value_type value_items = {
    .parse = parse_items, .format = format_items};

VALUE_PARSER(parse_carried)
{
    const char *id = context_text(r, e);
    const struct section *s =
        id ? context_find(r, e, e->place, SECTION_TYPE, id) : NULL;

    if (s != NULL)
        *(const struct subject_type **)at = &r->types[s->index];
}

const struct value_type value_carried = {.parse = parse_carried};

static int
has_sheet(const struct subject *s, const struct check_sheet *sheet)
{
    for (size_t i = 0; i < s->n_sheets; i++)
        if (s->sheets[i] == sheet)
            return 1;
    return 0;
}

int
sheets_used(const struct load_context *r, const struct section *s)
{
    for (size_t i = 0; i < r->fleet->n_subjects; i++)
        if (has_sheet(&r->defs[i].subject, &r->sheets[s->index]))
            return 1;
    return 0;
}

/* Its own are added to those of its type, as jobs are. */
VALUE_PARSER(parse_sheets)
{
    struct subject *s = &((struct subject_def *)at)->subject;
    const struct check_sheet **sheets = context_take(
        r, (s->n_sheets + items_count(e, ITEMS_WORDS)) * sizeof(void *));
    struct items item = items_of(e, ITEMS_WORDS);

    if (sheets == NULL)
        return;
    if (s->n_sheets > 0)
        memcpy(sheets, s->sheets, s->n_sheets * sizeof(void *));
    s->sheets = sheets;
    while (items_next(&item)) {
        const struct section *found =
            context_find(r, e, item.place, SECTION_CHECK, item.text);
        if (found == NULL)
            continue;
        if (has_sheet(s, &r->sheets[found->index]))
            context_refuse(r, e, item.place,
                "'%s' is there already, here or from the type; take one out",
                found->id);
        else
            sheets[s->n_sheets++] = &r->sheets[found->index];
    }
}

VALUE_FORMATTER(format_sheets)
{
    const struct subject *s = &((const struct subject_def *)at)->subject;

    if (s->n_sheets == 0)
        value_format_unset(k, out);
    for (size_t i = 0; i < s->n_sheets; i++)
        buf_print(out, "%s%s", i > 0 ? " " : "", s->sheets[i]->id);
}

const struct value_type value_sheets = {
    .parse = parse_sheets, .format = format_sheets};

/* The item before the dot of CODE.KEY, or NULL.  Where the items were refused
 * it may be one of those, so nothing is said of it. */
static struct check_item *
item_of(struct load_context *r, const struct section *s, struct entry *e)
{
    const struct sheet_def *d = s->object;
    const struct entry *items = section_entry(s, "items");
    size_t len = (size_t)(strchr(e->key, '.') - e->key);
    const char *code = context_copy(r, e->key, len);
    struct check_item *found = find_item(d, e->key, len);

    if (found != NULL || items == NULL || items->refused || code == NULL)
        return found;
    struct suggest near = suggest_start(code);
    for (size_t i = 0; i < d->sheet.n_items; i++)
        suggest_offer(&near, d->items[i].code);
    if (suggest_best(&near) != NULL)
        context_refuse(r, e, e->place,
            "%s has no item '%s'; did you mean '%s'?", s->title, code,
            suggest_best(&near));
    else
        context_refuse(r, e, e->place,
            "%s has no item '%s'; correct it or add it to 'items'", s->title,
            code);
    return NULL;
}

/* What is said of single items comes last: it may stand before the items. */
void
sheets_read(struct load_context *r, const struct section *s)
{
    struct sheet_def *d = s->object;

    keys_read(r, s, d, NULL);
    for (struct entry *e = s->entries; e != NULL; e = e->next) {
        if (e->again || e->refused || strchr(e->key, '.') == NULL)
            continue;
        struct check_item *item = item_of(r, s, e);
        const struct key *k =
            item ? keys_after_dot(r, s, e, strchr(e->key, '.') + 1) : NULL;
        if (k != NULL)
            keys_read_one(r, s, k, e, item);
    }
    r->sheets[s->index] = d->sheet;
}

/* The item of @sheet with the code of @item that is not the same, or NULL. */
static const struct check_item *
other_item(const struct check_sheet *sheet, const struct check_item *item)
{
    for (size_t i = 0; i < sheet->n_items; i++) {
        const struct check_item *other = &sheet->items[i];
        if (strcasecmp(other->code, item->code) == 0 &&
            (strcmp(other->text, item->text) != 0 ||
                other->grade != item->grade || other->carried != item->carried))
            return other;
    }
    return NULL;
}

/* Said where the sheets are named, once for two sheets: whoever mends one item
 * looks at the others too. */
void
sheets_check(struct load_context *r, const struct subject_def *h)
{
    const struct subject *s = &h->subject;
    struct entry *e = section_entry(h->section, "check");

    for (size_t i = 0; e != NULL && i < s->n_sheets; i++)
        for (size_t k = i + 1; k < s->n_sheets; k++)
            for (size_t n = 0; n < s->sheets[i]->n_items; n++) {
                const struct check_item *item = &s->sheets[i]->items[n];
                if (other_item(s->sheets[k], item) == NULL)
                    continue;
                context_refuse(r, e, e->place,
                    "'%s' and '%s' both have the item '%s', and differ in it; "
                    "give it another code in one of them",
                    s->sheets[i]->id, s->sheets[k]->id, item->code);
                break;
            }
}
