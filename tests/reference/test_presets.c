/*
 * The jobs of the presets against the sources that they name, and
 * the holiday presets against the published bank holidays of 2015 to 2028:
 * GOV.UK /bank-holidays, see README.md beside the data file.  Compared as sets
 * of weekdays, because the names of substitute days vary and a holiday that
 * falls on a weekend closes that day as well.
 */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "buf.h"
#include "config.h"
#include "problem.h"
#include "sheet.h"
#include "test.h"
#include "work_calendar.h"

#define PUBLISHED "tests/reference/uk-bank-holidays-2015-2028.csv"

/* A fleet of one vehicle whose depot keeps the holidays of the preset. */
static struct config *
read_preset(const char *file, const char *set)
{
    struct config_options options = {NULL, 0};
    struct problems *ps = problems_new();
    char path[] = "/tmp/ostler-preset-XXXXXX";
    char *folder = realpath("etc/presets", NULL);
    int fd = mkstemp(path);

    assert_true(fd >= 0);
    assert_non_null(folder);
    dprintf(fd,
        "[site]\nname = N\ntime-zone = Europe/London\nledger = l.db\n"
        "presets = %s/%s\n"
        "[calendar c]\nworks = mon tue wed thu fri\nholidays = %s\n"
        "[depot d]\ncalendar = c\n"
        "[job j]\ntitle = J\nclass = own\nevery = 1 week\n"
        "[vehicle v]\ndepot = d\njobs = j\n",
        folder, file, set);
    close(fd);
    struct config *c = config_read(path, &options, ps);
    assert_non_null(c);
    unlink(path);
    free(folder);
    problems_free(ps);
    return c;
}

/* Mark in @closed the published holidays of @nation; how many there are. */
static int
published(const char *nation, unsigned char *closed, day_t first)
{
    FILE *f = fopen(PUBLISHED, "r");
    char line[200];
    int n = 0;

    assert_non_null(f);
    while (fgets(line, sizeof line, f) != NULL) {
        size_t len = strcspn(line, ",");
        if (strlen(nation) != len || strncmp(line, nation, len) != 0)
            continue;
        day_t d = day_parse(line + len + 1, 10);
        assert_true(day_valid(d));
        closed[d - first] = 1;
        n++;
    }
    fclose(f);
    return n;
}

static void
compare(const char *file, const char *set, const char *nation, int expected)
{
    static unsigned char closed[366 * 14];
    day_t first = day_of(2015, 1, 1);
    day_t last = day_of(2028, 12, 31);

    memset(closed, 0, sizeof closed);
    assert_int_equal(published(nation, closed, first), expected);
    struct config *c = read_preset(file, set);
    const struct work_calendar *calendar = config_fleet(c)->depots[0].calendar;
    for (day_t d = first; d <= last; d++) {
        if (day_weekday(d) >= 5)
            continue;
        if (work_calendar_is_open(calendar, d) == !closed[d - first])
            continue;
        char text[DAY_TEXT];
        fail_msg("%s: %s should be %s", set, day_text(d, text),
            closed[d - first] ? "closed" : "open");
    }
    assert_int_equal(work_calendar_known_until(calendar), last);
    config_free(c);
}

/*
 * By the rules, 8, 9 and 10 a year; beside them two in 2022 (3 June, 19
 * September), one in 2023 (8 May) and Scotland's 15 June 2026.
 */
static void
england_and_wales(void **state)
{
    (void)state;
    compare("holidays-england-wales.conf", "england-wales", "england-and-wales",
        14 * 8 + 3);
}

static void
scotland(void **state)
{
    (void)state;
    compare("holidays-scotland.conf", "scotland", "scotland", 14 * 9 + 4);
}

static void
northern_ireland(void **state)
{
    (void)state;
    compare("holidays-northern-ireland.conf", "northern-ireland",
        "northern-ireland", 14 * 10 + 3);
}

/* What a job of the presets must be, from outside. */
struct expected {
    const char *id;
    enum job_class class;
    const char *every;
    enum ends ends;
    enum runs_from runs_from;
    const char *at_most; /* NULL for nothing stated */
};

#define LAW(id, ...)                                                           \
    {                                                                          \
        id, CLASS_LAW, __VA_ARGS__                                             \
    }
#define ASKED(id, ...)                                                         \
    {                                                                          \
        id, CLASS_RECOMMENDATION, __VA_ARGS__                                  \
    }
#define OWN(id, ...)                                                           \
    {                                                                          \
        id, CLASS_OWN, __VA_ARGS__                                             \
    }
#define SAME ENDS_SAME_DAY, FROM_COMPLETION, NULL
#define BEFORE ENDS_DAY_BEFORE, FROM_COMPLETION, NULL
#define KEPT ENDS_DAY_BEFORE, KEEPS_DATE, NULL

