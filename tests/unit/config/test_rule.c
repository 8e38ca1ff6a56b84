/* What single values cannot tell of a job: how they go together, and how jobs
 * cover each other. */
#include "config/try.h"

#define F "fleet.conf:"

#define JOB "[driver D1]\ndepot = harbour\njobs = j\n[job j]\ntitle = J\n"
#define OWN JOB "class = own\n"
#define KEEPING                                                                \
    " says something only beside 'runs-from = keeping the date'; add that or " \
    "take this out\n"
#define SERIES                                                                 \
    " says something only beside 'runs-from = keeping the date', 'runs-from "  \
    "= deadline', 'yearly' or 'rule'; add one or take this out\n"
#define NO_WINDOW                                                              \
    " keeping the date needs a window; add window = SPAN, how long before "    \
    "the deadline the date is kept\n"
#define COUNTS " 'also-counts' goes with N within SPAN only, and "

static void
rules(void **state)
{
    static const struct try_case cases[] = {
        {OWN "every = 12 months\nruns-from = keeping the date\n"
             "window = 1 month\nlate = restarts\nshortest = 1 month\n",
            ""},
        {OWN "every = 12 months\nwindow = 1 month\nwindow-opens = safer\n"
             "late = restarts\nshortest = 1 month\n",
            F "8: error: 'window':" SERIES F
              "9: error: 'window-opens':" SERIES F
              "10: error: 'late':" KEEPING F "11: error: 'shortest':" KEEPING},
        {OWN "every = 12 months\nruns-from = deadline\nwindow = 1 month\n"
             "window-opens = safer\n",
            ""},
        {OWN "every = yearly on 1 nov\nwindow = 1 month\n"
             "window-opens = safer\n",
            ""},
        {OWN "every = 2 years or rule FREQ=MONTHLY from 2026-01-01\n"
             "window = 1 week\n",
            ""},
        {OWN "every = 12 months\nruns-from = deadline\nlate = restarts\n"
             "shortest = 1 month\n",
            F "9: error: 'late':" KEEPING F "10: error: 'shortest':" KEEPING},
        {OWN "every = yearly on 1 nov\nlate = restarts\n",
            F "8: error: 'late':" KEEPING},
        {OWN "every = 12 months\nruns-from = keeping the date\n",
            F "8: error: 'runs-from':" NO_WINDOW},
        {OWN "every = 12 months\nwindow = 0 days\nruns-from = keeping the "
             "date\n",
            F "9: error: 'runs-from':" NO_WINDOW},
        {OWN "every = 12 months\nwindow = soon\nruns-from = keeping the "
             "date\n",
            F "8: error: 'window': 'soon' is not a length of time; expected N "
              "days|weeks|months|years\n"},
        {OWN "every = yearly on 31 nov\nwindow = 1 week\n",
            F "7: error: 'every': 'yearly on 31 nov' is not an interval; "
              "expected N within LENGTH[, apart LENGTH], N "
              "days|weeks|months|years, N "
              "km|miles, N hours, yearly on D MONTH, rule RRULE from DAY, "
              "when needed\n"},
        /* Nothing follows from a value that was refused. */
        {OWN "every = 12 months\nwindow = 1 month\nruns-from = keeping\n",
            F "9: error: 'runs-from': 'keeping' is none of completion, "
              "deadline or keeping the date\n"},
        {OWN "every = 12 weeks or 400 hours\nends = week end\n", ""},
        {OWN "every = 12 weeks or 3 months\nends = week end\n",
            F "8: error: 'ends': 'week end' goes with weeks only, and '3 "
              "months' is not so many weeks\n"},
        {OWN "every = 12 weeks\nends = week end\nfirst = 3 months from "
             "built\n",
            F "9: error: 'first': 'week end' goes with weeks only, and '3 "
              "months' is not so many weeks\n"},
        {OWN "every = 12 weeks\nfirst-ends = week end\nfirst = 3 weeks from "
             "built\n",
            ""},
        {OWN "every = yearly on 1 nov\nruns-from = deadline\n",
            F "8: error: 'runs-from': 'yearly on 1 nov' names its own days, "
              "so it runs from nothing; take out 'runs-from'\n"},
        {JOB "class = law\nlead = 2 weeks\nevery = 12 months\n"
             "roll = following\n",
            F "9: error: 'roll': a deadline of the law does not move; "
              "expected preceding\n"},
        {JOB "class = recommendation\nevery = 12 months\nroll = following\n",
            ""},
        {JOB "class = law\nevery = 12 months\n",
            F "4: warning: [job j] is law and has no 'lead'; add lead = N "
              "working days, so that it is booked in time\n"},
        {JOB "class = law\nevery = when needed\n", ""},
    };

    (void)state;
    TRY_CASES(cases);
}

static void
also_counts(void **state)
{
    static const struct try_case cases[] = {
        {OWN "every = 4 within 1 year or 5 within 2 years\n"
             "also-counts = 1 check\n",
            ""},
        {OWN "every = 6 weeks\nalso-counts = 1 check\n",
            F "8: error: 'also-counts':" COUNTS
              "'6 weeks' is another kind of interval\n"},
        {OWN "every = 4 within 1 year or 500 hours\nalso-counts = 1 check\n",
            F "8: error: 'also-counts':" COUNTS
              "'500 hours' is another kind of interval\n"},
        {OWN "every = yearly on 1 nov\nalso-counts = 1 check\n",
            F "8: error: 'also-counts':" COUNTS
              "'yearly on 1 nov' is another kind of interval\n"},
        {OWN "every = 6 weks\nalso-counts = 1 chek\n",
            F "7: error: 'every': '6 weks' is not an interval; expected N "
              "within LENGTH[, apart LENGTH], N days|weeks|months|years, N "
              "km|miles, N hours, "
              "yearly on D MONTH, rule RRULE from DAY, when needed\n" F
              "8: error: 'also-counts': there is no job 'chek'; did you mean "
              "'check'?\n"},
    };

    (void)state;
    TRY_CASES(cases);
}

