#include <glib.h>
#include <stdlib.h>
#include <string.h>

#include "buf.h"
#include "fold.h"
#include "test.h"

/* What fold_line() makes of "N:" and @value; free with buf_free(). */
static struct buf *
folded(const char *value)
{
    struct buf *out = buf_new();

    assert_non_null(out);
    fold_line("N:", value, out);
    assert_false(buf_failed(out));
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
check_line(const char *value)
{
    struct buf *out = folded(value);
    char *back = unfolded(buf_str(out));

    assert_memory_equal(back, "N:", 2);
    assert_memory_equal(back + 2, value, strlen(value));
    assert_string_equal(back + 2 + strlen(value), "\r\n");
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
            size_t n = 0;
            /* Fill up with "y" where no more whole character fits. */
            memset(line + n, 'y', len % part);
            n += len % part;
            for (; n < len; n += part)
                memcpy(line + n, mixes[m], part);
            line[n] = '\0';
            check_line(line);
        }
}

/* RFC 5545, 3.1: "SHOULD NOT be longer than 75 octets, excluding the line
 * break".  So 75 stay, of which "N:" are two, and 76 are 75 and 1. */
static void
exact_edges(void **state)
{
    char line[80];
    struct buf *out;

    (void)state;
    memset(line, 'x', sizeof line);
    line[73] = '\0';
    out = folded(line);
    assert_int_equal(buf_len(out), 77);
    assert_memory_equal(buf_str(out) + 2, line, 73);
    assert_string_equal(buf_str(out) + 75, "\r\n");
    buf_free(out);
    line[73] = 'x';
    line[74] = '\0';
    out = folded(line);
    assert_memory_equal(buf_str(out) + 2, line, 73);
    assert_string_equal(buf_str(out) + 75, "\r\n x\r\n");
    buf_free(out);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_length),
        cmocka_unit_test(exact_edges),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
