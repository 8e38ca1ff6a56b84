/*
 * Due dates against worked values from Acts, regulations, official guidance
 * and those who quote it; each row names its source.  "Worked" marks a value
 * worked out by hand from the rule that is named, "from memory" a rule whose
 * text was not at hand, and "common practice" one without a source.
 */
#include "fixture.h"
#include "isoweek.h"
#include "test.h"
#include "window.h"

/* How the certificates and checks below are set up in a fleet file. */
enum regime {
    PLAIN,  /* same day, from completion */
    STICKY, /* the same, month ends stay month ends */
    RHYTHM, /* from the deadline */
    MOT,    /* to the day before, keeps the date, one month */
    GOODS   /* month end, keeps the date, two months or less, late too */
};

struct value {
    const char *source;
    enum regime regime;
    const char *every;
    const char *registered; /* "-" for not known */
    const char *stated;     /* the deadline of the last certificate, or "-" */
    const char *done;       /* up to two days, one after the other */
    const char *want;
};

static const struct value values[] = {
    /* GOV.UK, "Getting an MOT", as quoted by a garage: runs out on 15 May,
     * the earliest day to keep the renewal date is 16 April. */
    {"MOT, earliest day", MOT, "12 months", "-", "2026-05-15", "2026-04-16",
        "2027-05-15"},
    {"MOT, on the last day", MOT, "12 months", "-", "2026-05-15", "2026-05-15",
        "2027-05-15"},
    /* The same: earlier, and the date will be different; the test's day and a
     * year less a day from memory, 10 April to 9 April as quoted. */
    {"MOT, a day too early", MOT, "12 months", "-", "2026-05-15", "2026-04-15",
        "2027-04-14"},
    {"MOT, 10 April", MOT, "12 months", "-", "2026-05-15", "2026-04-10",
        "2027-04-09"},
    /* The notice of 2007, as quoted: expires 1 April 2007, tested on or after
     * 2 March, new certificate to 1 April 2008; earlier, twelve months. */
    {"MOT 2007", MOT, "12 months", "-", "2007-04-01", "2007-03-02",
        "2008-04-01"},
    {"MOT 2007, too early", MOT, "12 months", "-", "2007-04-01", "2007-03-01",
        "2008-02-29"},
    {"MOT 2008", MOT, "12 months", "-", "2008-03-01", "2008-02-02",
        "2009-03-01"},
    /* A year less a day, worked. */
    {"MOT worked, 15 May", MOT, "12 months", "-", "-", "2026-05-15",
        "2027-05-14"},
    {"MOT worked, 1 March", MOT, "12 months", "-", "-", "2026-03-01",
        "2027-02-28"},
    {"MOT worked, 29 February", MOT, "12 months", "-", "-", "2024-02-29",
        "2025-02-28"},
    /* GOV.UK, "Getting an MOT", summer 2020: the third anniversary of
     * registration; the examples as quoted. */
    {"first MOT, 1 March", MOT, "12 months", "2005-03-01", "-", "",
        "2008-03-01"},
    {"first MOT, 1 July", MOT, "12 months", "2005-07-01", "-", "",
        "2008-07-01"},
    /* The notice of 2007: the same rule for the first test. */
    {"first MOT kept", MOT, "12 months", "2005-03-01", "-", "2008-02-02",
        "2009-03-01"},

    /* Goods Vehicles (Plating and Testing) Regulations 1988, reg 11(1): to the
     * last day of the same month in the following year; worked. */
    {"goods, first", GOODS, "12 months", "-", "-", "2026-03-10", "2027-03-31"},
    {"goods, first in a leap year", GOODS, "12 months", "-", "-", "2027-02-05",
        "2028-02-29"},
    /* reg 11(2) item 1: more than two months before; worked. */
    {"goods, too early", GOODS, "12 months", "-", "2027-03-31", "2027-01-15",
        "2028-01-31"},
    /* item 2: two months or less before; worked. */
    {"goods, two months to the day", GOODS, "12 months", "-", "2027-03-31",
        "2027-01-31", "2028-03-31"},
    {"goods, less than two months", GOODS, "12 months", "-", "2027-03-31",
        "2027-02-01", "2028-03-31"},
    /* item 3: after expiry, and the second anniversary where two months or
     * less would be left; worked. */
    {"goods, late", GOODS, "12 months", "-", "2027-03-31", "2027-04-10",
        "2028-03-31"},
    {"goods, very late", GOODS, "12 months", "-", "2027-03-31", "2028-02-20",
        "2029-03-31"},
    {"goods, late by ten months", GOODS, "12 months", "-", "2027-03-31",
        "2028-01-31", "2029-03-31"},
    /* reg 11(1) for whatever is passed first: registered on 15 April 2025 and
     * so due by 15 or 30 April 2026, passed before or after; worked. */
    {"goods, first passed early", GOODS, "12 months", "2025-04-15", "-",
        "2026-03-10", "2027-03-31"},
    {"goods, first passed late", GOODS, "12 months", "2025-04-15", "-",
        "2026-06-10", "2027-06-30"},
    /* reg 11(2) item 1, counted as in Dodds v Walker [1981] 1 WLR 1027: two
     * months from 30 November end on 30 January; worked. */
    {"goods, a day more than two months", GOODS, "12 months", "-", "2027-01-31",
        "2026-11-30", "2027-11-30"},
    {"goods, two months from 1 December", GOODS, "12 months", "-", "2027-01-31",
        "2026-12-01", "2028-01-31"},
    /* reg 9 as of 1969, as reported: the end of the month of the first
     * anniversary of registration; worked. */
    {"goods, first due", GOODS, "12 months", "2025-05-10", "-", "",
        "2026-05-31"},

    /* Regulation (EU) 2016/799, Annex IC, para 409, as quoted in full: within
     * two years (24 months) of the last inspection; worked. */
    {"tachograph, leap day", PLAIN, "24 months", "-", "-", "2024-02-29",
        "2026-02-28"},
    {"tachograph", PLAIN, "24 months", "-", "-", "2026-08-31", "2028-08-31"},
    /* Regulation (EU) 581/2010, as reported: 90 days the vehicle unit, 28
     * days the card; calendar days, worked. */
    {"download, card", PLAIN, "28 days", "-", "-", "2026-01-01", "2026-01-29"},
    {"download, vehicle unit", PLAIN, "90 days", "-", "-", "2026-01-01",
        "2026-04-01"},
    /* SI 2008/198, reg 2: 42 days starting on the day after; worked. */
    {"charts handed in", PLAIN, "42 days", "-", "-", "2026-01-01",
        "2026-02-12"},

    /* LOLER reg 9(3)(a)(i), SI 1998/2307: every six months; worked. */
    {"LOLER, 31 August", PLAIN, "6 months", "-", "-", "2026-08-31",
        "2027-02-28"},
    {"LOLER, 28 February", PLAIN, "6 months", "-", "-", "2026-02-28",
        "2026-08-28"},
    {"LOLER, month ends kept", STICKY, "6 months", "-", "-", "2026-02-28",
        "2026-08-31"},
    /* BS 5306-3:2009 as quoted: yearly, and five-yearly overhaul; worked. */
    {"extinguisher, service", PLAIN, "12 months", "-", "-", "2026-02-02",
        "2027-02-02"},
    {"extinguisher, overhaul", PLAIN, "5 years", "-", "-", "2024-02-29",
        "2029-02-28"},
    /* Driver CPC, GOV.UK as quoted: every five years; worked. */
    {"driver CPC", PLAIN, "5 years", "-", "-", "2021-09-10", "2026-09-10"},
    /* Anchored at 31 January and not chained: common practice, and FpML's way
     * with rolls; worked. */
    {"monthly, February", RHYTHM, "1 month", "-", "2026-01-31", "2026-01-31",
        "2026-02-28"},
    {"monthly, March", RHYTHM, "1 month", "-", "2026-01-31",
        "2026-01-31 2026-02-28", "2026-03-31"},
};

