/* Warnings of what is legal and probably wrong. */
#include "config/try.h"

#include "day.h"

#define F "fleet.conf:"

#define SAFETY                                                                 \
    "[job safety]\ntitle = Safety\nclass = recommendation\nevery = 6 weeks\n"

static void
longer_intervals(void **state)
{
#define V "[vehicle V]\ndepot = harbour\njobs = safety\n"
#define MEND(job)                                                              \
    " correct it, or state what its authority allows in '" job ".at-most'\n"
#define LONGER(key, mine, of)                                                  \
    "warning: '" key "': '" mine "' is longer than the '" of "' of [job "
    static const struct try_case cases[] = {
        {SAFETY V "safety.every = 10 weeks\n",
            F "8: " LONGER("safety.every", "10 weeks",
                "6 weeks") "safety] at fleet.conf:4;" MEND("safety")},
        {SAFETY "[type t]\njobs = safety\nsafety.every = 2 months\n[vehicle "
                "V]\ndepot = harbour\ntype = t\n",
            F "7: " LONGER("safety.every", "2 months",
                "6 weeks") "safety] at fleet.conf:4;" MEND("safety")},
        /* The type's is as the job's; only the subject's own is longer. */
        {SAFETY "[type t]\njobs = safety\nsafety.every = 6 weeks\n[vehicle "
                "V]\ndepot = harbour\ntype = t\nsafety.every = 7 weeks\n",
            F "11: " LONGER("safety.every", "7 weeks",
                "6 weeks") "safety] at fleet.conf:4;" MEND("safety")},
        /* 42 days are 6 weeks; so is a week a week. */
        {SAFETY V "safety.every = 42 days\n", ""},
        {SAFETY V "safety.every = 43 days\n",
            F "8: " LONGER("safety.every", "43 days",
                "6 weeks") "safety] at fleet.conf:4;" MEND("safety")},
        {SAFETY V "safety.every = 5 weeks\n", ""},
        {SAFETY V "safety.lead = 10 weeks\n", ""},
        /* Another sort of interval is neither longer nor shorter. */
        {SAFETY V "distance-unit = km\nsafety.every = 30000 km\n", ""},
        /* Your own rule is yours to change. */
        {"[driver D]\ndepot = harbour\njobs = check\ncheck.every = 1 year\n",
            ""},
        {"[job oil]\ntitle = Oil\nclass = maker\n"
         "every = 12 months or 10000 miles or 300 hours\n"
         "[vehicle V]\ndepot = harbour\njobs = oil\ndistance-unit = km\n"
         /* 10000 miles are 16093.44 km. */
         "oil.every = 12 months or 16093 km or 300 hours\n",
            ""},
        {"[job oil]\ntitle = Oil\nclass = maker\n"
         "every = 12 months or 10000 miles or 300 hours\n"
         "[vehicle V]\ndepot = harbour\njobs = oil\ndistance-unit = km\n"
         "oil.every = 12 months or 16094 km\n",
            F "9: " LONGER("oil.every", "16094 km",
                "10000 miles") "oil] at fleet.conf:4;" MEND("oil")},
        {"[job oil]\ntitle = Oil\nclass = maker\nevery = 300 hours\n"
         "[vehicle V]\ndepot = harbour\njobs = oil\noil.every = 301 hours\n",
            F "8: " LONGER("oil.every", "301 hours",
                "300 hours") "oil] at fleet.conf:4;" MEND("oil")},
        {SAFETY "[job nuts]\ntitle = Nuts\nclass = law\nfollows = safety\n"
                "within = 2 days\n"
                "[vehicle V]\ndepot = harbour\njobs = nuts safety\n"
                "nuts.within = 3 days\n",
            F "13: " LONGER("nuts.within", "3 days",
                "2 days") "nuts] at fleet.conf:9;" MEND("nuts")},
    };

    (void)state;
    TRY_CASES(cases);
}

/* A permit allows ten weeks between inspections, six from twelve years on
 * (checks-and-defects, permit guidance 10.2 as reported). */
