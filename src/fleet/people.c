#include "people.h"

#include <string.h>
#include <strings.h>

/* A name that two have is nobody's: better asked again than put down to the
 * wrong one. */
const struct person *
people_find(const struct fleet *f, const char *word)
{
    const struct person *found = NULL;
    size_t n = 0;

    for (size_t i = 0; i < f->n_persons; i++) {
        const struct person *p = &f->persons[i];
        if (strcasecmp(p->id, word) == 0)
            return p;
        if (p->name != NULL && strcasecmp(p->name, word) == 0) {
            found = p;
            n++;
        }
    }
    return n == 1 ? found : NULL;
}

/* The same for drivers, whose title is their name. */
static const struct subject *
find_driver(const struct fleet *f, const char *word)
{
    const struct subject *found = NULL;
    size_t n = 0;

    for (size_t i = 0; i < f->n_subjects; i++) {
        const struct subject *s = &f->subjects[i];
        if (s->kind != SUBJECT_DRIVER)
            continue;
        if (strcasecmp(s->id, word) == 0)
            return s;
        if (s->title != NULL && strcasecmp(s->title, word) == 0) {
            found = s;
            n++;
        }
    }
    return n == 1 ? found : NULL;
}

const char *
people_id(const struct fleet *f, const char *word)
{
    const struct person *p = people_find(f, word);
    const struct subject *driver = p ? NULL : find_driver(f, word);

    if (driver != NULL && driver->title != NULL)
        p = people_find(f, driver->title);
    return p ? p->id : driver ? driver->id : NULL;
}

/* Rights go by vehicles, so being told of a job gives none.  Who is told
 * nothing at all is somebody without mail, such as the fitter of a small
 * fleet, and not somebody without vehicles. */
int
people_may(const struct person *p, unsigned may, const struct subject *s)
{
    if ((p->may & may) != may)
        return 0;
    if (p->n_told == 0)
        return 1;
    for (size_t i = 0; i < p->n_told; i++)
        if (p->told[i].kind == SCOPE_ALL ||
            (p->told[i].kind == SCOPE_DEPOT &&
                p->told[i].which == fleet_depot(s)) ||
            (p->told[i].kind == SCOPE_SUBJECT &&
                (p->told[i].which == s ||
                    (s->carrier != NULL && p->told[i].which == s->carrier))))
            return 1;
    return 0;
}

int
people_check(const struct fleet *f, const char *id, const struct subject *s)
{
    const struct person *p = people_find(f, id);

    return p == NULL || people_may(p, 0, s);
}

size_t
people_count(const struct fleet *f, unsigned may, const struct subject *s)
{
    size_t n = 0;

    for (size_t i = 0; i < f->n_persons; i++)
        n += people_may(&f->persons[i], may, s) != 0;
    return n;
}