static void
set_regime(struct rule *rule, enum regime regime)
{
    int mot = regime == MOT;

    rule->month_end = regime == STICKY ? MONTH_END_STICKY : MONTH_END_CLAMP;
    if (regime == RHYTHM)
        rule->runs_from = FROM_DEADLINE;
    if (!mot && regime != GOODS)
        return;
    rule->runs_from = KEEPS_DATE;
    rule->ends = mot ? ENDS_DAY_BEFORE : ENDS_MONTH_END;
    rule->first_ends = mot ? ENDS_SAME_DAY : ENDS_MONTH_END;
    rule->first =
        (struct first){ORIGIN_REGISTERED, {mot ? 3 : 1, STEP_YEARS}, DAY_NONE};
    rule->window = (struct span){mot ? 1 : 2, STEP_MONTHS};
    rule->window_opens = mot ? WINDOW_SAFER : WINDOW_SAME_DAY;
    rule->first_kept = mot;
    rule->late = mot ? LATE_RESTARTS : LATE_KEEPS_DATE;
    rule->shortest = (struct span){mot ? 0 : 2, STEP_MONTHS};
}

static void
check_value(struct world *w, const struct value *v)
{
    struct job *j = world_job(w, v->source, v->every);

    j->class = CLASS_LAW;
    set_regime(&j->rule, v->regime);
    w->subjects[0].registered = date(v->registered);
    w->tasks[0].baseline.deadline = date(v->stated);
    for (const char *day = v->done; strlen(day) >= 10; day += 11) {
        world_done(w, j, "2000-01-01")->day = day_parse(day, 10);
        if (day[10] == '\0')
            break;
    }
    const struct due *d = world_due(w, j, "2026-01-01");
    char got[DAY_TEXT];
    assert_reasoned(d);
    if (strcmp(day_text(d->deadline, got), v->want) != 0)
        fail_msg("%s: %s, not %s", v->source, got, v->want);
}

