/* The number of a check sheet on paper. */
#include "paper.h"

#include "test.h"

#include <stdio.h>

/* A fleet of one vehicle. */
static const struct subject k7 = {.id = "K7"};
static const struct fleet fleet = {.subjects = &k7, .n_subjects = 1};

#define SERIAL_4F2C (((4 * 36 + 15) * 36 + 2) * 36 + 12)

/* Monday of 2026-W49 is 30 November.  The number without check digits spells
 * 20 7 2026 32 49 4 15 2 12, whose hundredfold leaves a remainder by 97 that
 * Python worked out with whole numbers: 98 less that is the end. */
static void
a_number_comes_back(void **state)
{
    char tail[PAPER_TAIL];
    char number[64];
    struct paper p;

    (void)state;
    paper_tail(&k7, day_of(2026, 11, 30), SERIAL_4F2C, tail);
    assert_string_equal(tail, "-2026W49-4F2C-66");
    snprintf(number, sizeof number, "%s%s", k7.id, tail);
    assert_int_equal(paper_read(&fleet, number, &p), PAPER_GOOD);
    assert_ptr_equal(p.subject, &k7);
    assert_int_equal(p.monday, day_of(2026, 11, 30));
    assert_int_equal(paper_read(&fleet, "k7-2026w49-4f2c-66", &p), PAPER_GOOD);
}

/* Every other digit where a digit stands, every other letter where a letter
 * does: what the check digits promise. */
static void
each_wrong_character_is_found(void **state)
{
    static const char all[] = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ";
    char number[64] = "K7-2026W49-4F2C-66";
    struct paper p;

    (void)state;
    for (size_t i = 0; number[i] != '\0'; i++)
        for (const char *c = all; *c != '\0' && number[i] != '-'; c++) {
            char was = number[i];
            if (*c == was || (*c <= '9') != (was <= '9'))
                continue;
            number[i] = *c;
            if (paper_read(&fleet, number, &p) == PAPER_GOOD)
                fail_msg("%s was taken", number);
            number[i] = was;
        }
    assert_int_equal(paper_read(&fleet, number, &p), PAPER_GOOD);
}

static void
what_is_wrong_is_told_apart(void **state)
{
    struct subject gone = {.id = "K8"};
    char tail[PAPER_TAIL];
    char number[64];
    struct paper p;

    (void)state;
    assert_int_equal(paper_read(&fleet, "", &p), PAPER_SHAPE);
    assert_int_equal(paper_read(&fleet, "-2026W49-4F2C-00", &p), PAPER_SHAPE);
    assert_int_equal(paper_read(&fleet, "K7-2026-49-4F2C-00", &p), PAPER_SHAPE);
    assert_int_equal(
        paper_read(&fleet, "K7-2026W49-4F2C-00", &p), PAPER_DIGITS);
    /* 2025 has 52 weeks. */
    assert_int_equal(paper_read(&fleet, "K7-2025W53-0000-48", &p), PAPER_WEEK);
    paper_tail(&gone, day_of(2026, 11, 30), 0, tail);
    snprintf(number, sizeof number, "K8%s", tail);
    assert_int_equal(paper_read(&fleet, number, &p), PAPER_SUBJECT);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_number_comes_back),
        cmocka_unit_test(each_wrong_character_is_found),
        cmocka_unit_test(what_is_wrong_is_told_apart),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
