#ifndef CONFIG_GOOD_H
#define CONFIG_GOOD_H

#include "try.h"

/*
 * A good fleet in five files, in which every key is used, read once for all
 * the tests of it.
 */

static const char fleet_text[] = "# The fleet of the Skerrow Isles\r\n"
                                 "[site]\n"
                                 "name = Skerrow Isles\n"
                                 "  Transport\n"
                                 "time-zone = Europe/London\n"
                                 "ledger = state/ledger.db\n"
                                 "include = rules.d/*.conf people.conf\n"
                                 "presets = offered/*.conf\n"
                                 "feed-folder = /srv/feeds\n"
                                 "[mail]\n"
                                 "from = ostler@skerrow.example\n"
                                 "reply-to = office@skerrow.example\n"
                                 "keeper = keeper@skerrow.example\n"
                                 "by = folder outbox\n"
                                 "[Holidays skerrow]\n"
                                 "day =\n"
                                 "  1 jan, substitute\n"
                                 "; a comment between the lines of a value\n"
                                 "  easter -2, Good Friday\n"
                                 "  easter +1\n"
                                 "\n"
                                 "  first monday of may\n"
                                 "  last MON of August, Late summer, and tea\n"
                                 "  25 december, substitute, Christmas Day\n"
                                 "add = 2026-06-15 Regatta day\n"
                                 "remove = 2027-05-03, 2028-05-01\n"
                                 "known-until = 2029-12-31\n"
                                 "[holidays published]\n"
                                 "file = authority.ics\n"
                                 "[calendar workshop]\n"
                                 "title = The workshop\n"
                                 "works = mon tue, wed\n"
                                 "  thursday fri\n"
                                 "holidays = skerrow published\n"
                                 "closed =\n"
                                 "  2026-12-24..2027-01-04 Winter shutdown\n"
                                 "  2026-03-17 Stocktaking\n"
                                 "open = 2026-03-21 2026-12-29\n"
                                 "[calendar station]\n"
                                 "works = tue thu\n"
                                 "holidays = None\n"
                                 "[calendar visits]\n"
                                 "works = none\n"
                                 "open = 2026-05-07\n"
                                 "[depot harbour]\n"
                                 "title = Harbour depot\n"
                                 "calendar = WORKSHOP\n"
                                 "[depot north]\n"
                                 "calendar = visits\n"
                                 "time-zone = Europe/Lisbon\n"
                                 "[type minibus]\n"
                                 "depot = harbour\n"
                                 "distance-unit = km\n"
                                 "yearly-distance = 10000 miles\n"
                                 "yearly-hours = 900\n"
                                 "jobs = annual-test inspection\n"
                                 "inspection.every = 8 weeks\n"
                                 "inspection.ends = week end\n"
                                 "inspection.calendar = station\n"
                                 "[vehicle K7]\n"
                                 "type = minibus\n"
                                 "title = The blue one\n"
                                 "registered = 2019-05-16\n"
                                 "built = 2019-03-01\n"
                                 "in-service = 2019-06-01\n"
                                 "jobs = service, wheel-off wheel-check\n"
                                 "annual-test.last = 2026-03-14\n"
                                 "annual-test.deadline = 2027-03-13\n"
                                 "service.last = 2026-05-04\n"
                                 "service.last-reading = 75000 miles, "
                                 "4100 hours\n"
                                 "inspection.every = 6 weeks\n"
                                 "wheel-check.calendar = Station\n"
                                 "[vehicle K8]\n"
                                 "type = minibus\n"
                                 "built = 2019-12-02\n"
                                 "depot = north\n"
                                 "distance-unit = miles\n"
                                 "annual-test.calendar = workshop\n"
                                 "[equipment EX-31]\n"
                                 "carried-by = K7\n"
                                 "jobs = extinguisher\n"
                                 "[driver D1]\n"
                                 "depot = harbour\n"
                                 "jobs = card\n"
                                 "card.first = on 2026-09-30\n";

static const char jobs_text[] =
    "\xef\xbb\xbf[job annual-test]\n"
    "title = Annual test\n"
    "class = law\n"
    "authority = the national vehicle testing authority\n"
    "source = Testing Order 4\n"
    "caution = Lifts are for people qualified for them\n"
    "every = 12 months\n"
    "ends = day before\n"
    "first-ends = month end\n"
    "month-end = sticky\n"
    "runs-from = keeping the date\n"
    "window = 1 month\n"
    "window-opens = day after\n"
    "late = keeps the date\n"
    "shortest = 10 months\n"
    "first = 12 months from registered\n"
    "from-age = 12 years: 3 months, 6 years: 6 months\n"
    "age-from = built\n"
    "off-road = waits\n"
    "roll = preceding\n"
    "calendar = station\n"
    "lead = 10 working days\n"
    "remind = 1 week, 8 weeks, 0 days\n"
    "  overdue every 2 days\n"
    "[job inspection]\n"
    "title = Safety inspection\n"
    "class = recommendation\n"
    "every = 10 weeks\n"
    "[job service]\n"
    "title = Service\n"
    "class = maker\n"
    "every =\n"
    "  12 months or 20000 km\n"
    "  or 400 hours\n"
    "at-most = 2 years or 30000 km\n"
    "covers = inspection\n"
    "forecast = likely\n"
    "reading-within = 6 weeks\n"
    "roll = nearest\n"
    "lead = 2 weeks\n"
    "[job wheel-off]\n"
    "title = Wheel taken off\n"
    "class = own\n"
    "every = when needed\n"
    "[job wheel-check]\n"
    "title = Wheel nuts\n"
    "class = own\n"
    "follows = wheel-off\n"
    "within = 2 days or 80 km\n"
    "[job extinguisher]\n"
    "title = Extinguisher\n"
    "class = own\n"
    "every = yearly on 1 nov\n"
    "window = 6 weeks\n"
    "window-opens = same day\n"
    "calendar = workshop\n";