static void
the_most_that_is_allowed(void **state)
{
#undef V
#define V "[vehicle V]\ndepot = harbour\njobs = safety\n"
#define PERMIT SAFETY "at-most = 10 weeks\n"
#define OVER(key, mine, most, line)                                            \
    "warning: '" key "': '" mine "' is longer than the '" most                 \
    "' that 'at-most' allows at fleet.conf:" line "; correct one of them\n"
#define LACKS(key, most, line)                                                 \
    "warning: '" key "': nothing in it keeps to the '" most                    \
    "' that 'at-most' allows at fleet.conf:" line                              \
    "; add an interval of that sort\n"
    static const struct try_case cases[] = {
        {PERMIT V "safety.every = 8 weeks\n", ""},
        {PERMIT V "safety.every = 70 days\n", ""},
        {PERMIT V "safety.every = 71 days\n",
            F "9: " OVER("safety.every", "71 days", "10 weeks", "5")},
        {PERMIT V, ""},
        /* The subject's own, where its authority allows something else. */
        {PERMIT V "safety.every = 13 weeks\nsafety.at-most = 13 weeks\n", ""},
        {PERMIT V "safety.every = 8 weeks\nsafety.at-most = 7 weeks\n",
            F "9: " OVER("safety.every", "8 weeks", "7 weeks", "10")},
        {PERMIT V "safety.at-most = 5 weeks\n",
            F "9: " OVER("safety.at-most", "6 weeks", "5 weeks", "9")},
        {SAFETY V "safety.every = 8 weeks\nsafety.at-most = 10 weeks\n", ""},
        /* Said once, where it is stated. */
        {PERMIT "[type t]\njobs = safety\nsafety.every = 11 weeks\n"
                "[vehicle V]\ndepot = harbour\ntype = t\n"
                "safety.lead = 1 day\n",
            F "8: " OVER("safety.every", "11 weeks", "10 weeks", "5")},
        {PERMIT "[type t]\njobs = safety\nsafety.at-most = 12 weeks\n"
                "[vehicle V]\ndepot = harbour\ntype = t\n"
                "safety.every = 13 weeks\n",
            F "12: " OVER("safety.every", "13 weeks", "12 weeks", "8")},
        /* The job's own, whatever its class. */
        {"[job j]\ntitle = J\nclass = own\nevery = 11 weeks\n"
         "at-most = 10 weeks\n[vehicle V]\ndepot = harbour\njobs = j\n",
            F "4: " OVER("every", "11 weeks", "10 weeks", "5")},
        /* Nothing but a distance lets any time pass. */
        {PERMIT V "distance-unit = km\nsafety.every = 5000 km\n",
            F "10: " LACKS("safety.every", "10 weeks", "5")},
        /* Each sort by itself; what it is silent of stays with the job. */
        {"[job oil]\ntitle = Oil\nclass = maker\n"
         "every = 12 months or 10000 miles\nat-most = 30000 km\n"
         "[vehicle V]\ndepot = harbour\njobs = oil\ndistance-unit = km\n"
         "oil.every = 13 months or 30001 km\n",
            F "10: " LONGER("oil.every", "13 months",
                "12 months") "oil] at "
                             "fleet.conf:4;" MEND("oil") F
            "10: " OVER("oil.every", "30001 km", "30000 km", "5")},
        {"[job oil]\ntitle = Oil\nclass = maker\n"
         "every = 12 months or 10000 miles\n"
         "at-most = 2 years or 30000 km\n"
         "[vehicle V]\ndepot = harbour\njobs = oil\ndistance-unit = km\n"
         "oil.every = 24 months or 30000 km\n",
            ""},
    };

    (void)state;
    TRY_CASES(cases);
}

static void
longer_from_an_age(void **state)
{
#undef V
#define V                                                                      \
    "[vehicle V]\ndepot = harbour\nregistered = 2010-05-16\njobs = safety\n"
#define AGED                                                                   \
    "[job safety]\ntitle = S\nclass = recommendation\n"                        \
    "every = 10 weeks\nfrom-age = 12 years: 6 weeks, 20 years: 4 "             \
    "weeks\n"
#define AGE(mine, age, of)                                                     \
    "warning: 'safety.from-age': '" mine "' at the age of " age " is longer "  \
    "than the '" of "' of [job safety] at fleet.conf:5; correct it\n"
    static const struct try_case cases[] = {
        {AGED V "safety.from-age = 12 years: 6 weeks, 18 years: 4 weeks\n", ""},
        {AGED V "safety.from-age = 12 years: 8 weeks, 20 years: 4 weeks\n",
            F "10: " AGE("8 weeks", "12 years", "6 weeks")},
        /* 144 months are 12 years. */
        {AGED V "safety.from-age = 145 months: 4 weeks\n",
            F "10: " AGE("10 weeks", "12 years", "6 weeks")},
        {AGED V "safety.from-age = 144 months: 4 weeks\n", ""},
        {AGED V "safety.from-age = 12 years: 6 weeks\n",
            F "10: " AGE("6 weeks", "20 years", "4 weeks")},
        /* An interval of its own that is shorter holds at any age. */
        {AGED V "safety.every = 4 weeks\nsafety.from-age = 30 years: 2 weeks\n",
            ""},
        /* What is your own is yours to change. */
        {"[job safety]\ntitle = S\nclass = own\nevery = 10 weeks\n"
         "from-age = 12 years: 6 weeks\n" V
         "safety.from-age = 15 years: 6 weeks\n",
            ""},
    };

    (void)state;
    TRY_CASES(cases);
}