static void
worked_values(void **state)
{
    (void)state;
    for (size_t i = 0; i < COUNT(values); i++) {
        struct world *w = world_new();
        check_value(w, &values[i]);
        world_free(w);
    }
}

/*
 * MOT, "up to a month (minus a day) before it runs out" (GOV.UK as quoted),
 * worked for the ends of months; where two readings differ, the later day.
 */
static const struct {
    const char *runs_out;
    const char *earliest;
    const char *kept;
} windows[] = {
    {"2026-05-15", "2026-04-16", "2027-05-15"},
    {"2007-04-01", "2007-03-02", "2008-04-01"},
    {"2027-03-31", "2027-03-01", "2028-03-31"},
    {"2027-03-30", "2027-03-01", "2028-03-30"},
    {"2027-03-29", "2027-03-01", "2028-03-29"},
    {"2027-03-01", "2027-02-02", "2028-03-01"},
    {"2026-05-31", "2026-05-01", "2027-05-31"},
    {"2026-12-31", "2026-12-01", "2027-12-31"},
    {"2027-02-28", "2027-02-01", "2028-02-28"},
    {"2028-02-29", "2028-02-01", "2029-02-28"},
    {"2026-04-30", "2026-04-01", "2027-04-30"},
};

static void
earliest_days_of_an_mot(void **state)
{
    struct world *w = *state;
    struct job *j = world_job(w, "mot", "12 months");
    struct record *k = world_done(w, j, "2026-01-01");

    set_regime(&j->rule, MOT);
    for (size_t i = 0; i < COUNT(windows); i++) {
        w->tasks[0].baseline.deadline = date(windows[i].runs_out);
        k->day = date(windows[i].earliest);
        assert_day(window_opening(&j->rule, date(windows[i].runs_out)),
            windows[i].earliest);
        assert_deadline(w, j, windows[i].kept);
        k->day--;
        world_snapshot(w, "2026-01-01", "-");
        assert_true(world_find(w, j, 0)->deadline < date(windows[i].kept));
    }
}

/*
 * DVSA on the 2014 revision of its guide, as reported: the inspection is to be
 * completed within the ISO week in which it falls.  Worked; 2020 and 2026 have
 * 53 weeks.
 */
static const struct {
    int year, week;
    const char *every;
    int due_year, due_week;
} weeks[] = {
    {2026, 48, "6 weeks", 2027, 1},
    {2026, 47, "6 weeks", 2026, 53},
    {2026, 45, "8 weeks", 2026, 53},
    {2026, 40, "13 weeks", 2026, 53},
    {2026, 50, "6 weeks", 2027, 3},
    {2020, 50, "6 weeks", 2021, 3},
    {2026, 1, "52 weeks", 2026, 53},
};

static void
inspections_by_the_iso_week(void **state)
{
    struct world *w = *state;
    struct job *j = world_job(w, "inspection", "6 weeks");
    struct record *k = world_done(w, j, "2026-01-01");

    for (size_t i = 0; i < COUNT(weeks); i++) {
        world_every(w, &j->rule, weeks[i].every);
        j->rule.ends = ENDS_WEEK_END;
        day_t monday = isoweek_monday(weeks[i].year, weeks[i].week);
        day_t sunday = isoweek_monday(weeks[i].due_year, weeks[i].due_week) + 6;
        for (int weekday = 0; weekday < 7; weekday++) {
            k->day = monday + weekday;
            world_snapshot(w, "2026-01-01", "-");
            assert_int_equal(world_find(w, j, 0)->deadline, sunday);
        }
    }
}

/* The same, by the day: Wednesday, Sunday and Monday of late November. */
static void
inspections_by_the_day(void **state)
{
    struct world *w = *state;
    struct job *exact = world_job(w, "exact", "6 weeks");
    struct job *week = world_job(w, "week", "6 weeks");
    struct record *k = world_done(w, exact, "2026-11-25");
    struct record *l = world_done(w, week, "2026-11-25");

    week->rule.ends = ENDS_WEEK_END;
    assert_deadline(w, exact, "2027-01-06");
    assert_deadline(w, week, "2027-01-10");
    k->day = l->day = date("2026-11-29");
    assert_deadline(w, exact, "2027-01-10");
    assert_deadline(w, week, "2027-01-10");
    k->day = l->day = date("2026-11-30");
    assert_deadline(w, exact, "2027-01-11");
    assert_deadline(w, week, "2027-01-17");
}