static const struct expected great_britain[] = {
    /* Road Traffic Act 1988 s.47; a month, less a day, keeps the date. */
    LAW("annual-test", "12 months", KEPT),
    LAW("light-vehicle-test", "12 months", KEPT),
    /* Yearly is reported; what keeps its date was not read, so nothing. */
    LAW("psv-annual-test", "12 months", BEFORE),
    /* SI 1988/1478 reg 11. */
    LAW("goods-annual-test", "12 months", ENDS_MONTH_END, KEEPS_DATE, NULL),
    /* Within the ISO week; a permit, at most ten weeks (guidance 10.2, as
     * reported). */
    ASKED("safety-inspection", "6 weeks", ENDS_WEEK_END, FROM_COMPLETION,
        "10 weeks"),
    LAW("licensed-safety-inspection", "6 weeks", ENDS_WEEK_END, FROM_COMPLETION,
        NULL),
    /* Four a year, spread evenly; the months apart are own policy. */
    ASKED("laden-brake-test", "4 within 12 months, apart 4 months", SAME),
    ASKED("goods-laden-brake-test", "4 within 12 months, apart 4 months", SAME),
    OWN("wheel-removal", "when needed", SAME),
    /* BS AU 50: 30 minutes, or 40 to 80 km; a day stands in no source. */
    OWN("wheel-retorque", "1 day or 80 km", SAME),
    /* Ten years and older, from 1 February 2021. */
    LAW("tyre-age-nsf", "10 years", BEFORE),
    LAW("tyre-age-osf", "10 years", BEFORE),
    LAW("tyre-age-nsr", "10 years", BEFORE),
    LAW("tyre-age-osr", "10 years", BEFORE),
    OWN("tyre-age", "12 months", SAME),
    /* (EU) 2016/799 Annex IC 409: within 24 months. */
    LAW("tachograph-inspection", "24 months", SAME),
    LAW("tachograph-recalibration", "6 years", SAME),
    /* (EU) 581/2010. */
    LAW("vehicle-unit-download", "90 days", SAME),
    LAW("driver-card-download", "28 days", SAME),
    /* LOLER 1998 reg 9(3)(a)(i). */
    LAW("lift-thorough-examination", "6 months", SAME),
    ASKED("lift-load-test", "12 months", SAME),
    /* BS 5306-3: yearly, five years, ten for CO2. */
    ASKED("extinguisher-service", "12 months", SAME),
    ASKED("extinguisher-overhaul", "5 years", SAME),
    ASKED("extinguisher-overhaul-co2", "10 years", SAME),
    OWN("first-aid-kit-check", "3 months", SAME),
    {"engine-oil", CLASS_MAKER, "12 months or 10000 miles", SAME},
    /* 35 hours before each five-year deadline. */
    LAW("driver-cpc", "5 years", ENDS_SAME_DAY, FROM_DEADLINE, NULL),
    OWN("licence-check", "3 months", SAME),
    /* Renewed before the day that it shows. */
    LAW("section-19-permit", "5 years", BEFORE),
};

static const struct expected european_union[] = {
    /* Directive 2014/45/EU: 1 year, then yearly; 4, then 2. */
    LAW("annual-test", "12 months", BEFORE),
    LAW("light-vehicle-test", "2 years", BEFORE),
    /* Code de la route R323-23, R323-24. */
    LAW("france-passenger-test", "6 months", BEFORE),
    LAW("france-small-passenger-test", "12 months", BEFORE),
    /* StVZO Annex VIII 2.1.3, 2.2 to 2.4. */
    LAW("germany-hu", "12 months", ENDS_MONTH_END, FROM_COMPLETION, NULL),
    LAW("germany-sp-3", "3 months", ENDS_MONTH_END, FROM_COMPLETION, NULL),
    LAW("germany-sp-6", "6 months", ENDS_MONTH_END, FROM_COMPLETION, NULL),
    LAW("germany-sp-9", "9 months", ENDS_MONTH_END, FROM_COMPLETION, NULL),
    OWN("safety-inspection", "6 weeks", ENDS_WEEK_END, FROM_COMPLETION, NULL),
    OWN("wheel-removal", "when needed", SAME),
    OWN("wheel-retorque", "1 day or 80 km", SAME),
    LAW("tachograph-inspection", "24 months", SAME),
    LAW("vehicle-unit-download", "90 days", SAME),
    LAW("driver-card-download", "28 days", SAME),
    /* No national rule was seen. */
    OWN("lift-thorough-examination", "6 months", SAME),
    OWN("extinguisher-service", "12 months", SAME),
    OWN("extinguisher-overhaul", "5 years", SAME),
    OWN("first-aid-kit-check", "3 months", SAME),
    {"engine-oil", CLASS_MAKER, "12 months or 15000 km", SAME},
    LAW("driver-cpc", "5 years", ENDS_SAME_DAY, FROM_DEADLINE, NULL),
    OWN("licence-check", "3 months", SAME),
};

