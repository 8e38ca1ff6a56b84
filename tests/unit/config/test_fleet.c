/* What single values cannot tell of subjects, the site and the whole fleet. */
#include "config/try.h"

#define F "fleet.conf:"

static void
subjects(void **state)
{
    static const struct try_case cases[] = {
        {"[vehicle V]\ndepot = harbour\n",
            F "1: error: [vehicle V] has no job, so it is never due; add jobs "
              "= JOB...\n"},
        {"[driver D]\ndepot = harbour\n",
            F "1: warning: [driver D] has no job, so it is never due; add "
              "jobs = JOB...\n"},
        {"[vehicle V]\njobs = check\n",
            F "1: error: [vehicle V] has no depot, so its working days are "
              "unknown: add depot = DEPOT\n"},
        {"[driver D]\njobs = check\n",
            F "1: error: [driver D] has no depot, so its working days are "
              "unknown: add depot = DEPOT\n"},
        {"[equipment E]\njobs = check\ncarried-by = K9\n",
            F "3: error: 'carried-by': there is no vehicle, equipment or "
              "driver 'K9'; did you mean 'K7'?\n"},
        {"[equipment E]\njobs = check\ncarried-by = F\n[equipment F]\njobs = "
         "check\ncarried-by = E\n[equipment G]\njobs = check\ncarried-by = D\n"
         "[driver D]\ndepot = harbour\njobs = check\n",
            F "3: error: 'carried-by': 'F' is equipment; only a vehicle "
              "carries things\n" F
              "6: error: 'carried-by': 'E' is equipment; only a vehicle "
              "carries things\n" F
              "9: error: 'carried-by': 'D' is a driver; only a vehicle "
              "carries things\n"},
        {"[vehicle V]\njobs = check\ndepot = harbour\ncarried-by = K7\n",
            F "4: error: unknown key 'carried-by' in [vehicle V]; "
              "ostler-fleet(5) lists what there is\n"},
        {"[type t]\ncarried-by = K7\n[vehicle V]\njobs = check\ntype = t\n",
            F "3: error: [vehicle V] is carried by 'K7' as its type says; "
              "only equipment is carried\n"},
        {"[vehicle V]\njobs = check\ntype = minbus\ndepot = harbour\n[type "
         "minibus]\nregistered = 2020-01-01\n",
            F "3: error: 'type': there is no type 'minbus'; did you mean "
              "'minibus'?\n" F
              "6: error: unknown key 'registered' in [type minibus]; "
              "ostler-fleet(5) lists what there is\n"},
        {"[vehicle V]\njobs = check chek\ndepot = harbor\n",
            F "2: error: 'jobs': there is no job 'chek'; did you mean "
              "'check'?\n" F
              "3: error: 'depot': there is no depot 'harbor'; did you mean "
              "'harbour'?\n"},
        {"[vehicle V]\njobs = check\ndepot = harbour\nbuilt = 2020-05-01\n"
         "registered = 2020-04-01\nin-service = 2020-03-01\n",
            F "5: warning: 'registered': the day lies before 'built'\n" F
              "6: warning: 'in-service': the day lies before 'built'\n" F
              "6: warning: 'in-service': the day lies before 'registered'\n"},
        {"[job j]\ntitle = J\nclass = own\nevery = 20000 km\n[vehicle V]\n"
         "jobs = j\ndepot = harbour\n",
            F "5: error: [vehicle V] has no 'distance-unit', and the job 'j' "
              "counts distance; add distance-unit = km or miles\n"},
        {"[vehicle V]\njobs = check\ndepot = harbour\nyearly-distance = 9000 "
         "km\n",
            F "4: error: 'yearly-distance': [vehicle V] has no "
              "'distance-unit'; add distance-unit = km or miles\n"},
        {"[type t]\njobs = check\n[vehicle V]\ntype = t\njobs = check\n"
         "depot = harbour\n",
            F "5: warning: 'jobs': [vehicle V] has 'check' from its type "
              "already; take one out\n"},
        {"[calendar ferry]\nworks = sun\n[job j]\ntitle = J\nclass = own\n"
         "every = 1 year\ncalendar = ferry\n[vehicle V]\njobs = j\n"
         "depot = harbour\n",
            F "8: error: [vehicle V] has 'j' done at 'ferry', which never "
              "works on a day when the depot 'harbour' does\n"},
    };

    (void)state;
    TRY_CASES(cases);
}

