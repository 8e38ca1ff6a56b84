#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <string.h>

#include <cmocka.h>

#include "fault.h"

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

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_fault_carries_code_and_text),
        cmocka_unit_test(a_long_text_is_cut_and_nobody_need_listen),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