#define NEVER_TOLD(who)                                                        \
    "warning: 'told': nothing in it is ever due, so [person " who "] is "      \
    "never written to; name what has a job\n"
#define EMPTY(feed)                                                            \
    "warning: 'shows': nothing in it is ever due, so [feed " feed "] is "      \
    "empty; name what has a job\n"

/* D2 has a job that is never due; north is nobody's depot. */
static void
nothing_in_scope(void **state)
{
#define MORE                                                                   \
    "[depot north]\ncalendar = workshop\n[job off]\ntitle = Off\n"             \
    "class = own\nevery = when needed\n"                                       \
    "[driver D2]\ndepot = harbour\njobs = off\n"
    static const struct try_case cases[] = {
        {"[person p]\nmail = p@b.example\ntold = depot north\n" MORE,
            F "3: " NEVER_TOLD("p")},
        {"[person p]\nmail = p@b.example\ntold = depot north, job off,\n"
         "  subject D2\n" MORE,
            F "3: " NEVER_TOLD("p")},
        {"[person p]\nmail = p@b.example\ntold = depot north, depot harbour\n"
         "[person q]\nmail = p@b.example\ntold = subject K7\n"
         "[person s]\nmail = p@b.example\ntold = job check\n"
         "[person t]\nmail = p@b.example\ntold = all\n" MORE,
            ""},
        {"[feed f]\nshows = subject D2\n" MORE, F "2: " EMPTY("f")},
        {"[feed f]\nshows = subject D2, subject K7\n" MORE, ""},
        /* What a vehicle carries is with it, its depot too. */
        {"[feed f]\nshows = subject V\n[vehicle V]\njobs = off\n"
         "depot = north\n[equipment E]\njobs = check\ncarried-by = V\n"
         "[feed n]\nshows = depot north\n" MORE,
            ""},
        /* An error leaves a gap, which is not doubted on top. */
        {"[feed f]\nshows = job paint\n[job paint]\ntitle = Paint\n"
         "class = own\nevery = 2 years\n[driver D]\ndepot = harbour\n"
         "jobs = pain\n",
            F "3: warning: nobody has the job 'paint'; add it to the 'jobs' "
              "of a subject\n" F
              "9: error: 'jobs': there is no job 'pain'; did you mean "
              "'paint'?\n"},
    };

    (void)state;
    TRY_CASES(cases);
}

static void
never_written_to(void **state)
{
    static const struct try_case cases[] = {
        {"[person p]\nmail = p@b.example\ntold = all\n"
         "calendar = workshop\ndays = sat sun\n",
            F "4: warning: 'calendar': it is never open on the 'days' of "
              "[person p], who is never written to; correct one of them\n"},
        {"[person p]\nmail = p@b.example\ntold = all\n"
         "calendar = workshop\ndays = sat sun fri\n",
            ""},
        /* One day in all those years is enough. */
        {"[person p]\nmail = p@b.example\ntold = all\ndays = sun\n"
         "calendar = fair\n[calendar fair]\nworks = none\n"
         "open = 2150-06-14\n",
            ""},
    };

    (void)state;
    TRY_CASES(cases);
}

#define NO_HOLIDAYS(calendar)                                                  \
    "warning: [calendar " calendar "] keeps no holidays, so it is open on "    \
    "Christmas Day too; add holidays = NAME (presets/holidays-*.conf has "     \
    "some), or holidays = none\n"