static void
own_values(void **state)
{
#define V "[vehicle V]\ndepot = harbour\njobs = check\n"
    static const struct try_case cases[] = {
        {V "Check.Every = 8 weeks\n", ""},
        {V "chek.every = 8 weeks\n",
            F "4: error: 'chek.every': there is no job 'chek'; did you mean "
              "'check'?\n"},
        {V "check.evry = 8 weeks\n",
            F "4: error: unknown key 'check.evry' in [vehicle V]; did you "
              "mean 'every'?\n"},
        {V "check.title = Check\n",
            F "4: error: unknown key 'check.title' in [vehicle V]; "
              "ostler-fleet(5) lists what there is\n"},
        {V "check.every = 8 wks\n  check.last = 2026-01-01\n",
            F "5: error: 'check.every': the indented line 'check.last = "
              "2026-01-01' goes on with this value; begin a key at the start "
              "of the line\n"},
        {V "check.within = 8 weeks\n",
            F "4: error: 'check.within': the job 'check' says 'every'; "
              "expected check.every\n"},
        {V "check.window = 1 month\n",
            F "4: error: 'check.window': says something only beside "
              "'runs-from = keeping the date', 'runs-from = deadline', "
              "'yearly' or 'rule'; add one or take this out\n"},
        {V "check.window = 1 week\ncheck.runs-from = deadline\n", ""},
        {V "check.runs-from = keeping the date\n",
            F "4: error: 'check.runs-from': keeping the date needs a window; "
              "add window = SPAN, how long before the deadline the date is "
              "kept\n"},
        {V "check.calendar = ferry\n[calendar ferri]\nworks = tue\n",
            F "4: error: 'check.calendar': there is no calendar 'ferry'; did "
              "you mean 'ferri'?\n"},
        {V "check.calendar = ferry\n[calendar ferry]\nworks = sun\n",
            F "1: error: [vehicle V] has 'check' done at 'ferry', which never "
              "works on a day when the depot 'harbour' does\n"},
        /* Elsewhere, and so without a depot. */
        {"[vehicle V]\njobs = check\ncheck.calendar = workshop\n", ""},
        {"[vehicle V]\ndepot = harbour\njobs = j\nj.every = 1 month\n[job "
         "j]\ntitle = J\nclass = own\nevery = 4 within 1 year\n"
         "also-counts = 1 check\n",
            F "4: error: 'j.every': 'also-counts' goes with N within SPAN "
              "only, and '1 month' is another kind of interval\n"},
        {V "check.every = 8 months\ncheck.ends = week end\n",
            F "5: error: 'check.ends': 'week end' goes with weeks only, and "
              "'8 months' is not so many weeks\n"},
        {V "check.last = 2026-03-02\ncheck.deadline = 2026-03-01\n",
            F "1: error: [vehicle V]: 'check.deadline' is before "
              "'check.last'; correct one of them\n"},
        {V "j.every = 8 weeks\n[driver D]\njobs = j\ndepot = harbour\n[job "
           "j]\ntitle = J\nclass = own\nevery = 1 year\n",
            F "4: error: 'j.every': [vehicle V] does not have the job 'j'; "
              "add it to 'jobs'\n"},
        {"[type t]\njobs = check\ncheck.last = 2026-01-01\n",
            F "3: error: 'check.last': a type has no past of its own; move it "
              "to each subject\n"},
        {"[depot d]\ncalendar = workshop\ncheck.every = 1 week\n",
            F "3: error: unknown key 'check.every' in [depot d]; "
              "ostler-fleet(5) lists what there is\n"},
    };

    (void)state;
    TRY_CASES(cases);
}

static void
assert_read(const char *text, const char *expected)
{
    try_write("fleet.conf", text);
    char *problems = try_read("fleet.conf");
    assert_string_equal(problems, expected);
    free(problems);
}

static void
site_and_mail(void **state)
{
    (void)state;
    assert_read("[sites]\n",
        "fleet.conf: error: there is no [site]; add it with name, time-zone "
        "and ledger\n"
        "fleet.conf: warning: there is no vehicle, equipment or driver, so "
        "nothing is ever due\n" F
        "1: error: unknown section 'sites'; did you mean 'site'?\n");
    assert_read("[site]\nname = x\ntime-zone = Etc/UTC\nledger = x\n"
                "calm = 32 days\n",
        "fleet.conf: warning: there is no vehicle, equipment or driver, so "
        "nothing is ever due\n" F
        "5: error: 'calm': '32 days' is too long to hold a date back; expected "
        "at most 1 month\n");
    assert_read("[site]\nname = x\ntime-zone = Etc/UTC\nledger = x\n"
                "calm = 1 month\n",
        "fleet.conf: warning: there is no vehicle, equipment or driver, so "
        "nothing is ever due\n");
    assert_read("[site]\n[driver D]\ndepot = d\n[depot d]\ncalendar = c\n"
                "[calendar c]\nworks = mon\n[mail]\n[person p]\n",
        F "1: error: [site] has no 'name'; add name = TEXT\n" F
          "1: error: [site] has no 'time-zone'; add time-zone = ZONE\n" F
          "1: error: [site] has no 'ledger'; add ledger = PATH\n" F
          "2: warning: [driver D] has no job, so it is never due; add jobs = "
          "JOB...\n" F "8: error: [mail] has no 'from'; add from = ADDRESS\n" F
          "8: error: [mail] has no 'by'; add by = folder PATH, "
          "sendmail PROGRAM or smtp HOST[:PORT]\n" F
          "9: error: [person p] has neither 'told' nor 'may'; add told = "
          "SCOPE, ... and mail = ADDRESS for who is written to, may = assess, "
          "repair, release for who decides about defects\n");
}

