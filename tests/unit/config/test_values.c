/* One value at a time: each with what is said when it is wrong. */
#include "config/try.h"

#define F "fleet.conf:"

/* A job that somebody has, so that it is not a problem by itself. */
#define JOB "[driver D1]\ndepot = harbour\njobs = j\n[job j]\ntitle = J\n"
#define OWN JOB "class = own\n"
#define EVERY OWN "every = 12 months\n"

#define INTERVALS                                                              \
    "expected N within LENGTH[, apart LENGTH], N days|weeks|months|years, "    \
    "N km|miles, N hours, yearly on D MONTH, rule RRULE from DAY, when needed"
#define NO_LENGTH                                                              \
    " is no length, so nothing is longer than it; expected N days|weeks|"      \
    "months|years, N km|miles or N hours\n"
#define NOT_A_SPAN                                                             \
    " is not a length of time; expected N days|weeks|months|years\n"
#define NOT_A_DAY                                                              \
    " is not a day; expected YYYY-MM-DD from 1900-01-01 to 2199-12-31\n"

static void
intervals(void **state)
{
    static const struct try_case cases[] = {
        {OWN "every = 6 weeks or 3000 hours or 12 months or 60 years\n", ""},
        {EVERY "at-most = 2 years\n", ""},
        {EVERY "at-most = 4 within 12 months\n",
            F "8: error: 'at-most': '4 within 12 months'" NO_LENGTH},
        {EVERY "at-most = 2 months or 2 km or when needed or yearly on 1 may\n",
            F "8: error: 'at-most': 'when needed'" NO_LENGTH F
              "8: error: 'at-most': 'yearly on 1 may'" NO_LENGTH},
        {EVERY "at-most = 61 years\n",
            F "8: error: 'at-most': '61 years' is longer than 60 years; "
              "correct the number or the unit\n"},
        {EVERY "at-most = ten weeks\n",
            F "8: error: 'at-most': 'ten weeks' is not an "
              "interval; " INTERVALS "\n"},
        {OWN "every = 6 weks\n", F
            "7: error: 'every': '6 weks' is not an interval; " INTERVALS "\n"},
        {OWN "every = 6 weeks or  nothing or -3 days\n", F
            "7: error: 'every': 'nothing' is not an interval; " INTERVALS "\n" F
            "7: error: 'every': '-3 days' is not an interval; " INTERVALS "\n"},
        {OWN "every = 0 weeks\n", F
            "7: error: 'every': '0 weeks' is not an interval; " INTERVALS "\n"},
        {OWN "every = 6 weeks or\n",
            F "7: error: 'every': '6 weeks or' is not an interval; " INTERVALS
              "\n"},
        {OWN "every = 61 years\n",
            F "7: error: 'every': '61 years' is longer than 60 years; "
              "correct the number or the unit\n"},
        {OWN "every = 721 months\n",
            F "7: error: 'every': '721 months' is longer than 60 years; "
              "correct the number or the unit\n"},
        {OWN "every = 2000001 km\n",
            F "7: error: 'every': '2000001 km' is more than any meter shows; "
              "correct the number or the unit\n"},
        {OWN "every = 2000000 miles or 2000001 hours\n",
            F "1: error: [driver D1] has no 'distance-unit', and the job 'j' "
              "counts distance; add distance-unit = km or miles\n" F
              "7: error: 'every': '2000001 hours' is more than any meter "
              "shows; correct the number or the unit\n"},
        {OWN "every = 0 km\n",
            F "7: error: 'every': '0 km' is not an interval; " INTERVALS "\n"},
        {OWN "every = 2000001 furlongs\n",
            F "7: error: 'every': '2000001 furlongs' is not an "
              "interval; " INTERVALS "\n"},
        {OWN "every = yearly on 30 feb\n",
            F "7: error: 'every': 'yearly on 30 feb' is not an "
              "interval; " INTERVALS "\n"},
        {OWN "every = 1 day or 2 days or 3 days or 4 days or 5 days\n",
            F "7: error: 'every': '5 days' is one too many; expected at most "
              "4 intervals\n"},
        {OWN "every =\n", F "7: error: 'every': no value; expected INTERVAL "
                            "[or INTERVAL]\n"},
    };

    (void)state;
    TRY_CASES(cases);
}

