/* Days that never come, and intervals that nobody means. */
#include "config/try.h"

#define F "fleet.conf:"

#define NOT_A_DAY                                                              \
    " is not a day; expected YYYY-MM-DD from 1900-01-01 to 2199-12-31\n"

/* None of these was or will be. */
static void
impossible_dates(void **state)
{
#define V "[vehicle V]\ndepot = harbour\njobs = check\n"
    static const struct try_case cases[] = {
        {V "built = 2026-02-30\n",
            F "4: error: 'built': '2026-02-30'" NOT_A_DAY},
        {V "built = 2026-04-31\n",
            F "4: error: 'built': '2026-04-31'" NOT_A_DAY},
        {V "built = 1900-02-29\n",
            F "4: error: 'built': '1900-02-29'" NOT_A_DAY},
        {V "built = 2026-13-01\n",
            F "4: error: 'built': '2026-13-01'" NOT_A_DAY},
        {V "built = 2026-01-00\n",
            F "4: error: 'built': '2026-01-00'" NOT_A_DAY},
        {V "built = 2200-01-01\n",
            F "4: error: 'built': '2200-01-01'" NOT_A_DAY},
        {V "built = 0000-00-00\n",
            F "4: error: 'built': '0000-00-00'" NOT_A_DAY},
        {V "built = 26-01-01\n", F "4: error: 'built': '26-01-01'" NOT_A_DAY},
        {V "built = 20260101\n", F "4: error: 'built': '20260101'" NOT_A_DAY},
        {V "built = 2026-W01-1\n",
            F "4: error: 'built': '2026-W01-1'" NOT_A_DAY},
        {V "built = 2026-01-01T00:00\n",
            F "4: error: 'built': '2026-01-01T00:00'" NOT_A_DAY},
        {V "built = 01/02/2026\n",
            F "4: error: 'built': '01/02/2026'" NOT_A_DAY},
        {V "built = today\n", F "4: error: 'built': 'today'" NOT_A_DAY},
        {V "registered = 2026-02-29\nin-service = 2023-02-29\n",
            F "4: error: 'registered': '2026-02-29'" NOT_A_DAY F
              "5: error: 'in-service': '2023-02-29'" NOT_A_DAY},
        {V "check.deadline = 2027-11-31\n",
            F "4: error: 'check.deadline': '2027-11-31'" NOT_A_DAY},
        {"[holidays h]\nday = 1 jan\nremove = 2026-02-29 2026-1-1\n",
            F "3: error: 'remove': '2026-02-29'" NOT_A_DAY F
              "3: error: 'remove': '2026-1-1'" NOT_A_DAY},
        {"[holidays h]\nday = 1 jan\nknown-until = 2027-02-29\n",
            F "3: error: 'known-until': '2027-02-29'" NOT_A_DAY},
        {"[holidays h]\nadd = 2027-02-29 Leap day\n",
            F "2: error: 'add': '2027-02-29 Leap day' is not a day added; "
              "expected YYYY-MM-DD NAME, one a line\n"},
        {"[holidays h]\nday = 31 jun\n",
            F "2: error: 'day': '31 jun' is not a yearly holiday; expected D "
              "MONTH, first|second|third|fourth|fifth|last WEEKDAY of MONTH, "
              "or easter +N|-N\n"},
        {"[calendar c]\nworks = mon\nclosed = 2026-12-32 Never\n",
            F "3: error: 'closed': '2026-12-32 Never' is not a closure; "
              "expected YYYY-MM-DD NAME or YYYY-MM-DD..YYYY-MM-DD NAME, one a "
              "line\n"},
        {"[calendar c]\nworks = mon\nopen = 2026-06-31\n",
            F "3: error: 'open': '2026-06-31'" NOT_A_DAY},
    };

    (void)state;
    TRY_CASES(cases);
}

#define INTERVALS                                                              \
    " is not an interval; expected N within LENGTH[, apart LENGTH], N "        \
    "days|weeks|months|years, N km|miles, N hours, yearly on D MONTH, rule "   \
    "RRULE from DAY, when needed\n"
#define NEVER_REACHED                                                          \
    " has an 'apart' that is never reached; it must be shorter than the time " \
    "before it\n"
#define TOO_LONG " is longer than 60 years; correct the number or the unit\n"