static void
mail(void **state)
{
    char text[2048];
    const char *rest = strstr(try_rest, "[calendar");

    (void)state;
    snprintf(text, sizeof text,
        "[site]\nname = x\ntime-zone = Etc/UTC\nledger = x\n[mail]\n"
        "from = a@b.example\nby = pigeon Paula\n%s",
        rest);
    assert_read(text, F "7: error: 'by': 'pigeon Paula' is no way to send "
                        "mail; expected folder PATH or smtp "
                        "SERVER\n");
    snprintf(text, sizeof text,
        "[site]\nname = x\ntime-zone = Etc/UTC\nledger = x\n[mail]\n"
        "from = a@b.example\nby = folder\n%s",
        rest);
    assert_read(text, F "7: error: 'by': 'folder' is no way to send mail; "
                        "expected folder PATH or smtp SERVER\n");
    snprintf(text, sizeof text,
        "[site]\nname = x\ntime-zone = Etc/UTC\nledger = x\n"
        "[person p]\nmail = a@b.example\ntold = all\n%s",
        rest);
    assert_read(text,
        F "5: warning: [person p] cannot be written to: there is no [mail]; "
          "add it with from and by\n");
}

/* Everything wrong comes out in one run, file by file and line by line. */
static void
all_in_one_run(void **state)
{
    (void)state;
    mkdir("d", 0755);
    try_write("d/2.conf", "[job late]\ntitle = Late\nclass = own\n"
                          "every = 6 weks\n[nonsense]\n");
    try_write("d/1.conf", "[depot harbour]\ncalendar = workshp\n"
                          "[depot Harbour]\n");
    try_write("fleet.conf", "[site]\n"
                            "name = x\n"
                            "time-zone = Europe/London\n"
                            "ledgr = l\n"
                            "include = d/*.conf\n"
                            "[calendar workshop]\n"
                            "works = mon fry\n"
                            "[vehicle K7]\n"
                            "registered = 2019-02-30\n"
                            "depot = harbour\n"
                            "jobs = late earlier\n"
                            "late.last = 2026-1-1\n");
    char *problems = try_read("fleet.conf");
    assert_string_equal(problems,
        F "1: error: [site] has no 'ledger'; add ledger = PATH\n" F
          "4: error: unknown key 'ledgr' in [site]; did you mean 'ledger'?\n" F
          "7: error: 'works': 'fry' is not a weekday; expected mon, tue, wed, "
          "thu, fri, sat or sun\n" F
          "9: error: 'registered': '2019-02-30' is not a day; expected "
          "YYYY-MM-DD from 1900-01-01 to 2199-12-31\n" F
          "11: error: 'jobs': there is no job 'earlier'; correct it or add "
          "its section\n" F
          "12: error: 'late.last': '2026-1-1' is not a day; expected "
          "YYYY-MM-DD from 1900-01-01 to 2199-12-31\n"
          "d/1.conf:2: error: 'calendar': there is no calendar 'workshp'; did "
          "you mean 'workshop'?\n"
          "d/1.conf:3: error: [depot Harbour] again; it stands at "
          "d/1.conf:1 already\n"
          "d/2.conf:4: error: 'every': '6 weks' is not an interval; expected "
          "N within LENGTH[, apart LENGTH], N days|weeks|months|years, "
          "N km|miles, N hours, "
          "yearly on D MONTH, rule RRULE from DAY, when needed\n"
          "d/2.conf:5: error: unknown section 'nonsense'; expected site, "
          "mail, server, holidays, calendar, depot, job, check, type, vehicle, "
          "equipment, driver, person, feed or limit\n");
    free(problems);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(subjects),
        cmocka_unit_test(own_values),
        cmocka_unit_test(site_and_mail),
        cmocka_unit_test(mail),
        cmocka_unit_test(all_in_one_run),
    };

    return cmocka_run_group_tests(tests, try_begin, try_end);
}
