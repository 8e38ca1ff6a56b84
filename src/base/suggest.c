#include "suggest.h"

#include <ctype.h>
#include <string.h>

#define LONGEST 63

static size_t
least(size_t a, size_t b, size_t c)
{
    size_t ab = a < b ? a : b;

    return ab < c ? ab : c;
}

static int
same(char a, char b)
{
    return tolower((unsigned char)a) == tolower((unsigned char)b);
}

/* Levenshtein's distance, one row at a time. */
static size_t
distance(const char *a, size_t na, const char *b, size_t nb)
{
    size_t row[LONGEST + 1];

    for (size_t j = 0; j <= nb; j++)
        row[j] = j;
    for (size_t i = 1; i <= na; i++) {
        size_t diagonal = row[0];
        row[0] = i;
        for (size_t j = 1; j <= nb; j++) {
            size_t above = row[j];
            size_t change = diagonal + !same(a[i - 1], b[j - 1]);
            row[j] = least(above + 1, row[j - 1] + 1, change);
            diagonal = above;
        }
    }
    return row[nb];
}

struct suggest
suggest_start(const char *word)
{
    /* More than a third of the letters wrong is another word. */
    return (struct suggest){word, NULL, strlen(word) / 3 + 2};
}

/* Of several that are as close the first is kept, so the order of what is
 * offered decides. */
void
suggest_offer(struct suggest *n, const char *known)
{
    size_t na = strlen(n->word);
    size_t nb = strlen(known);

    if (na > LONGEST || nb > LONGEST)
        return;
    size_t d = distance(n->word, na, known, nb);
    if (d < n->distance) {
        n->distance = d;
        n->best = known;
    }
}

const char *
suggest_best(const struct suggest *n)
{
    return n->best;
}
