/*
 * Holiday rules against the dates that GOV.UK published: 14 years, three
 * nations, from the file beside this one (its source is in README.md).  Date
 * sets are compared, not names: of the two Christmas days the published list
 * calls now the one, now the other the substitute.
 */
#include <stdio.h>
#include <string.h>

#include "days.h"
#include "test.h"
#include "uk_holidays.h"

#define PUBLISHED "tests/reference/uk-bank-holidays-2015-2028.csv"

/* The days published for one nation, in order. */
struct published {
    const char *nation;
    day_t days[200];
    size_t n;
};

static void
read_published(struct published *p)
{
    char line[128];
    size_t name_len = strlen(p->nation);
    FILE *f = fopen(PUBLISHED, "r");

    if (f == NULL)
        fail_msg("cannot open %s: run from the project's folder", PUBLISHED);
    while (fgets(line, sizeof line, f) != NULL) {
        if (strncmp(line, p->nation, name_len) != 0)
            continue;
        assert_true(p->n < COUNT(p->days));
        p->days[p->n] = day_parse(line + name_len + 1, 10);
        assert_int_not_equal(p->days[p->n++], DAY_NONE);
    }
    fclose(f);
}

/* Nonzero when the set's days of @year are those published; *at goes on. */
static int
same_year(const struct holiday_set *set, int year, const struct published *p,
    size_t *at)
{
    struct named_day got[HOLIDAY_MOST];
    size_t n = holiday_year(set, year, got);
    size_t first = *at;
    int same = 1;

    while (*at < p->n && day_ymd(p->days[*at]).year == year)
        ++*at;
    for (size_t i = 0; i < n && n == *at - first; i++)
        same = same && got[i].day == p->days[first + i];
    return same && n == *at - first;
}

static void
the_published_days_are_reproduced(void **state)
{
    const struct nation *nation = *state;
    struct published p = {.nation = nation->name};
    size_t at = 0;

    read_published(&p);
    for (int year = 2015; year <= 2028; year++)
        if (!same_year(&nation->holidays, year, &p, &at))
            fail_msg("%s %d differs", nation->name, year);
    assert_int_equal(at, p.n);
}

/* All that was read is what was published: 115, 130 and 143 rows. */
static void
no_published_day_is_passed_over(void **state)
{
    static const size_t rows[] = {115, 130, 143};

    (void)state;
    for (size_t i = 0; i < COUNT(uk_nations); i++) {
        struct published p = {.nation = uk_nations[i].name};
        read_published(&p);
        assert_int_equal(p.n, rows[i]);
    }
}

/* Without what was proclaimed for one year only, the rules give 32 of the 42
 * lists: 2020, 2022 and 2023 everywhere and 2026 in Scotland need more. */
static void
only_one_offs_differ_from_the_rules(void **state)
{
    int alike = 0;

    (void)state;
    for (size_t i = 0; i < COUNT(uk_nations); i++) {
        struct published p = {.nation = uk_nations[i].name};
        struct holiday_set rules = uk_nations[i].holidays;
        size_t at = 0;
        rules.n_added = 0;
        rules.n_removed = 0;
        read_published(&p);
        for (int year = 2015; year <= 2028; year++)
            alike += same_year(&rules, year, &p, &at);
    }
    assert_int_equal(alike, 32);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        {"england and wales", the_published_days_are_reproduced, NULL, NULL,
            (void *)&uk_nations[0]},
        {"scotland", the_published_days_are_reproduced, NULL, NULL,
            (void *)&uk_nations[1]},
        {"northern ireland", the_published_days_are_reproduced, NULL, NULL,
            (void *)&uk_nations[2]},
        cmocka_unit_test(no_published_day_is_passed_over),
        cmocka_unit_test(only_one_offs_differ_from_the_rules),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
