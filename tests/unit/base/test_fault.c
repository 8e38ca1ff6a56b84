#include <string.h>

#include "fault.h"
#include "test.h"

static void
a_fault_carries_code_and_text(void **state)
{
    struct fault f;

    (void)state;
    assert_int_equal(fault_set(&f, 74, "cannot write %s: %d", "x.ics", 5), -1);
    assert_int_equal(f.code, 74);
    assert_string_equal(f.text, "cannot write x.ics: 5");
}

static void
a_long_text_is_cut_and_nobody_need_listen(void **state)
{
    struct fault f;

    (void)state;
    assert_int_equal(fault_set(&f, 70, "%600s", "x"), -1);
    assert_int_equal(strlen(f.text), sizeof f.text - 1);
    assert_int_equal(fault_set(NULL, 70, "%s", "unheard"), -1);
}

/* What one cannot read to its end one cannot act on. */
static void
another_fault_is_said_whole_or_not(void **state)
{
    struct fault f;
    struct fault other;
    struct fault small;

    (void)state;
    fault_fill(&f, 65, "first");
    fault_fill(&other, 65, "%200s", "second");
    fault_fill(&small, 65, "third");
    fault_also(&f, &other);
    fault_also(&f, &other);
    assert_int_equal(strlen(f.text), 5 + 2 * (6 + 200));
    fault_also(&f, &other);
    assert_int_equal(strlen(f.text), 5 + 2 * (6 + 200) + 10);
    assert_string_equal(f.text + strlen(f.text) - 16, "second; and more");
    fault_also(&f, &small);
    fault_also(&f, &other);
    assert_string_equal(f.text + strlen(f.text) - 16, "second; and more");
    /* No room even for that. */
    fault_fill(&f, 65, "%600s", "first");
    fault_also(&f, &other);
    assert_string_equal(f.text + sizeof f.text - 1 - 4, "    ");
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_fault_carries_code_and_text),
        cmocka_unit_test(a_long_text_is_cut_and_nobody_need_listen),
        cmocka_unit_test(another_fault_is_said_whole_or_not),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