static void
ages(void **state)
{
#define AGED                                                                   \
    "[driver D1]\ndepot = harbour\nbuilt = 2020-01-01\njobs = j\n"             \
    "[job j]\ntitle = J\nclass = own\n"
    static const struct try_case cases[] = {
        {AGED "every = 6 weeks\nfrom-age = 12 years: 6 weeks\n", ""},
        {AGED "every = 6 weeks\nfrom-age = 12 years: 2 months, 13 years: 4 "
              "weeks\n",
            F "9: error: 'from-age': from an age on the interval can only get "
              "shorter, and '2 months' is longer than '6 weeks'\n"},
        {AGED "every = 6000 hours\nfrom-age = 12 years: 6 weeks\n",
            F "9: error: 'from-age': there is no length of time for "
              "'from-age' to shorten; add one to 'every'\n"},
        /* So often in a time is no length that an age shortens. */
        {AGED "every = 4 within 1 year\nfrom-age = 12 years: 6 weeks\n",
            F "9: error: 'from-age': there is no length of time for "
              "'from-age' to shorten; add one to 'every'\n"},
        /* A driver's own interval may be shorter than the job's at any age, and
         * not than an age of its own. */
        {AGED "every = 8 weeks\nfrom-age = 12 years: 6 weeks\n"
              "[driver D2]\ndepot = harbour\nbuilt = 2020-01-01\njobs = j\n"
              "j.every = 5 weeks\n",
            ""},
        {AGED "every = 8 weeks\n"
              "[driver D2]\ndepot = harbour\nbuilt = 2020-01-01\njobs = j\n"
              "j.every = 5 weeks\nj.from-age = 12 years: 6 weeks\n",
            F "14: error: 'j.from-age': from an age on the interval can only "
              "get shorter, and '6 weeks' is longer than '5 weeks'\n"},
        {AGED "every = 8 weeks\nfrom-age = 12 years: 6 weeks\n"
              "age-from = registered\n",
            F "1: error: [driver D1] has no 'registered', from which the job "
              "'j' counts the age; add it\n"},
    };

    (void)state;
    TRY_CASES(cases);
}

static void
jobs(void **state)
{
    static const struct try_case cases[] = {
        {"[job j]\nevery = 6 weeks\n",
            F "1: error: [job j] has no 'title'; add title = TEXT\n" F
              "1: error: [job j] has no 'class'; add class = law, "
              "recommendation, maker or own\n" F
              "1: warning: nobody has the job 'j'; add it to the 'jobs' of a "
              "subject\n"},
        {OWN, F "4: error: [job j] has no 'every'; add every = INTERVAL, or "
                "'follows' and 'within' for work that another job makes "
                "due\n"},
        {OWN "every = 6 weeks\nwithin = 2 days\nfollows = check\n",
            F "8: error: [job j] has both 'every' and 'within'; take one "
              "out\n"},
        {OWN "within = 2 days\n",
            F "7: error: [job j] has 'within' but no 'follows'; add follows = "
              "JOB...\n"},
        {OWN "follows = check\nevery = 2 days\n",
            F "7: error: [job j] has 'follows' but no 'within'; write within "
              "= INTERVAL for 'every'\n"},
        {OWN "follows = check, j\nwithin = 2 days\n",
            F "7: error: 'follows': 'j' cannot follow itself; name the job "
              "that makes it due\n"},
        {OWN "every = 6 weeks\ncovers = check chek check\n",
            F "8: error: 'covers': there is no job 'chek'; did you mean "
              "'check'?\n" F
              "8: error: 'covers': 'check' stands there twice; take one "
              "out\n"},
        {OWN "every = 6 weeks\nalso-counts = check\n",
            F "8: error: 'also-counts': 'check' is not how often a job "
              "counts; expected N JOB\n"},
        {OWN "every = 6 weeks\nalso-counts = 2 J\n",
            F "8: error: 'also-counts': 'j' counts already; name another "
              "job\n"},
        {OWN "every = 6 weeks\ncalendar = ferry\n",
            F "8: error: 'calendar': there is no calendar 'ferry'; correct it "
              "or add its section\n"},
        {OWN "evry = 6 weeks\nevery = 6 weeks\n",
            F "7: error: unknown key 'evry' in [job j]; did you mean "
              "'every'?\n"},
    };

    (void)state;
    TRY_CASES(cases);
}

static void
circles(void **state)
{
#define COVERS(job, others)                                                    \
    "[job " job "]\ntitle = T\nclass = own\nevery = 1 year\ncovers = " others  \
    "\n"
#define HAS "[driver D1]\ndepot = harbour\njobs = a b c d e\n"
    static const struct try_case cases[] = {
        {HAS COVERS("a", "b c") COVERS("b", "c") COVERS("c", "check")
                COVERS("d", "e") COVERS("e", "check"),
            ""},
        /* d leads into the circle and is not of it. */
        {HAS COVERS("a", "check b") COVERS("b", "c") COVERS("c", "a")
                COVERS("d", "b") COVERS("e", "e"),
            F "8: error: 'covers': jobs cover each other in a circle: a "
              "covers b covers c covers a\n" F
              "28: error: 'covers': jobs cover each other in a circle: e "
              "covers e\n"},
    };

    (void)state;
    TRY_CASES(cases);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(rules),
        cmocka_unit_test(also_counts),
        cmocka_unit_test(ages),
        cmocka_unit_test(jobs),
        cmocka_unit_test(circles),
    };

    return cmocka_run_group_tests(tests, try_begin, try_end);
}
