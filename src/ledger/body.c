#include "body.h"

#include "arena.h"

#include <jansson.h>
#include <stdlib.h>
#include <string.h>
#include <sysexits.h>

#define BODY_MOST 65536 /* bytes */

/* The texts of a record that are in its body. */
static const struct {
    const char *key;
    size_t at;
} texts[] = {
    {"cycle", offsetof(struct record, cycle)},
};

static const char *
text_of(const struct record *r, size_t i)
{
    return *(const char *const *)(const void *)((const char *)r + texts[i].at);
}

int
body_make(
    const struct ledger *l, const struct record *r, char **out, struct fault *f)
{
    json_t *object = json_object();
    int bad = object == NULL;

    *out = NULL;
    for (size_t i = 0; i < sizeof texts / sizeof *texts; i++)
        if (text_of(r, i) != NULL)
            bad |= json_object_set_new(
                       object, texts[i].key, json_string(text_of(r, i))) != 0;
    if (!bad && json_object_size(object) > 0) {
        *out = json_dumps(object, JSON_COMPACT | JSON_SORT_KEYS);
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

static int
take(const json_t *object, struct arena *a, struct record *r)
{
    for (size_t i = 0; i < sizeof texts / sizeof *texts; i++) {
        const json_t *value = json_object_get(object, texts[i].key);
        if (!json_is_string(value))
            continue;
        const char *text =
            arena_text(a, json_string_value(value), json_string_length(value));
        if (text == NULL)
            return SQLITE_NOMEM;
        memcpy((char *)r + texts[i].at, &text, sizeof text);
    }
    return SQLITE_OK;
}

int
body_read(const struct query *q, int column, struct arena *a, struct record *r)
{
    const char *text = (const char *)sqlite3_column_text(q->statement, column);
    size_t n = (size_t)sqlite3_column_bytes(q->statement, column);
    char *again = NULL;

    if (text == NULL)
        return SQLITE_NOMEM;
    json_t *object = json_loadb(text, n, 0, NULL);
    int code = take(object, a, r);
    json_decref(object);
    if (code != SQLITE_OK)
        return code;
    if (body_make(q->ledger, r, &again, NULL) || again == NULL ||
        strlen(again) != n || memcmp(again, text, n) != 0)
        code = SQLITE_CORRUPT;
    free(again);
    return code;
}
