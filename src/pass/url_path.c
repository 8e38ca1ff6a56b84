#include "url_path.h"

#include "buf.h"
#include "fleet.h"

static const struct {
    const char *word;
    const char *area;  /* before the key */
    const char *shelf; /* between the key and the name */
    const char *end;   /* after the name */
} places[] = {
    [KEYRING_FEED] = {"feed", "calendar", "", ".ics"},
    [KEYRING_FLEET] = {"page", "page", "", ""},
    [KEYRING_DEPOT] = {"depot", "page", "depot/", ""},
    [KEYRING_PERSON] = {"person", "page", "person/", ""},
    [KEYRING_DRIVER] = {"driver", "check", "driver/", ""},
    [KEYRING_VEHICLE] = {"vehicle", "check", "vehicle/", ""},
};

void
url_path(
    enum keyring_kind kind, const char *key, const char *name, struct buf *out)
{
    buf_print(out, "/%s/%s/%s%s%s", places[kind].area, key, places[kind].shelf,
        name, places[kind].end);
}

const char *
url_path_word(enum keyring_kind kind)
{
    return places[kind].word;
}

/* The id of the @n-th subject of that kind, or NULL past the last. */
static const char *
subject_name(const struct fleet *f, enum subject_kind kind, size_t n)
{
    for (size_t i = 0; i < f->n_subjects; i++)
        if (f->subjects[i].kind == kind && n-- == 0)
            return f->subjects[i].id;
    return NULL;
}

const char *
url_path_name(const struct fleet *f, enum keyring_kind kind, size_t n)
{
    switch (kind) {
    case KEYRING_FEED:
        return n < f->n_feeds ? f->feeds[n].id : NULL;
    case KEYRING_DEPOT:
        return n < f->n_depots ? f->depots[n].id : NULL;
    case KEYRING_PERSON:
        return n < f->n_persons ? f->persons[n].id : NULL;
    case KEYRING_DRIVER: /* who drives may be either */
        return n < f->n_persons
                   ? f->persons[n].id
                   : subject_name(f, SUBJECT_DRIVER, n - f->n_persons);
    case KEYRING_VEHICLE:
        return subject_name(f, SUBJECT_VEHICLE, n);
    case KEYRING_FLEET:
        break;
    }
    return n == 0 ? KEYRING_ALL : NULL;
}