static void
calendars_without_holidays(void **state)
{
    static const struct try_case cases[] = {
        {"[calendar c]\nworks = mon\n", F "1: " NO_HOLIDAYS("c")},
        /* Closures stated one by one do not say that the rest is meant. */
        {"[calendar c]\nworks = mon\nclosed = 2026-12-25 Christmas\n",
            F "1: " NO_HOLIDAYS("c")},
        {"[calendar c]\nworks = mon\nholidays = none\n", ""},
        {"[calendar c]\nworks = mon\nholidays = NONE\n", ""},
        {"[calendar c]\nworks = mon\nholidays = h\n[holidays h]\n"
         "day = 25 dec\n",
            ""},
        /* Each of its days is named. */
        {"[calendar c]\nworks = none\nopen = 2026-12-25\n", ""},
        /* The word is no set, and no set has it for its name. */
        {"[calendar c]\nworks = mon\nholidays = none h\n[holidays h]\n"
         "day = 25 dec\n",
            F "3: error: 'holidays': there is no holidays 'none'; correct it "
              "or add its section\n"},
        {"[holidays None]\nday = 25 dec\n",
            F "1: error: [holidays None]: the word means that a calendar keeps "
              "none; give the set another name\n"},
    };

    (void)state;
    TRY_CASES(cases);
}

#define LIFT(vehicle)                                                          \
    "warning: [vehicle " vehicle "] has a lift, and neither it nor what it "   \
    "carries has a job with 'lift' in its name or title; add one to its "      \
    "'jobs'\n"

static void
lifts(void **state)
{
#undef V
#define V "[vehicle V]\ndepot = harbour\njobs = check\n"
#define JOB "title = Thorough examination\nclass = own\nevery = 6 months\n"
    static const struct try_case cases[] = {
        {V "title = 16 seats, lift\n", F "1: " LIFT("V")},
        {V "title = Tail-Lift van\n", F "1: " LIFT("V")},
        {V "title = Two lifts\n", F "1: " LIFT("V")},
        {V "title = Forklift\n", ""},
        {V "title = Airlifted\n", ""},
        {V "title = Forklift with a lift\n", F "1: " LIFT("V")},
        {V "type = lift-bus\n[type lift-bus]\nyearly-hours = 1\n",
            F "1: " LIFT("V")},
        {V "type = b\n[type b]\ntitle = Bus with lift\n", F "1: " LIFT("V")},
        {V "title = 8 seats\ntype = b\n[type b]\ntitle = Bus with lift\n",
            F "1: " LIFT("V")},
        /* On the vehicle, or on what it carries: by name or by title. */
        {"[vehicle V]\ndepot = harbour\ntitle = Lift\njobs = lift-test\n"
         "[job lift-test]\n" JOB,
            ""},
        {V "title = Lift\n[equipment L]\ncarried-by = V\njobs = lift-test\n"
           "[job lift-test]\n" JOB,
            ""},
        {V "title = Lift\n[equipment L]\ncarried-by = V\njobs = loler\n"
           "[job loler]\ntitle = Passenger lift\nclass = own\n"
           "every = 6 months\n",
            ""},
        /* The lift of another. */
        {V "title = Lift\n[equipment L]\ncarried-by = K7\njobs = lift-test\n"
           "[job lift-test]\n" JOB,
            F "1: " LIFT("V")},
        {V "title = Lift\n[equipment L]\ncarried-by = V\njobs = uplifting\n"
           "[job uplifting]\n" JOB,
            F "1: " LIFT("V")},
        /* Drivers have none, and equipment is one itself. */
        {"[driver D]\ntitle = Lift operator\ndepot = harbour\njobs = check\n",
            ""},
    };

    (void)state;
    TRY_CASES(cases);
}

/* Read the fleet, forget what was said, and warn of the dates. */
static void
assert_dates(const char *today, const char *text, const char *expected)
{
    struct problems *ps = problems_new();
    struct buf *out = buf_new();
    char whole[4096];

    snprintf(whole, sizeof whole, "%s%s", text, try_rest);
    try_write("fleet.conf", whole);
    struct config *c = try_good("fleet.conf");
    assert_non_null(ps);
    assert_non_null(out);
    /* Numbered otherwise than when the fleet was read. */
    problems_file(ps, "elsewhere.conf");
    config_warn_dates(c, day_parse(today, 10), ps);
    problems_print(ps, 1, out);
    assert_string_equal(buf_str(out), expected);
    config_free(c);
    buf_free(out);
    problems_free(ps);
}