static void
spans(void **state)
{
    static const struct try_case cases[] = {
        {EVERY "reading-within = 0 days\n", ""},
        {EVERY "reading-within = soon\n",
            F "8: error: 'reading-within': 'soon'" NOT_A_SPAN},
        {EVERY "reading-within = 6 weeks 2 days\n",
            F "8: error: 'reading-within': '6 weeks 2 days'" NOT_A_SPAN},
        {EVERY "reading-within = -6 weeks\n",
            F "8: error: 'reading-within': '-6 weeks'" NOT_A_SPAN},
        {EVERY "reading-within = 1.5 weeks\n",
            F "8: error: 'reading-within': '1.5 weeks'" NOT_A_SPAN},
        {EVERY "reading-within = 99999999999999999999 days\n",
            F "8: error: 'reading-within': '99999999999999999999 "
              "days'" NOT_A_SPAN},
        {EVERY "reading-within = 21916 days\n",
            F "8: error: 'reading-within': '21916 days' is longer than 60 "
              "years; correct the number or the unit\n"},
        {"[feed a]\nshows = all\nhorizon = 0 months\n",
            F "3: error: 'horizon': '0 months' is no time at all; expected 1 "
              "or more\n"},
    };

    (void)state;
    TRY_CASES(cases);
}

#define FEED "[feed a]\nshows = all\n"
#define NOT_A_PAGE "is not the address of a page; expected https://HOST/...\n"

static void
feeds(void **state)
{
    static const struct try_case cases[] = {
        {FEED "as = to-dos\nhistory = 0 days\nalarm = 0 days\n"
              "most-events = 10\nmost-kilobytes = 1000000\n",
            ""},
        {FEED "as = todos\n",
            F "3: error: 'as': 'todos' is none of events or to-dos; did you "
              "mean 'to-dos'?\n"},
        {FEED "alarm = at nine\n", F "3: error: 'alarm': 'at nine'" NOT_A_SPAN},
        {FEED "history = ever\n", F "3: error: 'history': 'ever'" NOT_A_SPAN},
        {FEED "most-events = 9\n",
            F "3: error: 'most-events': '9' is not a whole number from 10 to "
              "1000000\n"},
        {FEED "most-kilobytes = 1000001\n",
            F "3: error: 'most-kilobytes': '1000001' is not a whole number "
              "from 10 "
              "to 1000000\n"},
        {"[feed a]\nshows = person p\n[person p]\nmail = a@b.example\n"
         "told = all\n",
            ""},
        {"[feed a]\nshows = person q\n[person p]\nmail = a@b.example\n"
         "told = all\n",
            F "2: error: 'shows': there is no person 'q'; did you mean 'p'?\n"},
        /* A person who is told of what a person is told of would be a circle
         * sooner or later. */
        {"[person p]\nmail = a@b.example\ntold = person p\n",
            F "3: error: 'told': 'person p' is not what can be shown; expected "
              "all, depot DEPOT, subject SUBJECT or job JOB\n"},
    };

    (void)state;
    TRY_CASES(cases);
}

static void
choices(void **state)
{
    static const struct try_case cases[] = {
        {EVERY "ends = MONTH END\n", ""},
        {JOB "class = lawful\nevery = 1 day\n",
            F "6: error: 'class': 'lawful' is none of law, recommendation, "
              "maker or own; did you mean 'law'?\n"},
        {JOB "class = x-rated\nevery = 1 day\n",
            F "6: error: 'class': 'x-rated' is none of law, recommendation, "
              "maker or own\n"},
        {EVERY "ends = week\n",
            F "8: error: 'ends': 'week' is none of same day, day before, "
              "month end or week end\n"},
        {EVERY "first-ends = month ends\n",
            F "8: error: 'first-ends': 'month ends' is none of same day, day "
              "before, month end or week end; did you mean 'month end'?\n"},
        {EVERY "month-end = stick\n",
            F "8: error: 'month-end': 'stick' is none of clamp or sticky; did "
              "you mean 'sticky'?\n"},
        {EVERY "runs-from = deadlines\n",
            F "8: error: 'runs-from': 'deadlines' is none of completion, "
              "deadline or keeping the date; did you mean 'deadline'?\n"},
        {EVERY "age-from = register\n",
            F "8: error: 'age-from': 'register' is none of registered, built, "
              "in-service or earliest; did you mean 'registered'?\n"},
        {EVERY "off-road = wait\n",
            F "8: error: 'off-road': 'wait' is none of runs on or waits; did "
              "you mean 'waits'?\n"},
        {EVERY "roll = back\n",
            F "8: error: 'roll': 'back' is none of preceding, following or "
              "nearest\n"},
        {EVERY "forecast = erly\n",
            F "8: error: 'forecast': 'erly' is none of early, likely or late; "
              "did you mean 'early'?\n"},
        {"[driver D1]\ndepot = harbour\njobs = check\ndistance-unit = m\n",
            F "4: error: 'distance-unit': 'm' is none of km or miles; did you "
              "mean 'km'?\n"},
    };

    (void)state;
    TRY_CASES(cases);
}

