/* The fleet as understood.  The lines expected are counted by hand. */
#include "config/explained.h"

static void
site_and_mail(void **state)
{
    (void)state;
    assert_part("[site]",
        "[site]  (fleet.conf:1)\n"
        "  name             Skerrow Isles Transport  (fleet.conf:2)\n"
        "  time-zone        Europe/London  (fleet.conf:4)\n"
        "  ledger           state/l.db  (fleet.conf:5)\n"
        "  include          jobs.conf  (fleet.conf:6)\n"
        "  presets          offered.conf  (fleet.conf:7)\n"
        "  feed-folder      none  (default)\n"
        "  calm             3 days  (default)\n"
        "  page-url         none  (default)\n"
        "  planner          off  (default)\n"
        "  plan-ahead       12 months  (default)\n"
        "  defer-at-most    4 weeks  (default)\n");
    assert_part("[mail]",
        "[mail]  (fleet.conf:8)\n"
        "  from             ostler@skerrow.example  (fleet.conf:9)\n"
        "  reply-to         none  (default)\n"
        "  keeper           none  (default)\n"
        "  by               folder out  (fleet.conf:10)\n"
        "  tls              none  (default)\n"
        "  login            none  (default)\n"
        "  password-file    none  (default)\n"
        "  ca-file          none  (default)\n"
        "  ehlo             none  (default)\n"
        "  timeout          300 seconds  (default)\n");
}

static void
calendars(void **state)
{
    (void)state;
    assert_part("[holidays skerrow]",
        "[holidays skerrow]  (offered.conf:1)\n"
        "  day              2 rules  (offered.conf:2)\n"
        "  add              1 day  (offered.conf:5)\n"
        "  remove           none  (default)\n"
        "  file             h.ics: 2 days  (offered.conf:7)\n"
        "  known-until      2029-12-31  (offered.conf:6)\n");
    /* 24 December to 4 January are 8 and 4 days. */
    assert_part("[calendar workshop]",
        "[calendar workshop]  (fleet.conf:11)\n"
        "  title            workshop  (default)\n"
        "  works            mon tue  (fleet.conf:12)\n"
        "  holidays         skerrow  (fleet.conf:13)\n"
        "  closed           12 days  (fleet.conf:14)\n"
        "  open             none  (default)\n"
        "  vehicles-a-day   no limit  (default)\n"
        "  hours-a-day      no limit  (default)\n"
        "  known-until      2029-12-31  (its holidays)\n");
    assert_part("[calendar ferry]",
        "[calendar ferry]  (fleet.conf:15)\n"
        "  title            The mainland  (fleet.conf:16)\n"
        "  works            none  (fleet.conf:17)\n"
        "  holidays         none  (default)\n"
        "  closed           none  (default)\n"
        "  open             2 days  (fleet.conf:18)\n"
        "  vehicles-a-day   no limit  (default)\n"
        "  hours-a-day      no limit  (default)\n"
        "  known-until      no end  (its holidays)\n");
    assert_part("[depot harbour]",
        "[depot harbour]  (fleet.conf:19)\n"
        "  title            harbour  (default)\n"
        "  calendar         workshop  (fleet.conf:20)\n"
        "  time-zone        Europe/London  (default)\n");
}

static void
jobs(void **state)
{
    (void)state;
    assert_part("[job service]",
        "[job service]  (jobs.conf:8)\n"
        "  title            Service  (jobs.conf:9)\n"
        "  class            maker  (jobs.conf:10)\n"
        "  authority        the maker  (jobs.conf:11)\n"
        "  source           none  (default)\n"
        "  caution          none  (default)\n"
        "  covers           inspection  (jobs.conf:12)\n"
        "  follows          none  (default)\n"
        "  also-counts      none  (default)\n"
        "  inspection       no  (default)\n"
        "  failure          tells  (default)\n"
        "  overdue          warns  (default)\n");
    /* What is only on offer is left out. */
    struct buf *out = buf_new();
    assert_int_equal(config_explain(config, out), 0);
    assert_null(strstr(buf_str(out), "unkept"));
    assert_null(strstr(buf_str(out), "unused"));
    buf_free(out);
}

static void
people_and_feeds(void **state)
{
    (void)state;
    assert_part("[person manager]",
        "[person manager]  (fleet.conf:54)\n"
        "  name             none  (default)\n"
        "  mail             m@skerrow.example  (fleet.conf:55)\n"
        "  told             depot harbour, subject K8, job service  "
        "(fleet.conf:56)\n"
        "  may              nothing but report  (default)\n"
        "  stages           overdue 2 days onward  (fleet.conf:57)\n"
        "  days             mon fri  (fleet.conf:58)\n"
        "  calendar         none  (default)\n"
        "  urgent           never  (default)\n"
        "  outlook          none  (default)\n");
    assert_part("[feed f]", "[feed f]  (fleet.conf:59)\n"
                            "  title            f  (default)\n"
                            "  shows            all  (fleet.conf:60)\n"
                            "  as               events  (default)\n"
                            "  key-file         none  (default)\n"
                            "  horizon          18 months  (default)\n"
                            "  history          none  (default)\n"
                            "  alarm            none  (default)\n"
                            "  most-events      1000  (default)\n"
                            "  most-kilobytes   900  (default)\n");
}