/*
 * The same report: a maximum of six weeks for vehicles aged twelve years and
 * older.  Worked for one first registered on 2014-06-10.
 */
static void
inspections_at_twelve_years(void **state)
{
    struct world *w = *state;
    struct job *j = world_job(w, "inspection", "10 weeks");
    struct record *k = world_done(w, j, "2026-03-23");

    w->subjects[0].registered = date("2014-06-10");
    j->rule.ends = ENDS_WEEK_END;
    j->rule.age_from = ORIGIN_REGISTERED;
    j->rule.ages[0] = (struct age_step){{12, STEP_YEARS}, {6, STEP_WEEKS}};
    j->rule.n_ages = 1;
    assert_deadline(w, j, "2026-06-07"); /* before the birthday */
    k->day = date("2026-03-30");         /* ten weeks: 14 June */
    assert_deadline(w, j, "2026-06-10");
    k->day = date("2026-06-15");
    assert_deadline(w, j, "2026-08-02");
}

/* Once off the road past its interval, "before the vehicle is put back into
 * service it must undergo" an inspection: a law firm's words; worked. */
static void
inspections_off_the_road(void **state)
{
    struct world *w = *state;
    struct job *j = world_job(w, "inspection", "6 weeks");

    world_done(w, j, "2026-01-05");
    world_off_road(w, "2026-02-02", "-");
    assert_int_equal(world_due(w, j, "2026-06-01")->state, DUE_BEFORE_RETURN);
}

/*
 * From April 2025 at least four laden brake tests a year, of which one can be
 * the annual test, as reported by two trainers; worked for any twelve months.
 */
static void
four_laden_brake_tests(void **state)
{
    struct world *w = *state;
    struct job *annual = world_job(w, "annual-test", "12 months");
    struct job *brakes = world_job(w, "brake-test", "4 within 12 months");

    brakes->also_counts = (struct also_counts){annual, 1};
    world_done(w, brakes, "2025-04-14");
    world_done(w, brakes, "2025-07-20");
    world_done(w, annual, "2025-10-12");
    world_done(w, brakes, "2026-01-16");
    assert_deadline(w, brakes, "2026-04-14");
    /* Of two annual tests one counts: the fourth is still that of April. */
    world_done(w, annual, "2026-02-01");
    assert_deadline(w, brakes, "2026-04-14");
    world_done(w, brakes, "2026-04-13");
    assert_deadline(w, brakes, "2026-07-20");
}

/* Analogue tachographs: two-yearly inspection, recalibration every six years,
 * as reported in 2010; that the one covers the other is common practice. */
static void
a_recalibration_covers_the_inspection(void **state)
{
    struct world *w = *state;
    struct job *six = world_job(w, "recalibration", "6 years");
    struct job *two = world_job(w, "inspection", "24 months");
    const struct job *covered[] = {two};

    six->covers = covered;
    six->n_covers = 1;
    world_done(w, six, "2020-03-02");
    world_done(w, two, "2022-03-01");
    world_done(w, two, "2024-02-29");
    assert_deadline(w, six, "2026-03-02");
    assert_deadline(w, two, "2026-02-28");
    world_done(w, six, "2026-02-20");
    assert_deadline(w, six, "2032-02-20");
    assert_deadline(w, two, "2028-02-20");
}

/*
 * BS AU 50 part 2, section 7a, as reported: wheel nuts are checked again after
 * 40 to 80 km.  Worked with a vehicle of 40 km a day: two days.
 */
static void
wheel_nuts_again_after_80_km(void **state)
{
    struct world *w = *state;
    struct job *wheels = world_job(w, "wheel-off", "when needed");
    struct job *torque = world_job(w, "torque", "80 km");
    const struct job *followed[] = {wheels};

    torque->follows = followed;
    torque->n_follows = 1;
    torque->rule.forecast = FORECAST_LIKELY;
    world_reading(w, "2026-04-04", 48800);
    assert_null(world_due(w, torque, "2026-05-04"));
    struct record *k = world_done(w, wheels, "2026-05-04");
    k->meter = METER_DISTANCE;
    k->reading = 50000;
    assert_deadline(w, torque, "2026-05-06");
    assert_int_equal(world_find(w, torque, 0)->due_reading, 50080);
    world_done(w, torque, "2026-05-05");
    assert_null(world_due(w, torque, "2026-05-06"));
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(worked_values),
        WORLD_TEST(earliest_days_of_an_mot),
        WORLD_TEST(inspections_by_the_iso_week),
        WORLD_TEST(inspections_by_the_day),
        WORLD_TEST(inspections_at_twelve_years),
        WORLD_TEST(inspections_off_the_road),
        WORLD_TEST(four_laden_brake_tests),
        WORLD_TEST(a_recalibration_covers_the_inspection),
        WORLD_TEST(wheel_nuts_again_after_80_km),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
