/*
 * Rolling to a working day as FpML 5.8 defines it (BusinessDayConventionEnum:
 * FOLLOWING, PRECEDING, NEAREST), worked by hand from the bank holidays that
 * GOV.UK published.
 */
#include "days.h"
#include "test.h"
#include "uk_holidays.h"
#include "work_calendar.h"

enum where { ENGLAND, SCOTLAND };

struct roll {
    const char *what;
    enum where where;
    const char *day;
    const char *following;
    const char *preceding;
    const char *nearest;
};

static const struct roll rolls[] = {
    {"Sunday at a month's end", ENGLAND, "2026-05-31", "2026-06-01",
        "2026-05-29", "2026-06-01"},
    {"summer holiday, England", ENGLAND, "2026-08-31", "2026-09-01",
        "2026-08-28", "2026-09-01"},
    {"no holiday in Scotland", SCOTLAND, "2026-08-31", "2026-08-31",
        "2026-08-31", "2026-08-31"},
    {"Saturday, England", ENGLAND, "2026-08-01", "2026-08-03", "2026-07-31",
        "2026-07-31"},
    {"Saturday before a holiday", SCOTLAND, "2026-08-01", "2026-08-04",
        "2026-07-31", "2026-07-31"},
    {"Christmas Day on a Friday", ENGLAND, "2026-12-25", "2026-12-29",
        "2026-12-24", "2026-12-24"},
    {"Good Friday", ENGLAND, "2026-04-03", "2026-04-07", "2026-04-02",
        "2026-04-02"},
    {"Easter Saturday", ENGLAND, "2026-04-04", "2026-04-07", "2026-04-02",
        "2026-04-02"},
    {"Easter Monday, England", ENGLAND, "2026-04-06", "2026-04-07",
        "2026-04-02", "2026-04-07"},
    {"Easter Monday, Scotland", SCOTLAND, "2026-04-06", "2026-04-06",
        "2026-04-06", "2026-04-06"},
    {"substitute on a Tuesday", ENGLAND, "2022-12-27", "2022-12-28",
        "2022-12-23", "2022-12-23"},
    {"2 January moved", SCOTLAND, "2027-01-04", "2027-01-05", "2026-12-31",
        "2027-01-05"},
    {"New Year's Day on a Saturday", SCOTLAND, "2028-01-01", "2028-01-05",
        "2027-12-31", "2027-12-31"},
};

static void
roll_holds(void **state)
{
    const struct roll *r = *state;
    const struct holiday_set *sets[] = {&uk_nations[r->where].holidays};
    struct work_calendar *c = work_calendar_new(&(struct work_calendar_plan){
        .works = 0x1f, .holidays = sets, .n_holidays = 1});
    day_t d = date(r->day);

    assert_non_null(c);
    assert_day(work_calendar_following(c, d), r->following);
    assert_day(work_calendar_preceding(c, d), r->preceding);
    assert_day(work_calendar_nearest(c, d), r->nearest);
    work_calendar_free(c);
}

int
main(void)
{
    struct CMUnitTest tests[COUNT(rolls)];

    for (size_t i = 0; i < COUNT(rolls); i++)
        tests[i] = (struct CMUnitTest){
            rolls[i].what, roll_holds, NULL, NULL, (void *)&rolls[i]};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
