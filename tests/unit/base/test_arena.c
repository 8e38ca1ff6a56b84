#include <string.h>

#include "arena.h"
#include "test.h"

static int
setup(void **state)
{
    *state = arena_new();
    return *state == NULL;
}

static int
teardown(void **state)
{
    arena_free(*state);
    return 0;
}

/* Fill each piece with its own byte; sizes pass one block and more. */
static void
pieces_are_zeroed_aligned_and_apart(void **state)
{
    enum { PIECES = 300 };
    unsigned char *pieces[PIECES];

    for (size_t i = 0; i < PIECES; i++) {
        size_t size = i * i / 4 + 1;
        pieces[i] = arena_take(*state, size);
        assert_non_null(pieces[i]);
        assert_int_equal((uintptr_t)pieces[i] % _Alignof(max_align_t), 0);
        for (size_t k = 0; k < size; k++)
            assert_int_equal(pieces[i][k], 0);
        memset(pieces[i], (int)(i % 251) + 1, size);
    }
    for (size_t i = 0; i < PIECES; i++)
        for (size_t k = 0; k < i * i / 4 + 1; k++)
            assert_int_equal(pieces[i][k], i % 251 + 1);
}

static void
growing_keeps_what_was_there(void **state)
{
    int *list = arena_grow(*state, NULL, 0, 2, sizeof *list);

    assert_non_null(list);
    list[0] = 7;
    list[1] = -9;
    int *more = arena_grow(*state, list, 2, 4, sizeof *more);
    assert_non_null(more);
    assert_int_equal(more[0], 7);
    assert_int_equal(more[1], -9);
    assert_int_equal(more[2], 0);
    assert_int_equal(more[3], 0);
}

static void
texts_are_copied_and_formatted(void **state)
{
    char source[] = "Skerrow Isles";
    char *copy = arena_text(*state, source, 7);

    memset(source, '#', 7);
    assert_string_equal(copy, "Skerrow");
    assert_string_equal(arena_text(*state, NULL, 0), "");
    assert_string_equal(
        arena_print(*state, "%d km, %s", 20000, copy), "20000 km, Skerrow");
    assert_string_equal(arena_print(*state, "%s", ""), "");
    char *wide = arena_print(*state, "%40000s", "x");
    assert_int_equal(strlen(wide), 40000);
    assert_string_equal(wide + 39999, "x");
}

/* What is taken next lies right behind a text and must not join it. */
static void
texts_of_every_length_end(void **state)
{
    static const char xs[] =
        "xxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxx";

    for (size_t n = 1; n < sizeof xs; n++) {
        char *text = arena_text(*state, xs, n);
        char *next = arena_take(*state, 8);
        assert_non_null(text);
        assert_non_null(next);
        memset(next, '#', 8);
        assert_int_equal(strlen(text), n);
    }
}

static void
what_cannot_be_had_is_null(void **state)
{
    assert_null(arena_take(*state, SIZE_MAX));
    assert_null(arena_take(*state, SIZE_MAX / 2 + 1));
    assert_null(arena_grow(*state, NULL, 0, SIZE_MAX / 2, 4));
    assert_null(arena_grow(*state, NULL, 0, SIZE_MAX / 4 + 2, 4));
    /* And the arena still serves. */
    assert_non_null(arena_take(*state, 1));
    arena_free(NULL);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(
            pieces_are_zeroed_aligned_and_apart, setup, teardown),
        cmocka_unit_test_setup_teardown(
            growing_keeps_what_was_there, setup, teardown),
        cmocka_unit_test_setup_teardown(
            texts_are_copied_and_formatted, setup, teardown),
        cmocka_unit_test_setup_teardown(
            texts_of_every_length_end, setup, teardown),
        cmocka_unit_test_setup_teardown(
            what_cannot_be_had_is_null, setup, teardown),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
