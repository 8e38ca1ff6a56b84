/* Texts that come again: each is kept once, with what it stands for. */
#include <stdio.h>
#include <string.h>

#include "arena.h"
#include "string_pool.h"
#include "test.h"

static struct word *
get(struct string_pool *w, const char *text, int want_new)
{
    int is_new = -1;
    struct word *word = string_pool_get(w, text, strlen(text), &is_new);

    assert_non_null(word);
    assert_string_equal(word->text, text);
    assert_int_equal(is_new, want_new);
    return word;
}

static void
a_word_is_kept_once(void **state)
{
    struct arena *a = arena_new();
    struct string_pool *w = string_pool_new(a);
    int thing = 0;
    char text[] = "K7";

    (void)state;
    struct word *k7 = get(w, text, 1);
    assert_null(k7->thing);
    k7->thing = &thing;
    const char *kept = k7->text;
    assert_ptr_not_equal(kept, text);
    get(w, "k7", 1); /* not the same bytes */
    get(w, "K", 1);
    get(w, "", 1);
    assert_ptr_equal(get(w, "K7", 0)->text, kept);
    assert_ptr_equal(get(w, "K7", 0)->thing, &thing);
    get(w, "", 0);
    string_pool_free(w);
    assert_string_equal(kept, "K7");
    arena_free(a);
    string_pool_free(NULL);
}

/* More than there was room for at first. */
static void
many_words(void **state)
{
    enum { MANY = 5000 };
    static int things[MANY];
    struct arena *a = arena_new();
    struct string_pool *w = string_pool_new(a);
    char text[16];

    (void)state;
    for (int i = 0; i < MANY; i++) {
        snprintf(text, sizeof text, "K%d", i);
        get(w, text, 1)->thing = &things[i];
    }
    for (int i = 0; i < MANY; i++) {
        snprintf(text, sizeof text, "K%d", i);
        assert_ptr_equal(get(w, text, 0)->thing, &things[i]);
    }
    string_pool_free(w);
    arena_free(a);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_word_is_kept_once),
        cmocka_unit_test(many_words),
    };

    return cmocka_run_group_tests_name("words", tests, NULL, NULL);
}
