#include "paper.h"

#include "check_digits.h"
#include "isoweek.h"

#include <stdio.h>
#include <string.h>
#include <strings.h>

/* The part after the vehicle: 0 stands for a digit, A for either, and W for the
 * letter. */
static const char shape[] = "-0000W00-AAAA-00";

static int
has_shape(const char *tail)
{
    for (size_t i = 0; i < sizeof shape - 1; i++) {
        int digit = tail[i] >= '0' && tail[i] <= '9';
        char c = tail[i] >= 'a' && tail[i] <= 'z' ? (char)(tail[i] - 'a' + 'A')
                                                  : tail[i];
        if (!(shape[i] == '0'     ? digit
                : shape[i] == 'A' ? digit || (c >= 'A' && c <= 'Z')
                                  : c == shape[i]))
            return 0;
    }
    return 1;
}

static int
digits(const char *text, size_t n)
{
    int value = 0;

    for (size_t i = 0; i < n; i++)
        value = value * 10 + text[i] - '0';
    return value;
}

/* An id may be longer than any number that is printed: the check is over all
 * of it, as if the two stood in one text. */
void
paper_tail(const struct subject *s, day_t monday, unsigned serial,
    char out[PAPER_TAIL])
{
    static const char places[] = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ";
    const struct isoweek w = isoweek_of(monday);
    char number[256];
    char printing[5] = {0};

    for (size_t i = 4; i-- > 0; serial /= 36)
        printing[i] = places[serial % 36];
    int n = snprintf(number, sizeof number, "%s-%04dW%02d-%s", s->id,
        w.year % 10000, w.week % 100, printing);
    size_t len = strlen(s->id);
    snprintf(out, PAPER_TAIL, "%s-%02d", number + len,
        check_digits(number, (size_t)n) % 100);
}

/* What is typed is held against itself before it is held against the fleet: a
 * wrong digit in the vehicle is said to be one, not an unknown vehicle. */
enum paper_fault
paper_read(const struct fleet *f, const char *number, struct paper *out)
{
    size_t len = strlen(number);

    if (len < PAPER_TAIL || !has_shape(number + len - (PAPER_TAIL - 1)))
        return PAPER_SHAPE;
    const char *tail = number + len - (PAPER_TAIL - 1);
    if (!check_digits_good(number, len))
        return PAPER_DIGITS;
    out->monday = isoweek_monday(digits(tail + 1, 4), digits(tail + 6, 2));
    if (out->monday == DAY_NONE)
        return PAPER_WEEK;
    size_t id = len - (PAPER_TAIL - 1);
    for (size_t i = 0; i < f->n_subjects; i++)
        if (strlen(f->subjects[i].id) == id &&
            strncasecmp(f->subjects[i].id, number, id) == 0) {
            out->subject = &f->subjects[i];
            return PAPER_GOOD;
        }
    return PAPER_SUBJECT;
}
