#include <stdio.h>
#include <string.h>

#include "buf.h"
#include "clean.h"
#include "test.h"

#define REPLACED "\xef\xbf\xbd"

static void
check(enum clean how, const char *text, size_t len, const char *wanted)
{
    struct buf *out = buf_new();

    assert_non_null(out);
    clean_add(out, how, text, len);
    assert_false(buf_failed(out));
    assert_string_equal(buf_str(out), wanted);
    assert_int_equal(buf_len(out), strlen(wanted));
    buf_free(out);
}

#define LINE(text, wanted) check(CLEAN_LINE, text, sizeof(text) - 1, wanted)
#define LINES(text, wanted) check(CLEAN_LINES, text, sizeof(text) - 1, wanted)

static void
text_stays(void **state)
{
    (void)state;
    LINE("", "");
    LINE("Oil, filter; \"belt\" \\ 5 %", "Oil, filter; \"belt\" \\ 5 %");
    /* Accents (composed or not), Greek, Chinese, an emoji joined with U+200D
     * and with a variation selector, the no-break space. */
    LINE("caf\xc3\xa9 cafe\xcc\x81 \xce\xb1\xe8\xbd\xa6"
         "\xf0\x9f\x91\xa9\xe2\x80\x8d\xf0\x9f\x94\xa7\xef\xb8\x8f\xc2\xa0",
        "caf\xc3\xa9 cafe\xcc\x81 \xce\xb1\xe8\xbd\xa6"
        "\xf0\x9f\x91\xa9\xe2\x80\x8d\xf0\x9f\x94\xa7\xef\xb8\x8f\xc2\xa0");
    /* The last code points that are characters: U+FFFD, U+10FFFD. */
    LINE("\xef\xbf\xbd\xf4\x8f\xbf\xbd", "\xef\xbf\xbd\xf4\x8f\xbf\xbd");
}

static void
separators_become_blanks(void **state)
{
    (void)state;
    LINE("a\tb\nc\vd\fe", "a b c d e");
    LINE("a\xc2\x85"
         "b\xe2\x80\xa8"
         "c\xe2\x80\xa9"
         "d",
        "a b c d");
    LINES("a\tb\nc\r\nd\xe2\x80\xa8"
          "e",
        "a b\nc\nd e");
}

/* In one line.  U+3000 and U+00A0 are white space too. */
static void
white_space_comes_alone(void **state)
{
    (void)state;
    LINE("a  b \t\n c\xe3\x80\x80\xe3\x80\x80 d \xc2\xa0"
         "e \x01 f",
        "a b c\xe3\x80\x80"
        "d e f");
    LINES("  a  b\n\n\n  c", "  a  b\n\n\n  c");
    LINE("a,;\\b", "a,;\\b");
    check(CLEAN_NAME, "a, b,,,;\\ ,c", 12, "a b c");
}

static void
controls_go(void **state)
{
    (void)state;
    LINE("a\0b\x01\x08\r\x0e\x1b\x1f\x7f"
         "c\xc2\x80\xc2\x84\xc2\x86\xc2\x9f"
         "d",
        "abcd");
}

static void
bidirectional_controls_go(void **state)
{
    (void)state;
    LINE("a\xd8\x9c"
         "b\xe2\x80\x8e\xe2\x80\x8f"
         "c\xe2\x80\xaa\xe2\x80\xab\xe2\x80\xac\xe2\x80\xad\xe2\x80\xae"
         "d\xe2\x81\xa6\xe2\x81\xa7\xe2\x81\xa8\xe2\x81\xa9"
         "e",
        "abcde");
}

static void
what_is_no_character_is_replaced(void **state)
{
    (void)state;
    LINE("a\xff"
         "b\x80"
         "c",
        "a" REPLACED "b" REPLACED "c");
    /* Cut short at the end, and by a NUL. */
    LINE("a\xe2\x82", "a" REPLACED REPLACED);
    LINE("a\xe2\0b", "a" REPLACED "b");
    /* An overlong slash, a surrogate, one past U+10FFFF. */
    LINE("\xc0\xaf", REPLACED REPLACED);
    LINE("\xed\xa0\x80", REPLACED REPLACED REPLACED);
    LINE("\xf4\x90\x80\x80", REPLACED REPLACED REPLACED REPLACED);
    /* U+FDD0, U+FDEF, U+FFFE, U+1FFFF, U+10FFFE; not U+FDCF or U+FDF0. */
    LINE("\xef\xb7\x90\xef\xb7\xaf\xef\xbf\xbe\xf0\x9f\xbf\xbf\xf4\x8f\xbf\xbe",
        REPLACED REPLACED REPLACED REPLACED REPLACED);
    LINE("\xef\xb7\x8f\xef\xb7\xb0", "\xef\xb7\x8f\xef\xb7\xb0");
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(text_stays),
        cmocka_unit_test(separators_become_blanks),
        cmocka_unit_test(white_space_comes_alone),
        cmocka_unit_test(controls_go),
        cmocka_unit_test(bidirectional_controls_go),
        cmocka_unit_test(what_is_no_character_is_replaced),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
