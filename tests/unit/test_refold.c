#include "buf.h"
#include "refold.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>
#include <glib.h>
#include <libical/ical.h>

/* What refold() makes of @ical; free with buf_free(). */
static struct buf *
refolded(const char *ical)
{
    struct buf *out = buf_new();
    char *copy = strdup(ical);

    assert_non_null(out);
    assert_non_null(copy);
    refold(copy, out);
    assert_false(buf_failed(out));
    free(copy);
    return out;
}

/*
 * Take @text apart by the rules of RFC 5545, 3.1 alone: every line is whole
 * UTF-8 of 1 to 75 octets and ends with CRLF; no continuation is empty. Returns
 * the unfolded text, to be given to free().
 */
static char *
unfolded(const char *text)
{
    char *out = calloc(1, strlen(text) + 1);
    size_t n = 0;
    size_t blank = 0; /* a continuation begins with one, which counts */

    assert_non_null(out);
    while (*text != '\0') {
        size_t len = strcspn(text, "\r\n");
        assert_in_range(len + blank, 1, 75);
        assert_true(g_utf8_validate(text, (gssize)len, NULL));
        assert_memory_equal(text + len, "\r\n", 2);
        memcpy(out + n, text, len);
        n += len;
        text += len + 2;
        blank = *text == ' ';
        if (blank) {
            assert_false(text[1] == '\r');
            text++;
        } else {
            memcpy(out + n, "\r\n", 2);
            n += 2;
        }
    }
    return out;
}

static void
check_line(const char *line)
{
    struct buf *out = refolded(line);
    char *back = unfolded(buf_str(out));

    assert_string_equal(back, line);
    free(back);
    buf_free(out);
}

/* Every length from 1 to 400 octets of text, of characters of one to four
 * octets and of mixes of them, at every phase against the fold. */
static void
every_length(void **state)
{
    static const char *const mixes[] = {"x", "\xc3\xa9", "\xe8\xbd\xa6",
        "\xf0\x9f\x9a\x8c", "a\xc3\xa9",
        "z\xe8\xbd\xa6\xf0\x9f\x9a\x8c\xc3\xa9", "a \xf0\x9f\x9a\x8c"};
    char line[1024];

    (void)state;
    for (size_t m = 0; m < sizeof mixes / sizeof *mixes; m++)
        for (size_t len = 1; len <= 400; len++) {
            size_t part = strlen(mixes[m]);
            strcpy(line, "N:");
            size_t n = 2;
            /* Fill up with "y" where no more whole character fits. */
            memset(line + n, 'y', len % part);
            n += len % part;
            for (; n < len + 2; n += part)
                memcpy(line + n, mixes[m], part);
            strcpy(line + n, "\r\n");
            check_line(line);
        }
}

/* RFC 5545, 3.1: "SHOULD NOT be longer than 75 octets, excluding the line
 * break".  So 75 stay, and 76 are 75 and 1. */
static void
exact_edges(void **state)
{
    char line[80];
    struct buf *out;

    (void)state;
    memset(line, 'x', sizeof line);
    strcpy(line + 75, "\r\n");
    out = refolded(line);
    assert_string_equal(buf_str(out), line);
    buf_free(out);
    memset(line, 'x', sizeof line);
    strcpy(line + 76, "\r\n");
    out = refolded(line);
    line[75] = '\0';
    assert_memory_equal(buf_str(out), line, 75);
    assert_string_equal(buf_str(out) + 75, "\r\n x\r\n");
    buf_free(out);
}

/*
 * libical's own lines: values without a place to fold, of every length, which
 * covers those where 3.0.16 writes CR CR LF blank LF (a last piece of 73
 * octets) or an empty continuation (74).
 */
static void
repairs_libical(void **state)
{
    static const char tail[] = "END:VEVENT\r\n";
    char value[401], wanted[460];
    int damaged = 0;

    (void)state;
    for (size_t len = 1; len <= 400; len++) {
        memset(value, 'u', len);
        value[len] = '\0';
        icalcomponent *c = icalcomponent_new(ICAL_VEVENT_COMPONENT);
        icalcomponent_add_property(c, icalproperty_new_uid(value));
        char *text = icalcomponent_as_ical_string_r(c);
        damaged += strstr(text, "\r\r\n") != NULL;
        struct buf *out = buf_new();
        refold(text, out);
        char *back = unfolded(buf_str(out));
        g_snprintf(
            wanted, sizeof wanted, "BEGIN:VEVENT\r\nUID:%s\r\n%s", value, tail);
        assert_string_equal(back, wanted);
        free(back);
        buf_free(out);
        free(text);
        icalcomponent_free(c);
    }
    /* Where libical has been repaired this says so, and refold can go. */
    assert_true(damaged > 0);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_length),
        cmocka_unit_test(exact_edges),
        cmocka_unit_test(repairs_libical),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