#define KEEPS "[calendar c]\nworks = mon\nholidays = h\n"
#define ADVICE " only, less than a year ahead; "

static void
holidays_that_end(void **state)
{
    static const char stated[] =
        "[holidays h]\nday = 1 jan\nknown-until = 2027-12-01\n" KEEPS;

    (void)state;
    /* A year from 2 December 2026 is 2 December 2027; from 1 December, the
     * last day that is known. */
    assert_dates("2026-12-02", stated,
        F "3: warning: 'known-until': [holidays h] is known until "
          "2027-12-01" ADVICE "add what is published since and move the day\n");
    assert_dates("2026-12-01", stated, "");
    /* Long over. */
    assert_dates("2199-12-31", stated,
        F "3: warning: 'known-until': [holidays h] is known until "
          "2027-12-01" ADVICE "add what is published since and move the day\n");
    /* Without an end, and kept by nobody. */
    assert_dates("2026-12-02", "[holidays h]\nday = 1 jan\n" KEEPS, "");
    assert_dates("2026-12-02",
        "[holidays h]\nday = 1 jan\nknown-until = 2027-01-01\n", "");
    /* A file that tells of 2026 is good to the end of that year. */
    try_write("h.ics", "BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:x\r\n"
                       "BEGIN:VEVENT\r\nUID:1\r\nDTSTAMP:20260101T000000Z\r\n"
                       "DTSTART;VALUE=DATE:20260518\r\nSUMMARY:Games\r\n"
                       "END:VEVENT\r\nEND:VCALENDAR\r\n");
    assert_dates("2026-01-01", "[holidays h]\nfile = h.ics\n" KEEPS,
        F "2: warning: 'file': [holidays h] is known until 2026-12-31" ADVICE
          "fetch a newer file\n");
    assert_dates("2025-12-31", "[holidays h]\nfile = h.ics\n" KEEPS, "");
}

#define HAS                                                                    \
    "[job test]\ntitle = Test\nclass = law\nevery = 12 months\nwindow = 1 "    \
    "month\nruns-from = keeping the date\nlead = 1 day\n"                      \
    "[vehicle V]\nregistered = 2020-01-01\ndepot = harbour\njobs = test\n"
#define FUTURE                                                                 \
    "warning: 'test.last': it cannot have been done on 2027-03-14, which is "  \
    "still to come; correct that day, or the clock\n"
#define FAR(day, from)                                                         \
    "warning: 'test.deadline': " day " is further off than the interval and "  \
    "the window of the job reach from " from "; look at the certificate\n"

static void
a_year_mistyped(void **state)
{
    (void)state;
    assert_dates("2027-03-13", HAS "test.last = 2027-03-14\n", F "12: " FUTURE);
    assert_dates("2027-03-14", HAS "test.last = 2027-03-14\n", "");
    /* 12 months, a month of window, and the end of that month: 30 April. */
    assert_dates("2026-12-02",
        HAS "test.last = 2026-03-14\ntest.deadline = 2027-04-30\n", "");
    assert_dates("2026-12-02",
        HAS "test.last = 2026-03-14\ntest.deadline = 2027-05-01\n",
        F "13: " FAR("2027-05-01", "the 'last' day"));
    /* Alone, it runs from today: to 31 January 2028. */
    assert_dates("2026-12-02", HAS "test.deadline = 2028-01-31\n", "");
    assert_dates("2026-12-02", HAS "test.deadline = 2028-02-01\n",
        F "12: " FAR("2028-02-01", "today"));
    /* A new one may have three years. */
    assert_dates("2026-12-02",
        HAS "test.first = 3 years from registered\n"
            "test.deadline = 2029-12-02\n",
        "");
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(longer_intervals),
        cmocka_unit_test(the_most_that_is_allowed),
        cmocka_unit_test(longer_from_an_age),
        cmocka_unit_test(nothing_in_scope),
        cmocka_unit_test(never_written_to),
        cmocka_unit_test(calendars_without_holidays),
        cmocka_unit_test(lifts),
        cmocka_unit_test(holidays_that_end),
        cmocka_unit_test(a_year_mistyped),
    };

    return cmocka_run_group_tests(tests, try_begin, try_end);
}
