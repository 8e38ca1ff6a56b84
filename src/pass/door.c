#include "door.h"

#include "buf.h"
#include "fleet.h"

static const struct {
    const char *word;
    const char *area;  /* before the key */
    const char *shelf; /* between the key and the name */
    const char *end;   /* after the name */
} doors[] = {
    [KEYRING_FEED] = {"feed", "calendar", "", ".ics"},
    [KEYRING_FLEET] = {"page", "page", "", ""},
    [KEYRING_DEPOT] = {"depot", "page", "depot/", ""},
    [KEYRING_PERSON] = {"person", "page", "person/", ""},
};

void
door_path(
    enum keyring_kind kind, const char *key, const char *name, struct buf *out)
{
    buf_print(out, "/%s/%s/%s%s%s", doors[kind].area, key, doors[kind].shelf,
        name, doors[kind].end);
}

const char *
door_word(enum keyring_kind kind)
{
    return doors[kind].word;
}

const char *
door_name(const struct fleet *f, enum keyring_kind kind, size_t n)
{
    switch (kind) {
    case KEYRING_FEED:
        return n < f->n_feeds ? f->feeds[n].id : NULL;
    case KEYRING_DEPOT:
        return n < f->n_depots ? f->depots[n].id : NULL;
    case KEYRING_PERSON:
        return n < f->n_persons ? f->persons[n].id : NULL;
    case KEYRING_FLEET:
        break;
    }
    return n == 0 ? KEYRING_ALL : NULL;
}