/* The value of each key, from the subject, its type, the job or nowhere. */
static void
a_vehicle(void **state)
{
    (void)state;
    /* 10000 miles of 1.609344 km are 16093.44 km. */
    assert_part("[vehicle K7]",
        "[vehicle K7]  (fleet.conf:32)\n"
        "  title            none  (default)\n"
        "  type             bus  (fleet.conf:33)\n"
        "  registered       none  (default)\n"
        "  built            2019-03-01  (fleet.conf:34)\n"
        "  in-service       none  (default)\n"
        "  depot            harbour  (fleet.conf:28, type bus)\n"
        "  distance-unit    km  (fleet.conf:29, type bus)\n"
        "  unit-since       none  (default)\n"
        "  yearly-distance  16094 km  (fleet.conf:35)\n"
        "  yearly-hours     none  (default)\n"
        "  check            none  (default)\n"
        "  first-use        nothing  (default)\n"
        "  [job inspection]  (fleet.conf:30, type bus)\n"
        "    every            5 weeks  (fleet.conf:31, type bus)\n"
        "    ends             same day  (default)\n"
        "    month-end        clamp  (default)\n"
        "    runs-from        completion  (default)\n"
        "    first            none  (default)\n"
        "    from-age         12 years: 4 weeks  (jobs.conf:5, job "
        "inspection)\n"
        "    age-from         built  (jobs.conf:7, job inspection)\n"
        "    off-road         runs on  (default)\n"
        "    calendar         the depot's  (default)\n"
        "    roll             preceding  (default)\n"
        "    lead             1 working day  (fleet.conf:38)\n"
        "    remind           2 weeks, 0 days, overdue every 1 day  "
        "(jobs.conf:6, job inspection)\n"
        "    takes            not said  (default)\n"
        "    early            as its interval allows  (default)\n"
        "    vehicle-stays    no  (default)\n"
        "    last             none  (default)\n"
        "    deadline         none  (default)\n"
        "  [job service]  (fleet.conf:36)\n"
        "    every            12 months or 20000 km or 400 hours  "
        "(jobs.conf:13, job service)\n"
        "    ends             same day  (default)\n"
        "    month-end        clamp  (default)\n"
        "    runs-from        keeping the date  (jobs.conf:14, job service)\n"
        "    window           1 month  (jobs.conf:15, job service)\n"
        "    window-opens     safer  (default)\n"
        "    late             restarts  (default)\n"
        "    first            none  (default)\n"
        "    from-age         none  (default)\n"
        "    off-road         runs on  (default)\n"
        "    calendar         the depot's  (default)\n"
        "    roll             preceding  (default)\n"
        "    forecast         early  (default)\n"
        "    reading-within   none  (default)\n"
        "    lead             none  (default)\n"
        "    remind           none  (default)\n"
        "    takes            not said  (default)\n"
        "    early            as its interval allows  (default)\n"
        "    vehicle-stays    no  (default)\n"
        "    last             2026-01-05  (fleet.conf:37)\n"
        "    last-reading     none  (default)\n"
        "    deadline         none  (default)\n");
}

static void
equipment(void **state)
{
    (void)state;
    assert_part("[equipment EX-1]",
        "[equipment EX-1]  (fleet.conf:44)\n"
        "  title            none  (default)\n"
        "  type             none  (default)\n"
        "  registered       none  (default)\n"
        "  built            none  (default)\n"
        "  in-service       none  (default)\n"
        "  depot            harbour  (vehicle K7)\n"
        "  carried-by       K7  (fleet.conf:45)\n"
        "  distance-unit    km  (default)\n"
        "  unit-since       none  (default)\n"
        "  yearly-distance  none  (default)\n"
        "  yearly-hours     none  (default)\n"
        "  check            none  (default)\n"
        "  [job yearly]  (fleet.conf:46)\n"
        "    every            yearly on 1 nov  (jobs.conf:19, job yearly)\n"
        "    window           none  (default)\n"
        "    first            none  (default)\n"
        "    calendar         the depot's  (default)\n"
        "    roll             preceding  (default)\n"
        "    lead             none  (default)\n"
        "    remind           none  (default)\n"
        "    takes            not said  (default)\n"
        "    early            as its interval allows  (default)\n"
        "    vehicle-stays    no  (default)\n"
        "    last             none  (default)\n"
        "    deadline         none  (default)\n"
        "  [job overhaul]  (fleet.conf:46)\n"
        "    every            5 years  (jobs.conf:23, job overhaul)\n"
        "    at-most          6 years  (jobs.conf:26, job overhaul)\n"
        "    ends             same day  (default)\n"
        "    first-ends       same day  (default)\n"
        "    month-end        clamp  (default)\n"
        "    runs-from        completion  (default)\n"
        "    first            5 years from built  (jobs.conf:24, job "
        "overhaul)\n"
        "    from-age         none  (default)\n"
        "    off-road         runs on  (default)\n"
        "    calendar         The mainland  (jobs.conf:25, job overhaul)\n"
        "    roll             preceding  (default)\n"
        "    lead             none  (default)\n"
        "    remind           none  (default)\n"
        "    takes            not said  (default)\n"
        "    early            as its interval allows  (default)\n"
        "    vehicle-stays    no  (default)\n"
        "    last             none  (default)\n"
        "    deadline         none  (default)\n");
}

#define WITH_FLEET(test) cmocka_unit_test_setup(test, explained_read)

int
main(void)
{
    const struct CMUnitTest tests[] = {
        WITH_FLEET(site_and_mail),
        WITH_FLEET(calendars),
        WITH_FLEET(jobs),
        WITH_FLEET(people_and_feeds),
        WITH_FLEET(a_vehicle),
        WITH_FLEET(equipment),
    };

    return cmocka_run_group_tests(tests, explained_begin, explained_end);
}