static void
parts_of_a_rule(void **state)
{
    static const struct try_case cases[] = {
        {EVERY "first = 0 days from earliest\n", ""},
        {EVERY "first = 12 months\n",
            F "8: error: 'first': '12 months' is not a first deadline; "
              "expected SPAN from registered|built|in-service|earliest, or on "
              "DAY\n"},
        {EVERY "first = 12 months from birth\n",
            F "8: error: 'first': '12 months from birth' is not a first "
              "deadline; expected SPAN from "
              "registered|built|in-service|earliest, or on DAY\n"},
        {EVERY "first = on 2026-02-29\n",
            F "8: error: 'first': 'on 2026-02-29'" NOT_A_DAY},
        {EVERY "first = 70 years from built\n",
            F "8: error: 'first': '70 years from built' is longer than 60 "
              "years; correct the number or the unit\n"},
        {EVERY "from-age = 6 years 3 months\n",
            F "8: error: 'from-age': '6 years 3 months' is not a step of age; "
              "expected SPAN: SPAN\n"},
        {EVERY "from-age = 1 year: 9 months, 12 months: 6 months\n",
            F "1: error: [driver D1] has no 'registered', 'built' or "
              "'in-service', from which the job 'j' counts the age; add it\n" F
              "8: error: 'from-age': two steps begin at the same age\n"},
        {EVERY "lead = 10 working hours\n",
            F "8: error: 'lead': '10 working hours' is not a lead; expected N "
              "working days (at most 400), or N days|weeks|months|years\n"},
        {EVERY "lead = 401 working days\n",
            F "8: error: 'lead': '401 working days' is not a lead; expected N "
              "working days (at most 400), or N days|weeks|months|years\n"},
        {EVERY "remind = 0 days, overdue every 0 days\n",
            F "8: error: 'remind': 'overdue every 0 days' is no time at all; "
              "expected 1 or more\n"},
        {EVERY "remind = 1 week before, overdue\n",
            F "8: error: 'remind': '1 week before' is not a reminder; "
              "expected SPAN or overdue every SPAN\n" F
              "8: error: 'remind': 'overdue' is not a reminder; expected SPAN "
              "or overdue every SPAN\n"},
        {EVERY "remind = 1 week, 7 days\n",
            F "8: error: 'remind': '7 days' stands there twice; take one "
              "out\n"},
        {EVERY "remind = overdue every 1 day, overdue every 2 days\n",
            F "8: error: 'remind': 'overdue every 2 days' is a second one for "
              "overdue; expected one\n"},
        {EVERY "remind =\n 1 day, 2 days, 3 days, 4 days, 5 days, 6 days\n"
               " 8 days, 9 days, 10 days, 11 days, 12 days, 13 days\n"
               " 14 days\n",
            F "11: error: 'remind': '14 days' is one too many; expected at "
              "most 12 before the deadline\n"},
    };

    (void)state;
    TRY_CASES(cases);
}

#define NOT_A_READING                                                          \
    " is not a reading; expected N, or N km|miles, N hours, each a whole "     \
    "number from 0 to 9999999\n"
#define ONE_TOO_MANY                                                           \
    " is one reading too many; expected N, or N km|miles, N hours\n"

