#include "http_date.h"

#include "num.h"

#include <stdio.h>
#include <string.h>
#include <strings.h>
#include <time.h>

static const char *const days[] = {"Sunday", "Monday", "Tuesday", "Wednesday",
    "Thursday", "Friday", "Saturday", NULL};
static const char *const months[] = {"Jan", "Feb", "Mar", "Apr", "May", "Jun",
    "Jul", "Aug", "Sep", "Oct", "Nov", "Dec", NULL};

void
http_date_print(int64_t seconds, char out[HTTP_DATE + 1])
{
    time_t at = (time_t)seconds;
    struct tm t;

    /* strftime() would speak the language of the locale. */
    gmtime_r(&at, &t);
    snprintf(out, HTTP_DATE + 1, "%.3s, %02u %s %04u %02u:%02u:%02u GMT",
        days[t.tm_wday], (unsigned)t.tm_mday % 100, months[t.tm_mon],
        (unsigned)(t.tm_year + 1900) % 10000, (unsigned)t.tm_hour % 100,
        (unsigned)t.tm_min % 100, (unsigned)t.tm_sec % 100);
}

static int
take_number(const char **at, size_t len, int64_t max, int *out)
{
    int64_t n;

    if (strnlen(*at, len) < len || num_parse(*at, len, 0, max, &n))
        return -1;
    *at += len;
    *out = (int)n;
    return 0;
}

static int
take_word(const char **at, const char *const *words, size_t len, int *out)
{
    for (int i = 0; words[i] != NULL; i++) {
        size_t n = len ? len : strlen(words[i]);
        if (strncasecmp(*at, words[i], n) != 0)
            continue;
        *at += n;
        *out = i;
        return 0;
    }
    return -1;
}

/*
 * Take what the letter stands for: w: a day in three letters, W: in full, d:
 * the day of the month, e: the same with a blank for a first zero, m: a month,
 * y: a year of four digits, Y: of two.
 */
static int
take(const char **at, char what, struct tm *t)
{
    int rc;

    switch (what) {
    case 'w':
        return take_word(at, days, 3, &t->tm_wday);
    case 'W':
        return take_word(at, days, 0, &t->tm_wday);
    case 'm':
        return take_word(at, months, 3, &t->tm_mon);
    case 'e':
        if (**at == ' ') {
            ++*at;
            return take_number(at, 1, 9, &t->tm_mday);
        }
        return take_number(at, 2, 31, &t->tm_mday);
    case 'd':
        return take_number(at, 2, 31, &t->tm_mday);
    case 'y':
        rc = take_number(at, 4, 9999, &t->tm_year);
        t->tm_year -= 1900;
        return rc;
    case 'Y':
        rc = take_number(at, 2, 99, &t->tm_year);
        t->tm_year += t->tm_year < 70 ? 100 : 0;
        return rc;
    case 'H':
        return take_number(at, 2, 23, &t->tm_hour);
    case 'M':
        return take_number(at, 2, 59, &t->tm_min);
    case 'S': /* a leap second counts as the one before it */
        rc = take_number(at, 2, 60, &t->tm_sec);
        t->tm_sec -= t->tm_sec == 60;
        return rc;
    default:
        return -1;
    }
}

static int
read_form(const char *text, const char *form, int64_t *seconds)
{
    struct tm t = {0};

    for (; *form != '\0'; form++) {
        if (*form == '%' ? take(&text, *++form, &t) : *text++ != *form)
            return -1;
    }
    int day = t.tm_mday;
    time_t at = timegm(&t);
    if (*text != '\0' || t.tm_mday != day) /* 30 February */
        return -1;
    *seconds = at;
    return 0;
}

int
http_date_parse(const char *text, int64_t *seconds)
{
    static const char *const forms[] = {
        "%w, %d %m %y %H:%M:%S GMT",
        "%W, %d-%m-%Y %H:%M:%S GMT",
        "%w %m %e %H:%M:%S %y",
    };

    for (size_t i = 0; i < sizeof forms / sizeof *forms; i++)
        if (read_form(text, forms[i], seconds) == 0)
            return 0;
    return -1;
}
