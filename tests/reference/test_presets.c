/*
 * The holiday presets against the published bank holidays of 2015 to 2028:
 * GOV.UK /bank-holidays, see README.md beside the data file.  Compared as sets
 * of weekdays, because the names of substitute days vary and a holiday that
 * falls on a weekend closes that day as well.
 */
#include "config.h"
#include "workcal.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include <cmocka.h>

#define PUBLISHED "tests/reference/uk-bank-holidays-2015-2028.csv"

/* A fleet of one vehicle whose depot keeps the holidays of the preset. */
static struct config *
read_preset(const char *file, const char *set)
{
    struct config_options options = {NULL, 0};
    struct problems *ps = problems_new();
    char path[] = "/tmp/ostler-preset-XXXXXX";
    char *folder = realpath("etc/presets", NULL);
    int fd = mkstemp(path);

    assert_true(fd >= 0);
    assert_non_null(folder);
    dprintf(fd,
        "[site]\nname = N\ntime-zone = Europe/London\nledger = l.db\n"
        "presets = %s/%s\n"
        "[calendar c]\nworks = mon tue wed thu fri\nholidays = %s\n"
        "[depot d]\ncalendar = c\n"
        "[job j]\ntitle = J\nclass = own\nevery = 1 week\n"
        "[vehicle v]\ndepot = d\njobs = j\n",
        folder, file, set);
    close(fd);
    struct config *c = config_read(path, &options, ps);
    assert_non_null(c);
    unlink(path);
    free(folder);
    problems_free(ps);
    return c;
}

/* Mark in @closed the published holidays of @nation; how many there are. */
static int
published(const char *nation, unsigned char *closed, day_t first)
{
    FILE *f = fopen(PUBLISHED, "r");
    char line[200];
    int n = 0;

    assert_non_null(f);
    while (fgets(line, sizeof line, f) != NULL) {
        size_t len = strcspn(line, ",");
        if (strlen(nation) != len || strncmp(line, nation, len) != 0)
            continue;
        day_t d = day_parse(line + len + 1, 10);
        assert_true(day_valid(d));
        closed[d - first] = 1;
        n++;
    }
    fclose(f);
    return n;
}

static void
compare(const char *file, const char *set, const char *nation, int expected)
{
    static unsigned char closed[366 * 14];
    day_t first = day_of(2015, 1, 1);
    day_t last = day_of(2028, 12, 31);

    memset(closed, 0, sizeof closed);
    assert_int_equal(published(nation, closed, first), expected);
    struct config *c = read_preset(file, set);
    const struct workcal *calendar = config_fleet(c)->depots[0].calendar;
    for (day_t d = first; d <= last; d++) {
        if (day_weekday(d) >= 5)
            continue;
        if (workcal_is_open(calendar, d) == !closed[d - first])
            continue;
        char text[DAY_TEXT];
        fail_msg("%s: %s should be %s", set, day_text(d, text),
            closed[d - first] ? "closed" : "open");
    }
    assert_int_equal(workcal_known_until(calendar), last);
    config_free(c);
}

/*
 * By the rules, 8, 9 and 10 a year; beside them two in 2022 (3 June, 19
 * September), one in 2023 (8 May) and Scotland's 15 June 2026.
 */
static void
england_and_wales(void **state)
{
    (void)state;
    compare("holidays-england-wales.conf", "england-wales", "england-and-wales",
        14 * 8 + 3);
}

static void
scotland(void **state)
{
    (void)state;
    compare("holidays-scotland.conf", "scotland", "scotland", 14 * 9 + 4);
}

static void
northern_ireland(void **state)
{
    (void)state;
    compare("holidays-northern-ireland.conf", "northern-ireland",
        "northern-ireland", 14 * 10 + 3);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(england_and_wales),
        cmocka_unit_test(scotland),
        cmocka_unit_test(northern_ireland),
    };

    return cmocka_run_group_tests_name("presets", tests, NULL, NULL);
}