/* The fleet of one vehicle that has every job of the preset, without a word
 * from 'check'. */
static struct config *
read_jobs(const char *file, const struct expected *rows, size_t n)
{
    struct config_options options = {NULL, 0};
    struct problems *ps = problems_new();
    struct buf *said = buf_new();
    char path[] = "/tmp/ostler-preset-XXXXXX";
    char *folder = realpath("etc/presets", NULL);
    int fd = mkstemp(path);

    assert_true(fd >= 0);
    assert_non_null(folder);
    dprintf(fd,
        "[site]\nname = N\ntime-zone = Europe/London\nledger = l.db\n"
        "presets = %s/%s\n"
        "[calendar c]\nworks = mon\nholidays = none\n"
        "[depot d]\ncalendar = c\n"
        "[vehicle v]\ndepot = d\nregistered = 2020-01-02\n"
        "distance-unit = km\njobs =\n",
        folder, file);
    for (size_t i = 0; i < n; i++)
        dprintf(fd, "  %s\n", rows[i].id);
    close(fd);
    struct config *c = config_read(path, &options, ps);
    problems_print(ps, 1, said);
    assert_string_equal(buf_str(said), "");
    assert_non_null(c);
    unlink(path);
    free(folder);
    buf_free(said);
    problems_free(ps);
    return c;
}

/* "A or B", as it is written. */
static void
assert_intervals(const struct interval *list, int n, const char *text)
{
    char all[200] = "";

    for (int i = 0; i < n; i++) {
        strcat(all, i > 0 ? " or " : "");
        strcat(all, list[i].text);
    }
    assert_string_equal(all, text);
}

static int
begins(const char *text, const char *with)
{
    return text != NULL && strncmp(text, with, strlen(with)) == 0;
}

/* What is asked for names who asks and where; what nobody asks for says so. */
static void
assert_sources(const struct job *j)
{
    int ours =
        begins(j->source, "Own policy") || begins(j->source, "Common practice");

    if (j->class == CLASS_OWN)
        assert_true(j->source == NULL || ours);
    else
        assert_true(j->authority != NULL && j->source != NULL && !ours);
}

static void
assert_jobs(const char *file, const struct expected *rows, size_t n)
{
    struct config *c = read_jobs(file, rows, n);
    const struct fleet *f = config_fleet(c);

    assert_int_equal(f->n_jobs, n);
    for (size_t i = 0; i < n; i++) {
        const struct job *j = fleet_job(f, rows[i].id);
        print_message("# %s: %s\n", file, rows[i].id);
        assert_non_null(j);
        assert_int_equal(j->class, rows[i].class);
        assert_intervals(j->rule.every, j->rule.n_every, rows[i].every);
        assert_int_equal(j->rule.ends, rows[i].ends);
        assert_int_equal(j->rule.runs_from, rows[i].runs_from);
        assert_intervals(j->rule.at_most, j->rule.n_at_most,
            rows[i].at_most ? rows[i].at_most : "");
        assert_sources(j);
    }
    config_free(c);
}

static void
jobs_of_great_britain(void **state)
{
    (void)state;
    assert_jobs("great-britain-jobs.conf", great_britain,
        sizeof great_britain / sizeof great_britain[0]);
}

static void
jobs_of_the_european_union(void **state)
{
    (void)state;
    assert_jobs("eu-jobs.conf", european_union,
        sizeof european_union / sizeof european_union[0]);
}

/* The jobs at which the whole vehicle is looked at, and no other. */
static void
assert_inspections(const char *file, const struct expected *rows, size_t n,
    const char *const *ids)
{
    struct config *c = read_jobs(file, rows, n);
    const struct fleet *f = config_fleet(c);
    size_t found = 0;

    for (size_t i = 0; i < f->n_jobs; i++)
        found += f->jobs[i].inspection != 0;
    for (; *ids != NULL; ids++, found--) {
        print_message("# %s: %s\n", file, *ids);
        assert_non_null(fleet_job(f, *ids));
        assert_true(fleet_job(f, *ids)->inspection);
    }
    assert_int_equal(found, 0);
    /* A late download is no defect. */
    assert_int_equal(
        fleet_job(f, "vehicle-unit-download")->overdue, OVERDUE_WARNS);
    assert_int_equal(fleet_job(f, "annual-test")->overdue, OVERDUE_STOPS);
    config_free(c);
}

