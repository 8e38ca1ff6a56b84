#include "body.h"

#include "arena.h"

#include <jansson.h>
#include <stdlib.h>
#include <string.h>
#include <sysexits.h>

#define BODY_MOST 65536 /* bytes */
#define CANONICAL (JSON_COMPACT | JSON_SORT_KEYS)

/* The type says which JSON it is; a day is a number, as in the columns. */
static int
is_text(enum record_type type)
{
    return type == RECORD_TEXT || type == RECORD_PERSON;
}

/* --- writing -------------------------------------------------------------- */

static json_t *
list_of(const struct record_value *v)
{
    json_t *list = json_array();

    for (size_t i = 0; list != NULL && i < v->n_items; i++)
        if (json_array_append_new(list, json_string(v->items[i])) != 0) {
            json_decref(list);
            return NULL;
        }
    return list;
}

/* NULL when memory is out or a text is not UTF-8. */
static json_t *
json_of(const struct record_value *v, enum record_type type)
{
    if (is_text(type))
        return json_string(v->text);
    return type == RECORD_LIST ? list_of(v) : json_integer(v->number);
}

int
body_make(
    const struct ledger *l, const struct record *r, char **out, struct fault *f)
{
    const struct record_body_field *b = record_kind(r->kind)->body;
    json_t *object = json_object();
    int bad = object == NULL;

    *out = NULL;
    for (; !bad && b != NULL && b->word != NULL; b++) {
        const struct record_value *v = record_value(r, b->word);
        if (v != NULL)
            bad = json_object_set_new(object, b->word, json_of(v, b->type));
    }
    if (!bad && json_object_size(object) > 0) {
        *out = json_dumps(object, CANONICAL);
        bad = *out == NULL || strlen(*out) > BODY_MOST;
    }
    json_decref(object);
    if (!bad)
        return 0;
    free(*out);
    *out = NULL;
    return fault_set(f, EX_DATAERR,
        "%s: a record says more than %d bytes besides its note, or is not "
        "UTF-8",
        l->path, BODY_MOST);
}

/* --- reading -------------------------------------------------------------- */

static const char *
copy_of(const json_t *text, struct arena *a)
{
    return arena_text(a, json_string_value(text), json_string_length(text));
}

static int
take_list(const json_t *list, struct arena *a, struct record_value *v)
{
    size_t n = json_array_size(list);
    const char **items = arena_take(a, n ? n * sizeof *items : 1);

    if (items == NULL)
        return SQLITE_NOMEM;
    for (size_t i = 0; i < n; i++) {
        const json_t *item = json_array_get(list, i);
        if (!json_is_string(item))
            return SQLITE_CORRUPT;
        if ((items[i] = copy_of(item, a)) == NULL)
            return SQLITE_NOMEM;
    }
    v->items = items;
    v->n_items = n;
    return SQLITE_OK;
}

static int
take_value(const json_t *value, enum record_type type, struct arena *a,
    struct record_value *v)
{
    if (is_text(type)) {
        if (!json_is_string(value))
            return SQLITE_CORRUPT;
        v->text = copy_of(value, a);
        return v->text != NULL ? SQLITE_OK : SQLITE_NOMEM;
    }
    if (type == RECORD_LIST)
        return json_is_array(value) ? take_list(value, a, v) : SQLITE_CORRUPT;
    v->number = json_integer_value(value);
    return json_is_integer(value) ? SQLITE_OK : SQLITE_CORRUPT;
}

/* The values of the fields that the kind has: a result code of SQLite. */
static int
take_values(const json_t *object, struct arena *a, struct record *r)
{
    const struct record_body_field *b = record_kind(r->kind)->body;
    struct record_value *values =
        arena_take(a, json_object_size(object) * sizeof *values);

    if (values == NULL)
        return SQLITE_NOMEM;
    r->values = values;
    for (; b != NULL && b->word != NULL; b++) {
        const json_t *value = json_object_get(object, b->word);
        if (value == NULL)
            continue;
        struct record_value *v = &values[r->n_values++];
        v->word = b->word;
        int code = take_value(value, b->type, a, v);
        if (code != SQLITE_OK)
            return code;
    }
    return SQLITE_OK;
}

/* The object that these bytes are when they are just what would be written for
 * it, or NULL. */
static json_t *
canonical(const char *text, size_t n)
{
    json_t *object = text ? json_loadb(text, n, 0, NULL) : NULL;
    char *again = json_is_object(object) ? json_dumps(object, CANONICAL) : NULL;

    if (again == NULL || strlen(again) != n || memcmp(again, text, n) != 0 ||
        json_object_size(object) == 0) {
        json_decref(object);
        object = NULL;
    }
    free(again);
    return object;
}

int
body_read(const struct query *q, int column, struct arena *a, struct record *r,
    struct fault *f)
{
    const char *text = (const char *)sqlite3_column_text(q->statement, column);
    size_t n = (size_t)sqlite3_column_bytes(q->statement, column);
    json_t *object = canonical(text, n);
    int code = object ? take_values(object, a, r) : SQLITE_CORRUPT;
    int is_newer = code == SQLITE_OK && json_object_size(object) != r->n_values;

    json_decref(object);
    if (is_newer)
        return fault_set(f, EX_CONFIG,
            "%s: record %lld says what this program does not know: install "
            "the newer ostler that wrote it",
            q->ledger->path, (long long)r->id);
    return code == SQLITE_OK ? 0 : query_fault(q->ledger, code, f);
}