/* Nobody has the second job, and nobody keeps these holidays. */
static const char offered_text[] = "[job card]\n"
                                   "title = Driver card\n"
                                   "class = own\n"
                                   "every = 4 within 12 months\n"
                                   "runs-from = deadline\n"
                                   "also-counts = 2 inspection\n"
                                   "calendar = station\n"
                                   "[job repaint]\n"
                                   "title = Repaint\n"
                                   "class = own\n"
                                   "every = 10 years\n"
                                   "[holidays spare]\n"
                                   "day = 6 jan\n"
                                   "[calendar spare]\n"
                                   "works = sat\n"
                                   "holidays = spare\n";

static const char people_text[] = "[person manager]\n"
                                  "name = The manager\n"
                                  "mail = manager@skerrow.example\n"
                                  "told = all\n"
                                  "[person fitter]\n"
                                  "mail = fitter@skerrow.example\n"
                                  "told = depot harbour, subject k8\n"
                                  "  job annual-test\n"
                                  "stages = 4 weeks onward\n"
                                  "days = mon thu\n"
                                  "calendar = workshop\n"
                                  "urgent = Law overdue\n"
                                  "outlook = mon\n"
                                  "[person owner]\n"
                                  "mail = owner@skerrow.example\n"
                                  "told = all\n"
                                  "stages = overdue 1 week onward\n"
                                  "[person board]\n"
                                  "mail = board@skerrow.example\n"
                                  "told = all\n"
                                  "stages = Overdue onward\n"
                                  "[feed harbour]\n"
                                  "title = Harbour\n"
                                  "shows = depot harbour\n"
                                  "horizon = 6 months\n"
                                  "[feed all]\n"
                                  "shows = all";

static const char published_text[] = "BEGIN:VCALENDAR\r\n"
                                     "VERSION:2.0\r\n"
                                     "PRODID:-//x//y\r\n"
                                     "BEGIN:VEVENT\r\n"
                                     "UID:1\r\n"
                                     "DTSTART;VALUE=DATE:20260907\r\n"
                                     "DTEND;VALUE=DATE:20260909\r\n"
                                     "SUMMARY:Island games\r\n"
                                     "END:VEVENT\r\n"
                                     "BEGIN:VEVENT\r\n"
                                     "UID:2\r\n"
                                     "DTSTART;VALUE=DATE:20270301\r\n"
                                     "SUMMARY:Founding day\r\n"
                                     "END:VEVENT\r\n"
                                     "END:VCALENDAR\r\n";

static struct config *config;
static const struct fleet *fleet;

static int
read_fleet(void **state)
{
    if (try_begin(state))
        return -1;
    mkdir("site", 0755);
    mkdir("site/rules.d", 0755);
    mkdir("site/offered", 0755);
    try_write("site/fleet.conf", fleet_text);
    try_write("site/rules.d/jobs.conf", jobs_text);
    try_write("site/offered/jobs.conf", offered_text);
    try_write("site/people.conf", people_text);
    try_write("site/authority.ics", published_text);
    struct problems *ps = problems_new();
    config = config_read("site/fleet.conf", &try_options, ps);
    if (config == NULL) {
        struct buf *b = buf_new();
        problems_print(ps, 1, b);
        print_message("%s", buf_str(b));
        buf_free(b);
    }
    int bad = config == NULL || problems_count(ps, PROBLEM_WARNING) > 0;
    problems_free(ps);
    if (!bad)
        fleet = config_fleet(config);
    return bad;
}

static int
free_fleet(void **state)
{
    config_free(config);
    return try_end(state);
}

static day_t
day(const char *text)
{
    return day_parse(text, strlen(text));
}

static const struct task *
task(const char *subject, const char *job)
{
    const struct subject *s = fleet_subject(fleet, subject);
    const struct job *j = fleet_job(fleet, job);

    assert_non_null(s);
    assert_non_null(j);
    const struct task *t = fleet_task(fleet, s, j);
    assert_non_null(t);
    return t;
}

#endif
