#include "ical_back.h"

#include "buf.h"
#include "day.h"
#include "num.h"

#include <string.h>

#define TIME_OCTETS (sizeof "20260301T041700Z" - 1)

/* Far more changes than there will be, and room for more below 2^31. */
#define SEQUENCE_MOST 1000000000

/* The start of the line that begins with @what, or NULL. */
static const char *
find_line(const char *at, const char *end, const char *what)
{
    size_t len = strlen(what);

    while (at != NULL && (size_t)(end - at) >= len) {
        if (memcmp(at, what, len) == 0)
            return at;
        at = memchr(at, '\n', (size_t)(end - at));
        at = at ? at + 1 : NULL;
    }
    return NULL;
}

int
ical_back_part(struct ical_back *b, enum feed_form form, struct ical_seen *out)
{
    static const char *const begins[] = {"BEGIN:VEVENT\r\n", "BEGIN:VTODO\r\n"};
    static const char *const ends[] = {"END:VEVENT\r\n", "END:VTODO\r\n"};
    const char *begin = find_line(b->at, b->end, begins[form]);
    const char *end = begin ? find_line(begin, b->end, ends[form]) : NULL;

    if (end == NULL)
        return 0;
    out->text = begin;
    out->len = (size_t)(end - begin) + strlen(ends[form]);
    b->at = begin + out->len;
    return 1;
}

/* The value of the line that begins with @name, of *@len octets, or NULL.  What
 * is looked for this way is never folded. */
static const char *
value_of(const struct ical_seen *s, const char *name, size_t *len)
{
    const char *end = s->text + s->len;
    const char *line = find_line(s->text, end, name);

    if (line == NULL)
        return NULL;
    line += strlen(name);
    const char *cr = memchr(line, '\r', (size_t)(end - line));
    *len = cr ? (size_t)(cr - line) : 0;
    return line;
}

/* "20260301T041700Z" in seconds, or -1. */
static int64_t
read_time(const char *text, size_t len)
{
    int64_t n[6] = {0};
    static const size_t at[] = {0, 4, 6, 9, 11, 13};

    if (text == NULL || len != TIME_OCTETS || text[8] != 'T')
        return -1;
    for (size_t i = 0; i < 6; i++)
        if (num_parse(text + at[i], i == 0 ? 4 : 2, 0, 9999, &n[i]))
            return -1;
    day_t day = day_of((int)n[0], (int)n[1], (int)n[2]);
    if (day == DAY_NONE || n[3] > 23 || n[4] > 59 || n[5] > 59)
        return -1;
    return (int64_t)day * 86400 + n[3] * 3600 + n[4] * 60 + n[5];
}

static int
read_stamp(struct ical_seen *s)
{
    size_t len = 0;
    const char *uid = value_of(s, "UID:", &len);

    if (uid == NULL || len != ICAL_UID_TEXT - 1)
        return -1;
    memcpy(s->uid, uid, len);
    s->uid[len] = '\0';
    const char *modified = value_of(s, "LAST-MODIFIED:", &len);
    s->stamp.modified = read_time(modified, len);
    const char *sequence = value_of(s, "SEQUENCE:", &len);
    if (s->stamp.modified < 0 || sequence == NULL)
        return -1;
    return num_parse(sequence, len, 0, SEQUENCE_MOST, &s->stamp.sequence);
}

static int
is_of(const struct ical_seen *s, const char *category)
{
    size_t len = 0;
    size_t n = strlen(category);
    const char *value = value_of(s, "CATEGORIES:", &len);

    return value != NULL && len >= n && memcmp(value, category, n) == 0 &&
           (len == n || value[n] == ',');
}

/* Nonzero when the line is one that the stamp brought in. */
static int
is_stamped(const char *line, size_t len, int undated)
{
    static const char *const lines[] = {"DTSTAMP:", "LAST-MODIFIED:",
        "SEQUENCE:", "DTSTART;VALUE=DATE:", "DTEND;VALUE=DATE:"};

    for (size_t i = 0; i < (undated ? 5u : 3u); i++) {
        size_t n = strlen(lines[i]);
        if (len >= n && memcmp(line, lines[i], n) == 0)
            return 1;
    }
    return 0;
}

static void
add_content(const struct ical_seen *s, struct buf *content)
{
    const char *end = s->text + s->len;
    int undated = is_of(s, ICAL_UNDATED) || is_of(s, ICAL_CATEGORY_NOTHING);

    buf_clear(content);
    for (const char *line = s->text; line < end;) {
        const char *lf = memchr(line, '\n', (size_t)(end - line));
        size_t len = (size_t)((lf ? lf + 1 : end) - line);
        if (!is_stamped(line, len, undated))
            buf_add(content, line, len);
        line += len;
    }
}

int
ical_back_next(struct ical_back *b, enum feed_form form, struct ical_seen *out,
    struct buf *content)
{
    do {
        if (!ical_back_part(b, form, out))
            return 0;
    } while (read_stamp(out) != 0);
    out->is_due =
        !is_of(out, ICAL_CATEGORY_DONE) && !is_of(out, ICAL_CATEGORY_DEFECT) &&
        !is_of(out, ICAL_CATEGORY_END) && !is_of(out, ICAL_CATEGORY_NOTHING);
    add_content(out, content);
    return 1;
}
