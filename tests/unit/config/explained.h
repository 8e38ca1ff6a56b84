#ifndef CONFIG_EXPLAINED_H
#define CONFIG_EXPLAINED_H

#include "try.h"

/*
 * A fleet with a value of each origin, for what is explained of it.  The number
 * beside a section is the line that it begins on.
 */

static const char explained_fleet[] =
    "[site]\n" /* 1 */
    "name = Skerrow Isles\n"
    "  Transport\n"
    "time-zone = Europe/London\n"
    "ledger = state/l.db\n"
    "include = jobs.conf\n"
    "presets = offered.conf\n"
    "[mail]\n" /* 8 */
    "from = ostler@skerrow.example\n"
    "by = FOLDER out\n"
    "[calendar workshop]\n" /* 11 */
    "works = tuesday, mon\n"
    "holidays = skerrow\n"
    "closed = 2026-12-24..2027-01-04 Winter shutdown\n"
    "[calendar ferry]\n" /* 15 */
    "title = The mainland\n"
    "works = none\n"
    "open = 2026-05-12 2026-05-11\n"
    "[depot harbour]\n" /* 19 */
    "calendar = WORKSHOP\n"
    "[depot north]\n" /* 21 */
    "title = North End\n"
    "calendar = yard\n"
    "[calendar yard]\n" /* 24 */
    "works = wed\n"
    "open = 2026-05-12\n"
    "[type bus]\n" /* 27 */
    "depot = harbour\n"
    "distance-unit = km\n"
    "jobs = inspection\n"
    "inspection.every = 5 weeks\n"
    "[vehicle K7]\n" /* 32 */
    "type = bus\n"
    "built = 2019-03-01\n"
    "yearly-distance = 10000 miles\n"
    "jobs = service\n"
    "service.last = 2026-01-05\n"
    "inspection.lead = 1 working day\n"
    "[vehicle K8]\n" /* 39 */
    "depot = north\n"
    "jobs = yearly\n"
    "[vehicle K9]\n" /* 42 */
    "jobs = overhaul\n"
    "[equipment EX-1]\n" /* 44 */
    "carried-by = K7\n"
    "jobs = yearly overhaul\n"
    "[equipment EX-2]\n" /* 47 */
    "depot = harbour\n"
    "carried-by = K7\n"
    "jobs = yearly\n"
    "[driver D1]\n" /* 51 */
    "depot = north\n"
    "jobs = yearly\n"
    "[person manager]\n" /* 54 */
    "mail = m@skerrow.example\n"
    "told = depot harbour, subject k8, job service\n"
    "stages = overdue 2 days onward\n"
    "days = fri mon\n"
    "[feed f]\n" /* 59 */
    "shows = all\n";

static const char explained_jobs[] =
    "[job inspection]\n" /* 1 */
    "title = Safety inspection\n"
    "class = own\n"
    "every = 6 weeks\n"
    "from-age = 12 years: 4 weeks\n"
    "remind = 0 days, 2 weeks, overdue every 1 day\n"
    "age-from = built\n"
    "[job service]\n" /* 8 */
    "title = Service\n"
    "class = maker\n"
    "authority = the maker\n"
    "covers = inspection\n"
    "every = 12 months or 20000 km or 400 hours\n"
    "runs-from = keeping the date\n"
    "window = 1 month\n"
    "[job yearly]\n" /* 16 */
    "title = Yearly\n"
    "class = own\n"
    "every = yearly on 1 november\n"
    "[job overhaul]\n" /* 20 */
    "title = Overhaul\n"
    "class = own\n"
    "every = 5 years\n"
    "first = 5 years from built\n"
    "calendar = ferry\n"
    "at-most = 6 years\n";

static const char explained_offered[] = "[holidays skerrow]\n" /* 1 */
                                        "day =\n"
                                        "  1 jan\n"
                                        "  easter +1\n"
                                        "add = 2026-06-15 Regatta day\n"
                                        "known-until = 2029-12-31\n"
                                        "file = h.ics\n"
                                        "[holidays unkept]\n" /* 8 */
                                        "day = 6 jan\n"
                                        "[job unused]\n" /* 10 */
                                        "title = Unused\n"
                                        "class = own\n"
                                        "every = 1 year\n";

/* Two days: the end is exclusive. */
static const char explained_holidays[] =
    "BEGIN:VCALENDAR\nVERSION:2.0\nPRODID:x\n"
    "BEGIN:VEVENT\nUID:1\nSUMMARY:Island games\n"
    "DTSTART;VALUE=DATE:20260907\nDTEND;VALUE=DATE:20260909\n"
    "END:VEVENT\nEND:VCALENDAR\n";

static struct config *config;
static const struct fleet *fleet;

/* Set-up of each test: the fleet as the file has it. */
static inline int
explained_read(void **state)
{
    (void)state;
    config_free(config);
    config = try_good("fleet.conf");
    fleet = config_fleet(config);
    return 0;
}

static inline int
explained_begin(void **state)
{
    if (try_begin(state))
        return -1;
    try_write("fleet.conf", explained_fleet);
    try_write("jobs.conf", explained_jobs);
    try_write("offered.conf", explained_offered);
    try_write("h.ics", explained_holidays);
    return 0;
}

static inline int
explained_end(void **state)
{
    config_free(config);
    return try_end(state);
}

/* The part of the explanation under one heading; to be given to free(). */
static inline char *
explained_part(const char *heading)
{
    struct buf *out = buf_new();

    assert_non_null(out);
    assert_int_equal(config_explain(config, out), 0);
    const char *at = strstr(buf_str(out), heading);
    if (at == NULL)
        print_message("no %s in\n%s", heading, buf_str(out));
    assert_non_null(at);
    const char *last = strstr(at, "\n\n");
    assert_non_null(last);
    char *text = strndup(at, (size_t)(last - at) + 1);
    buf_free(out);
    assert_non_null(text);
    return text;
}

static inline void
assert_part(const char *heading, const char *expected)
{
    char *text = explained_part(heading);

    assert_string_equal(text, expected);
    free(text);
}

/* One line of a part. */
static inline void
assert_line(const char *heading, const char *line)
{
    char *text = explained_part(heading);

    if (strstr(text, line) == NULL)
        assert_string_equal(text, line);
    free(text);
}

#endif
