#include "poster_parts.h"

#include <ctype.h>
#include <stdlib.h>
#include <string.h>

/* Initials of the words of an id: annual-test is AT. */
static void
initials(const char *id, char out[POSTER_CODE])
{
    size_t n = 0;

    for (const char *c = id; *c != '\0' && n < 3; c++)
        if ((c == id || strchr("-_", c[-1])) && isalnum((unsigned char)*c))
            out[n++] = (char)toupper((unsigned char)*c);
    /* One letter says little: two of the word. */
    if (n == 1 && isalnum((unsigned char)id[1]))
        out[n++] = (char)tolower((unsigned char)id[1]);
    out[n] = '\0';
}

static int
is_taken(const struct poster *p, size_t job, const char *code)
{
    for (size_t i = 0; i < job; i++)
        if (strcmp(p->codes[i], code) == 0)
            return 1;
    return 0;
}

/* One with the same initials as another has two letters of its first word, or
 * a number. */
static void
choose_code(struct poster *p, size_t job, const char *id)
{
    char *code = p->codes[job];

    initials(id, code);
    size_t len = strlen(code);
    if (is_taken(p, job, code) && isalnum((unsigned char)id[1])) {
        memmove(code + 2, code + 1, len);
        code[1] = (char)tolower((unsigned char)id[1]);
        len++;
    }
    for (int n = 2; is_taken(p, job, code) && n < 1000; n++)
        snprintf(code + len, POSTER_CODE - len, "%d", n);
}

int
poster_make_codes(struct poster *p)
{
    const struct fleet *f = fleet_plan_fleet(p->plan);
    unsigned char *used = calloc(f->n_jobs + 1, 1);

    p->codes = calloc(f->n_jobs + 1, sizeof *p->codes);
    if (used == NULL || p->codes == NULL) {
        free(used);
        return -1;
    }
    for (size_t i = 0; i < p->visits.n; i++)
        for (size_t k = 0; k < p->visits.list[i].n; k++)
            used[fleet_plan_task(p->plan, p->visits.list[i].bookings[k]->work)
                     ->job->index] = 1;
    for (size_t i = 0; i < f->n_jobs; i++)
        if (used[i]) {
            choose_code(p, i, f->jobs[i].id);
            p->n_codes++;
        }
    free(used);
    return 0;
}