static void
absurd_intervals(void **state)
{
#define JOB                                                                    \
    "[driver D1]\ndepot = harbour\njobs = j\ndistance-unit = km\n[job j]\n"    \
    "title = J\nclass = own\n"
#define EVERY(value) JOB "every = " value "\n"
#define WRONG(value) F "8: error: 'every': '" value "'"
    static const struct try_case cases[] = {
        {EVERY("-6 weeks"), WRONG("-6 weeks") INTERVALS},
        {EVERY("0 days"), WRONG("0 days") INTERVALS},
        {EVERY("+6 weeks"), WRONG("+6 weeks") INTERVALS},
        {EVERY("6.5 weeks"), WRONG("6.5 weeks") INTERVALS},
        {EVERY("6,5 weeks"), WRONG("6,5 weeks") INTERVALS},
        {EVERY("six weeks"), WRONG("six weeks") INTERVALS},
        {EVERY("6weeks"), WRONG("6weeks") INTERVALS},
        {EVERY("6"), WRONG("6") INTERVALS},
        {EVERY("weeks"), WRONG("weeks") INTERVALS},
        {EVERY("0x6 weeks"), WRONG("0x6 weeks") INTERVALS},
        {EVERY("1e3 days"), WRONG("1e3 days") INTERVALS},
        {EVERY("6 fortnights"), WRONG("6 fortnights") INTERVALS},
        {EVERY("100 years"), WRONG("100 years") TOO_LONG},
        {EVERY("100000 days"), WRONG("100000 days") TOO_LONG},
        {EVERY("100001 days"), WRONG("100001 days") INTERVALS},
        {EVERY("18446744073709551622 weeks"),
            WRONG("18446744073709551622 weeks") INTERVALS},
        {EVERY("-20000 km"), WRONG("-20000 km") INTERVALS},
        {EVERY("999999999999999999 km"),
            WRONG("999999999999999999 km") " is more than any meter shows; "
                                           "correct the number or the unit\n"},
        {EVERY("9223372036854775808 km"),
            WRONG("9223372036854775808 km") INTERVALS},
        {EVERY("0 hours"), WRONG("0 hours") INTERVALS},
        {EVERY("1 within 12 months"), WRONG("1 within 12 months") INTERVALS},
        {EVERY("401 within 12 months"),
            WRONG("401 within 12 months") INTERVALS},
        {EVERY("4 within 0 months"), WRONG("4 within 0 months") INTERVALS},
        {EVERY("4 within 1 year, apart 4"),
            WRONG("4 within 1 year, apart 4") INTERVALS},
        {EVERY("4 within 1 year, apart 0 days"),
            WRONG("4 within 1 year, apart 0 days") INTERVALS},
        {EVERY("4 within 1 year, 4 months"),
            WRONG("4 within 1 year, 4 months") INTERVALS},
        {EVERY("4 within 1 year, apart 12 months"),
            WRONG("4 within 1 year, apart 12 months") NEVER_REACHED},
        {EVERY("4 within 1 year, apart 11 months"), ""},
        {EVERY("4 within 61 years"), WRONG("4 within 61 years") TOO_LONG},
        {EVERY("yearly on 31 nov"), WRONG("yearly on 31 nov") INTERVALS},
        {EVERY("yearly on 0 jan"), WRONG("yearly on 0 jan") INTERVALS},
        {EVERY("rule FREQ=YEARLY from 2026-02-30"),
            WRONG("rule FREQ=YEARLY from 2026-02-30") INTERVALS},
        {EVERY("rule FREQ=SECONDLY from 2026-01-01"),
            WRONG("rule FREQ=SECONDLY from 2026-01-01") INTERVALS},
        {EVERY("rule FREQ=YEARLY;INTERVAL=0 from 2026-01-01"),
            WRONG("rule FREQ=YEARLY;INTERVAL=0 from 2026-01-01") INTERVALS},
        {EVERY("rule from 2026-01-01"),
            WRONG("rule from 2026-01-01") INTERVALS},
        {EVERY("1 year or"), WRONG("1 year or") INTERVALS},
        {EVERY("or 1 year"), WRONG("or 1 year") INTERVALS},
        {EVERY("1 year and 20000 km"), WRONG("1 year and 20000 km") INTERVALS},
        {EVERY("when needed or so"), WRONG("so") INTERVALS},
        {EVERY("1 year\nlead = -1 working days"),
            F "9: error: 'lead': '-1 working days' is not a lead; expected N "
              "working days (at most 400), or N days|weeks|months|years\n"},
        {EVERY("1 year\nlead = 61 years"),
            F "9: error: 'lead': '61 years'" TOO_LONG},
        {EVERY("1 year\nremind = -1 weeks"),
            F "9: error: 'remind': '-1 weeks' is not a reminder; expected "
              "SPAN or overdue every SPAN\n"},
        {"[feed f]\nshows = all\nhorizon = 61 years\n",
            F "3: error: 'horizon': '61 years'" TOO_LONG},
        {"[feed f]\nshows = all\nhorizon = -1 months\n",
            F "3: error: 'horizon': '-1 months' is not a length of time; "
              "expected N days|weeks|months|years\n"},
    };

    (void)state;
    TRY_CASES(cases);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(impossible_dates),
        cmocka_unit_test(absurd_intervals),
    };

    return cmocka_run_group_tests(tests, try_begin, try_end);
}
