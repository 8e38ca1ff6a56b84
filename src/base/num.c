#include "num.h"

int
num_parse(const char *text, size_t len, int64_t min, int64_t max, int64_t *n)
{
    size_t i = len > 0 && text[0] == '-';
    int64_t value = 0;

    /* Eighteen digits cannot overflow; no number here needs more. */
    if (len == i || len - i > 18)
        return -1;
    for (size_t k = i; k < len; k++) {
        if (text[k] < '0' || text[k] > '9')
            return -1;
        value = value * 10 + (text[k] - '0');
    }
    if (i)
        value = -value;
    if (value < min || value > max)
        return -1;
    *n = value;
    return 0;
}
