#include <string.h>

#include "buf.h"
#include "test.h"

static int
setup(void **state)
{
    *state = buf_new();
    return *state == NULL;
}

static int
teardown(void **state)
{
    buf_free(*state);
    return 0;
}

static void
an_empty_buffer_is_an_empty_text(void **state)
{
    struct buf *b = *state;

    assert_string_equal(buf_str(b), "");
    assert_int_equal(buf_len(b), 0);
    assert_false(buf_failed(b));
    buf_add(b, NULL, 0);
    buf_text(b, "");
    buf_fill(b, 'x', 0);
    assert_string_equal(buf_str(b), "");
    buf_free(NULL);
}

static void
additions_follow_one_another(void **state)
{
    struct buf *b = *state;

    buf_text(b, "due");
    buf_fill(b, '.', 3);
    buf_add(b, "2026-05-14 and more", 10);
    buf_print(b, " %s:%d", "K7", 42);
    assert_string_equal(buf_str(b), "due...2026-05-14 K7:42");
    assert_int_equal(buf_len(b), 22);
}

/* Every length crosses the places where memory grows, by each way of
 * adding. */
static void
it_grows_without_losing_a_byte(void **state)
{
    struct buf *b = *state;
    size_t want = 0;

    for (size_t n = 0; n < 700; n++) {
        buf_fill(b, 'a', n);
        buf_print(b, "%*s", (int)n, "");
        buf_text(b, "|");
        want += 2 * n + 1;
        assert_int_equal(buf_len(b), want);
        assert_int_equal(strlen(buf_str(b)), want);
        assert_string_equal(buf_str(b) + want - 1, "|");
    }
    assert_memory_equal(buf_str(b), "|a |aa  |aaa   |", 16);
    assert_false(buf_failed(b));
}

/* The NUL needs room too, whatever the memory is that is taken: an address
 * sanitizer sees it when it has none. */
static void
a_text_that_just_fits_still_ends(void **state)
{
    (void)state;
    for (size_t n = 1; n <= 2100; n++) {
        struct buf *b = buf_new();
        assert_non_null(b);
        buf_fill(b, 'x', n);
        assert_int_equal(strlen(buf_str(b)), n);
        buf_free(b);
    }
}

static void
bytes_may_be_nul(void **state)
{
    struct buf *b = *state;

    buf_add(b, "a\0b", 3);
    assert_int_equal(buf_len(b), 3);
    assert_memory_equal(buf_str(b), "a\0b", 4);
}

static void
running_out_is_remembered(void **state)
{
    struct buf *b = *state;

    buf_text(b, "kept");
    buf_fill(b, 'x', SIZE_MAX / 2);
    assert_true(buf_failed(b));
    buf_text(b, "ignored");
    buf_print(b, "%d", 1);
    assert_true(buf_failed(b));
    assert_string_equal(buf_str(b), "kept");
    buf_clear(b);
    assert_false(buf_failed(b));
    assert_string_equal(buf_str(b), "");
    buf_text(b, "anew");
    assert_string_equal(buf_str(b), "anew");
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(
            an_empty_buffer_is_an_empty_text, setup, teardown),
        cmocka_unit_test_setup_teardown(
            additions_follow_one_another, setup, teardown),
        cmocka_unit_test_setup_teardown(
            it_grows_without_losing_a_byte, setup, teardown),
        cmocka_unit_test(a_text_that_just_fits_still_ends),
        cmocka_unit_test_setup_teardown(bytes_may_be_nul, setup, teardown),
        cmocka_unit_test_setup_teardown(
            running_out_is_remembered, setup, teardown),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