static void
days_and_numbers(void **state)
{
    static const struct try_case cases[] = {
        {"[equipment E]\ncarried-by = K7\njobs = check\nbuilt = 2023-02-29\n",
            F "4: error: 'built': '2023-02-29'" NOT_A_DAY},
        {"[equipment E]\ncarried-by = K7\njobs = check\nbuilt = 1899-12-31\n",
            F "4: error: 'built': '1899-12-31'" NOT_A_DAY},
        {"[equipment E]\ncarried-by = K7\njobs = check\nbuilt = 3/4/2020\n",
            F "4: error: 'built': '3/4/2020'" NOT_A_DAY},
        {"[equipment E]\ncarried-by = K7\njobs = check\n"
         "check.last = 2020-00-01\ncheck.deadline = soon\n",
            F "4: error: 'check.last': '2020-00-01'" NOT_A_DAY F
              "5: error: 'check.deadline': 'soon'" NOT_A_DAY},
        {"[equipment E]\ncarried-by = K7\njobs = check\n"
         "check.last-reading = -1\n",
            F "4: error: 'check.last-reading': '-1'" NOT_A_READING},
        {"[equipment E]\ncarried-by = K7\njobs = check\n"
         "check.last-reading = 41200 leagues\n",
            F "4: error: 'check.last-reading': '41200 leagues'" NOT_A_READING},
        {"[equipment E]\ncarried-by = K7\njobs = check\n"
         "check.last = 2026-01-05\ncheck.last-reading = 41200 km, 40 miles\n",
            F "5: error: 'check.last-reading': '40 miles'" ONE_TOO_MANY},
        {"[equipment E]\ncarried-by = K7\njobs = check\n"
         "check.last = 2026-01-05\ncheck.last-reading = 41200, 310 hours\n",
            F "5: error: 'check.last-reading': '310 hours'" ONE_TOO_MANY},
        {"[equipment E]\ncarried-by = K7\njobs = check\n"
         "check.last-reading = 41200\n",
            F "4: error: 'check.last-reading': on which day is not known; add "
              "check.last = YYYY-MM-DD\n"},
        {"[equipment E]\ncarried-by = K7\njobs = check\nyearly-hours = 9000\n",
            F "4: error: 'yearly-hours': '9000' is not a whole number from 1 "
              "to 8784\n"},
        {"[driver D]\ndepot = harbour\njobs = check\ndistance-unit = km\n"
         "yearly-distance = 10000\n",
            F "5: error: 'yearly-distance': '10000' is not a distance; "
              "expected N km or N miles, at most 2000000\n"},
    };

    (void)state;
    TRY_CASES(cases);
}

static void
site_and_mail(void **state)
{
    static const struct try_case cases[] = {
        {"[depot d]\ncalendar = workshop\ntime-zone = Europe/Lodon\n",
            F "3: error: 'time-zone': 'Europe/Lodon' is no time zone that "
              "this machine knows; expected a name of tzdata such as "
              "Europe/London\n"},
        {"[depot d]\ncalendar = workshop\ntime-zone = ../../etc/passwd\n",
            F "3: error: 'time-zone': '../../etc/passwd' is no time zone that "
              "this machine knows; expected a name of tzdata such as "
              "Europe/London\n"},
        {"[depot d]\ncalendar = workshop\ntime-zone = Europe\n",
            F "3: error: 'time-zone': 'Europe' is no time zone that this "
              "machine knows; expected a name of tzdata such as "
              "Europe/London\n"},
        {"[person p]\ntold = all\nmail = The Manager <m@s.example>\n",
            F "3: error: 'mail': 'The Manager <m@s.example>' is not a mail "
              "address; expected one such as manager@skerrow.example and "
              "nothing around it\n"},
        {"[person p]\ntold = all\nmail = a@b.example, c@d.example\n",
            F "3: error: 'mail': 'a@b.example, c@d.example' is not a mail "
              "address; expected one such as manager@skerrow.example and "
              "nothing around it\n"},
        {"[person p]\ntold = all\nmail = manager\n",
            F "3: error: 'mail': 'manager' is not a mail address; expected "
              "one such as manager@skerrow.example and nothing around it\n"},
        {"[person p]\ntold = all\nmail = -a@b.example\n", F
            "3: error: 'mail': '-a@b.example' is not a mail address; expected "
            "one such as manager@skerrow.example and nothing around it\n"},
        {"[person p]\ntold = all\nmail = a@b!c.example\n", F
            "3: error: 'mail': 'a@b!c.example' is not a mail address; expected "
            "one such as manager@skerrow.example and nothing around it\n"},
        {"[person p]\ntold = all\nmail = a@b@c.example\n",
            F "3: error: 'mail': 'a@b@c.example' is not a mail address; "
              "expected one such as manager@skerrow.example and nothing "
              "around it\n"},
    };

    (void)state;
    TRY_CASES(cases);
}

