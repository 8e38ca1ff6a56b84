#include <string.h>

#include "buf.h"
#include "html.h"
#include "test.h"

/* The entities are those of HTML, 13.3 "escapingString". */
static void
texts_are_escaped(void **state)
{
    (void)state;
    struct buf *out = buf_new();

    assert_non_null(out);
    html_print(out, "<a href=\"%s\">%s</a>", "/?a=\"1\"&b", "<b>x</b>");
    assert_string_equal(buf_str(out), "<a href=\"/?a=&quot;1&quot;&amp;b\">"
                                      "&lt;b&gt;x&lt;/b&gt;</a>");
    buf_clear(out);
    html_print(out, "%s%s", "", "&amp;");
    assert_string_equal(buf_str(out), "&amp;amp;");
    buf_free(out);
}

static void
numbers_and_beginnings(void **state)
{
    (void)state;
    struct buf *out = buf_new();

    assert_non_null(out);
    html_print(
        out, "<td>%d %zu %lld</td>", -3, (size_t)54, (long long)INT64_MAX);
    assert_string_equal(buf_str(out), "<td>-3 54 9223372036854775807</td>");
    buf_clear(out);
    html_print(out, "[%.*s][%.*s][%.*s]", 3, "a<bc", 0, "x", 2, "ab");
    assert_string_equal(buf_str(out), "[a&lt;b][][ab]");
    buf_free(out);
}

static void
a_literal_stays(void **state)
{
    (void)state;
    struct buf *out = buf_new();

    assert_non_null(out);
    html_literal(out, "a > b { width: 50%; content: \"&\" }");
    assert_string_equal(buf_str(out), "a > b { width: 50%; content: \"&\" }");
    buf_free(out);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(texts_are_escaped),
        cmocka_unit_test(numbers_and_beginnings),
        cmocka_unit_test(a_literal_stays),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
