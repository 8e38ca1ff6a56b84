/* What the planner goes by: places, how long work takes, and who may be
 * away. */
#include "config/try.h"

#define F "fleet.conf:"
#define JOB                                                                    \
    "[driver D1]\ndepot = harbour\njobs = j\n[job j]\ntitle = J\n"             \
    "class = own\nevery = 1 year\n"
#define PLACE "[calendar station]\nworks = tue\nholidays = none\n"

#define NOT_WORK                                                               \
    "is not how long work takes; expected N minutes or HOURS hours, at most "  \
    "24 hours\n"
#define NOT_HOURS                                                              \
    "is not the hours of a working day; expected HOURS up to 24, such as "     \
    "7.5\n"
#define NOT_MEMBERS                                                            \
    "does not say which vehicles; expected all, depot DEPOT, type TYPE or "    \
    "subject VEHICLE\n"

static void
values(void **state)
{
    static const struct try_case cases[] = {
        {JOB "takes = 90 minutes\nearly = 2 weeks\nvehicle-stays = yes\n", ""},
        {JOB "takes = 0 minutes\n",
            F "8: error: 'takes': '0 minutes' " NOT_WORK},
        {JOB "takes = 25 hours\n", F "8: error: 'takes': '25 hours' " NOT_WORK},
        {JOB "takes = 1.125 hours\n",
            F "8: error: 'takes': '1.125 hours' " NOT_WORK},
        {JOB "takes = 90\n", F "8: error: 'takes': '90' " NOT_WORK},
        {JOB "takes = 1.5 minutes\n",
            F "8: error: 'takes': '1.5 minutes' " NOT_WORK},
        {JOB "takes = 2 hours sharp\n",
            F "8: error: 'takes': '2 hours sharp' " NOT_WORK},
        {JOB "early = 0 days\n",
            F "8: error: 'early': '0 days' is no time at all; expected 1 or "
              "more\n"},
        {JOB "vehicle-stays = maybe\n",
            F "8: error: 'vehicle-stays': 'maybe' is none of yes or no\n"},
        {PLACE "vehicles-a-day = 1\nhours-a-day = 7.5\n", ""},
        {PLACE "vehicles-a-day = 0\n",
            F "4: error: 'vehicles-a-day': '0' is not a number of vehicles "
              "from 1 to 1000\n"},
        {PLACE "hours-a-day = 0\n",
            F "4: error: 'hours-a-day': '0' " NOT_HOURS},
        {PLACE "hours-a-day = 7,5\n",
            F "4: error: 'hours-a-day': '7,5' " NOT_HOURS},
        {PLACE "hours-a-day = 7.\n",
            F "4: error: 'hours-a-day': '7.' " NOT_HOURS},
        {PLACE "vehicles-aday = 1\n",
            F "4: error: unknown key 'vehicles-aday' in [calendar station]; "
              "did you mean 'vehicles-a-day'?\n"},
    };

    (void)state;
    TRY_CASES(cases);
}

static void
limits(void **state)
{
#define TWO "[vehicle K8]\ndepot = harbour\njobs = check\n"
    static const struct try_case cases[] = {
        {"[limit l]\nof = all\naway = 1\non = workshop\n" TWO, ""},
        {"[limit l]\naway = 1\n",
            F "1: error: [limit l] has no 'of'; add of = all, depot DEPOT, "
              "type TYPE or subject VEHICLE\n"},
        {"[limit l]\nof = all\n" TWO,
            F "1: error: [limit l] has no 'away'; add away = N\n"},
        {"[limit l]\nof = minibuses\naway = 1\n",
            F "2: error: 'of': 'minibuses' " NOT_MEMBERS},
        {"[limit l]\nof = depot harbour, subject K9\naway = 0\n",
            F "2: error: 'of': there is no vehicle, equipment or driver 'K9'; "
              "did you mean 'K7'?\n"},
        {"[limit l]\nof = subject D1\naway = 0\n" JOB,
            F "2: error: 'of': 'D1' is no vehicle; only vehicles are away\n"},
        {"[limit l]\nof = type t\naway = 0\n[type t]\njobs = check\n",
            F "2: error: 'of': there is no such vehicle\n"},
        {"[limit l]\nof = subject K7, subject K8\naway = 2\n" TWO,
            F "3: warning: 'away': all 2 of its vehicles may be away, so this "
              "limits nothing\n"},
        {"[limit l]\nof = all\naway = 0\non = school\n",
            F "4: error: 'on': there is no calendar 'school'; correct it or "
              "add its section\n"},
        {"[limit]\nof = all\n",
            F "1: error: [limit] without a name; expected [limit NAME]\n"},
    };

    (void)state;
    TRY_CASES(cases);
}