static void
people(void **state)
{
    static const struct try_case cases[] = {
        {"[person p]\nmail = a@b.example\n",
            F "2: error: 'mail': [person p] has no 'told', so nothing is ever "
              "sent; add told = SCOPE, ... or take this out\n"},
        {"[person p]\ntold = all\n",
            F "1: error: [person p] is told of dues and has no 'mail'; add "
              "mail = ADDRESS, or take out 'told'\n"},
        {"[person p]\nmay = repair\nstages = 1 week onward\nurgent = law "
         "overdue\n",
            F "3: error: 'stages': [person p] has no 'told', so nothing is "
              "ever sent; add told = SCOPE, ... or take this out\n" F
              "4: error: 'urgent': [person p] has no 'told', so nothing is "
              "ever sent; add told = SCOPE, ... or take this out\n"},
        {"[person p]\nmay = mend, release\n",
            F "2: error: 'may': 'mend' is none of assess, repair or "
              "release\n"},
        {"[person p]\nmail = a@b.example\ntold = harbour\n",
            F "3: error: 'told': 'harbour' is not what can be shown; expected "
              "all, depot DEPOT, subject SUBJECT or job JOB\n"},
        {"[person p]\nmail = a@b.example\ntold = depot harbour job check\n",
            F "3: error: 'told': 'depot harbour job check' is not what can be "
              "shown; expected all, depot DEPOT, subject SUBJECT or job "
              "JOB\n"},
        {"[person p]\nmail = a@b.example\n"
         "told = depot habour, subject K9, job paint\n",
            F "3: error: 'told': there is no depot 'habour'; did you mean "
              "'harbour'?\n" F
              "3: error: 'told': there is no vehicle, equipment or driver "
              "'K9'; did you mean 'K7'?\n" F
              "3: error: 'told': there is no job 'paint'; correct it or add "
              "its section\n"},
        {"[person p]\nmail = a@b.example\ntold = all\nstages = 4 weeks\n",
            F "4: error: 'stages': '4 weeks' is not a first stage; expected "
              "SPAN onward, overdue onward or overdue SPAN onward\n"},
        {"[person p]\nmail = a@b.example\ntold = all\n"
         "stages = overdue onward or so\n",
            F "4: error: 'stages': 'overdue onward or so' is not a first "
              "stage; expected SPAN onward, overdue onward or overdue SPAN "
              "onward\n"},
        {"[person p]\nmail = a@b.example\ntold = all\ndays = mon, tues\n",
            F "4: error: 'days': 'tues' is not a weekday; expected mon, tue, "
              "wed, thu, fri, sat or sun\n"},
        {"[person p]\nmail = a@b.example\ntold = all\ncalendar = workshp\n",
            F "4: error: 'calendar': there is no calendar 'workshp'; did you "
              "mean 'workshop'?\n"},
        {"[person p]\nmail = a@b.example\ntold = all\nurgent = law\n",
            F "4: error: 'urgent': 'law' is none of never or law "
              "overdue\n"},
        {"[person p]\nmail = a@b.example\ntold = all\noutlook = weekly\n",
            F "4: error: 'outlook': 'weekly' is not a weekday; expected mon, "
              "tue, wed, thu, fri, sat or sun\n"},
        {"[feed f]\ntitle = F\nshow = all\n",
            F "1: error: [feed f] has no 'shows'; add shows = all, depot "
              "DEPOT, subject SUBJECT, job JOB or person PERSON\n" F
              "3: error: unknown key 'show' in [feed f]; did you mean "
              "'shows'?\n"},
    };

    (void)state;
    TRY_CASES(cases);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(intervals),
        cmocka_unit_test(spans),
        cmocka_unit_test(feeds),
        cmocka_unit_test(choices),
        cmocka_unit_test(parts_of_a_rule),
        cmocka_unit_test(days_and_numbers),
        cmocka_unit_test(site_and_mail),
        cmocka_unit_test(people),
    };

    return cmocka_run_group_tests(tests, try_begin, try_end);
}