static void
inspections(void **state)
{
    static const char *const gb[] = {"annual-test", "psv-annual-test",
        "light-vehicle-test", "goods-annual-test", "safety-inspection",
        "licensed-safety-inspection", NULL};
    static const char *const eu[] = {"annual-test", "light-vehicle-test",
        "france-passenger-test", "france-small-passenger-test", "germany-hu",
        "germany-sp-3", "germany-sp-6", "germany-sp-9", "safety-inspection",
        NULL};

    (void)state;
    assert_inspections("great-britain-jobs.conf", great_britain,
        sizeof great_britain / sizeof great_britain[0], gb);
    assert_inspections("eu-jobs.conf", european_union,
        sizeof european_union / sizeof european_union[0], eu);
}

/* Nonzero when an item of @sheet, or what right looks like, has @word. */
static int
looks_at(const struct check_sheet *sheet, const char *word)
{
    for (size_t i = 0; i < sheet->n_items; i++)
        if (strcasestr(sheet->items[i].text, word) != NULL ||
            strcasestr(sheet->items[i].right, word) != NULL)
            return 1;
    return 0;
}

/* What holds for every sheet: it says who asks for it and where, and each item
 * what right looks like.  No figure: what is deep enough in one country is not
 * in another. */
static void
assert_sheet(const struct check_sheet *sheet)
{
    assert_int_equal(sheet->class, CLASS_RECOMMENDATION);
    assert_non_null(sheet->authority);
    assert_non_null(sheet->source);
    assert_true(sheet->nil_recorded);
    assert_true(sheet->n_groups > 1);
    for (size_t i = 0; i < sheet->n_items; i++) {
        const struct check_item *item = &sheet->items[i];
        print_message("# %s: %s\n", sheet->id, item->code);
        assert_non_null(item->right);
        assert_null(strpbrk(item->text, "0123456789"));
        assert_null(strpbrk(item->right, "0123456789"));
        assert_null(item->carried);
    }
    /* DVSA, MOT inspection manual 5.2.1: several loose nuts are dangerous. */
    for (size_t i = 0; i < sheet->n_items; i++)
        if (strstr(sheet->items[i].text, "nuts") != NULL)
            assert_int_equal(sheet->items[i].grade, GRADE_STOPS);
}

/*
 * The heads of the published lists are looked at.  For buses "Checks before you
 * start a bus journey" (DVSA, safedrivingforlife.info); for vans the same
 * authority's minimum checks (Crown copyright 2025), for trailers GOV.UK "Tow a
 * trailer with a car: safety checks", both as reported.
 */
static void
walk_round_checks(void **state)
{
    static const char *const bus[] = {"brake", "lamps", "indicators", "panels",
        "tyres", "nuts", "wipers", "washers", "horn", "fuel cap", "mirrors",
        "speedometer", "tachograph", "number plate", "reflectors", "exhaust",
        "coupling", "speed limiter", "seat belts", "extinguisher", NULL};
    static const char *const lift[] = {"lift", "ramp", "restraints", NULL};
    static const char *const van[] = {"nuts", "panels", "doors", "lamps",
        "brake", "leaks of fuel, oil", "pressure", "tread", "cuts",
        "windscreen", "windows", "mirrors", "washers", "wipers", "horn",
        "steering", "coupling", "load and tools", NULL};
    static const char *const trailer[] = {"coupling", "height",
        "cable and plug", "breakaway", "cuts", "bulge", "pressure", "tread",
        "nuts", "mudguards", "lamps", "indicators", "load", "even", "brakes",
        NULL};
    static const struct {
        const char *id;
        const char *const *heads;
    } sheets[] = {{"minibus-check", bus}, {"minibus-lift-check", bus},
        {"minibus-lift-check", lift}, {"van-check", van},
        {"trailer-check", trailer}};
    struct config *c = read_preset("walk-round-checks.conf", "none");
    const struct fleet *f = config_fleet(c);

    (void)state;
    assert_int_equal(f->n_sheets, 4);
    for (size_t i = 0; i < sizeof sheets / sizeof sheets[0]; i++) {
        const struct check_sheet *sheet = sheet_named(f, sheets[i].id);
        assert_non_null(sheet);
        assert_sheet(sheet);
        for (const char *const *head = sheets[i].heads; *head; head++) {
            print_message("# %s: %s\n", sheet->id, *head);
            assert_true(looks_at(sheet, *head));
        }
    }
    assert_false(looks_at(sheet_named(f, "minibus-check"), "ramp"));
    /* Nobody has one, so nothing is shown of them. */
    struct buf *out = buf_new();
    assert_int_equal(config_explain(c, out), 0);
    assert_null(strstr(buf_str(out), "[check"));
    buf_free(out);
    config_free(c);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(england_and_wales),
        cmocka_unit_test(scotland),
        cmocka_unit_test(northern_ireland),
        cmocka_unit_test(jobs_of_great_britain),
        cmocka_unit_test(jobs_of_the_european_union),
        cmocka_unit_test(inspections),
        cmocka_unit_test(walk_round_checks),
    };

    return cmocka_run_group_tests_name("presets", tests, NULL, NULL);
}