static void
work_that_never_fits(void **state)
{
    static const struct try_case cases[] = {
        {PLACE "hours-a-day = 2\n" JOB "takes = 2 hours\ncalendar = station\n",
            ""},
        {PLACE "hours-a-day = 2\n" JOB
               "takes = 121 minutes\ncalendar = station\n",
            F "5: error: [driver D1] has 'j', which takes 121 minutes, and "
              "'station' has 120 minutes a day; correct 'takes' or "
              "'hours-a-day'\n"},
    };

    (void)state;
    TRY_CASES(cases);
}

/* What the values come to in the fleet. */
static void
a_fleet(void **state)
{
    char text[4096];

    (void)state;
    snprintf(text, sizeof text,
        "%s[calendar Station]\ntitle = The station\nworks = tue\n"
        "vehicles-a-day = 2\nhours-a-day = 7.25\n"
        "[type bus]\njobs = check\ndepot = harbour\ncheck.takes = 0.5 hours\n"
        "[vehicle K8]\ntype = bus\ncheck.calendar = station\n"
        "check.vehicle-stays = yes\ncheck.early = 3 days\n"
        "[vehicle K9]\ntype = bus\n"
        "[limit buses]\ntitle = Buses\nof = type bus, subject k8\naway = 1\n"
        "on = station\n",
        try_rest);
    try_write("fleet.conf", text);
    struct config *c = try_good("fleet.conf");
    const struct fleet *f = config_fleet(c);
    const struct workplace *station = fleet_workplace_named(f, "STATION");
    assert_non_null(station);
    assert_string_equal(station->title, "The station");
    assert_int_equal(station->vehicles, 2);
    assert_int_equal(station->minutes, 435);

    const struct task *k8 = &f->tasks[fleet_subject(f, "K8")->first_task];
    assert_ptr_equal(fleet_workplace(k8), station);
    assert_int_equal(k8->rule->takes, 30);
    assert_int_equal(k8->rule->stays, VEHICLE_STAYS);
    assert_int_equal(k8->rule->early.n, 3);
    const struct task *k7 = &f->tasks[fleet_subject(f, "K7")->first_task];
    assert_ptr_equal(fleet_workplace(k7), fleet_workplace_named(f, "workshop"));
    assert_int_equal(k7->rule->takes, 0);
    assert_int_equal(k7->rule->stays, VEHICLE_AWAY);

    assert_int_equal(f->n_limits, 1);
    assert_int_equal(f->limits[0].n_of, 2);
    assert_string_equal(f->limits[0].of[0]->id, "K8");
    assert_string_equal(f->limits[0].of[1]->id, "K9");
    assert_ptr_equal(f->limits[0].on, station);
    assert_int_equal(f->site.planner, 0);
    assert_int_equal(f->site.plan_ahead.n, 12);
    config_free(c);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(values),
        cmocka_unit_test(limits),
        cmocka_unit_test(work_that_never_fits),
        cmocka_unit_test(a_fleet),
    };

    return cmocka_run_group_tests(tests, try_begin, try_end);
}
