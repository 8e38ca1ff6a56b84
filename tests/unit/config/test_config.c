/* A good fleet file: every key comes out where it belongs. */
#include "config/good.h"
#include "config/try.h"

#include "kind.h"

static void
assert_span(struct span s, int n, enum step_unit unit)
{
    assert_int_equal(s.n, n);
    assert_int_equal(s.unit, unit);
}

static void
site_and_mail(void **state)
{
    (void)state;
    assert_string_equal(fleet->site.name, "Skerrow Isles Transport");
    assert_string_equal(fleet->site.time_zone, "Europe/London");
    assert_string_equal(fleet->site.ledger, "site/state/ledger.db");
    assert_string_equal(fleet->site.feed_folder, "/srv/feeds");
    assert_string_equal(fleet->site.mail.from, "ostler@skerrow.example");
    assert_string_equal(fleet->site.mail.reply_to, "office@skerrow.example");
    assert_string_equal(fleet->site.mail.transport, "folder");
    assert_string_equal(fleet->site.mail.argument, "site/outbox");
}

static void
depots(void **state)
{
    (void)state;
    assert_int_equal(fleet->n_depots, 2);
    assert_string_equal(fleet->depots[0].id, "harbour");
    assert_string_equal(fleet->depots[0].title, "Harbour depot");
    assert_string_equal(fleet->depots[0].time_zone, "Europe/London");
    assert_string_equal(fleet->depots[1].title, "north");
    assert_string_equal(fleet->depots[1].time_zone, "Europe/Lisbon");
}

/* Why a day is closed at the workshop; "open" and "" for the week-end. */
static void
assert_why(const char *when, const char *why)
{
    const struct work_calendar *c = fleet->depots[0].calendar;
    const char *name = work_calendar_why(c, day(when));

    if (strcmp(why, "open") == 0)
        assert_true(work_calendar_is_open(c, day(when)));
    else {
        assert_false(work_calendar_is_open(c, day(when)));
        assert_string_equal(name ? name : "", why);
    }
}

static void
working_days(void **state)
{
    (void)state;
    assert_why("2026-03-18", "open"); /* a Wednesday */
    assert_why("2026-03-22", "");     /* a Sunday */
    assert_why("2026-03-17", "Stocktaking");
    assert_why("2026-03-21", "open"); /* a Saturday that is stated open */
    assert_why("2026-12-29", "open"); /* inside the winter shutdown */
    assert_why("2026-12-24", "Winter shutdown");
    assert_why("2027-01-04", "Winter shutdown");
    assert_why("2027-01-05", "open");
    assert_why("2026-01-01", "1 jan");
    assert_why("2028-01-03", "1 jan"); /* 1 Jan 2028 is a Saturday */
    /* Easter Sunday 2026 is 5 April. */
    assert_why("2026-04-03", "Good Friday");
    assert_why("2026-04-06", "easter +1");
    assert_why("2026-05-04", "first monday of may");
    assert_why("2027-05-03", "open"); /* taken out */
    assert_why("2028-05-01", "open");
    assert_why("2026-08-31", "Late summer, and tea");
    /* 25 Dec 2027 is a Saturday. */
    assert_why("2027-12-27", "Christmas Day");
    assert_why("2026-06-15", "Regatta day");
    /* From the authority's file: the end is exclusive. */
    assert_why("2026-09-07", "Island games");
    assert_why("2026-09-08", "Island games");
    assert_why("2026-09-09", "open");
    assert_why("2027-03-01", "Founding day");
    /* The file's last day is in 2027, before 2029. */
    assert_int_equal(work_calendar_known_until(fleet->depots[0].calendar),
        day("2027-12-31"));
    /* Open on stated days alone. */
    assert_int_equal(
        work_calendar_following(fleet->depots[1].calendar, DAY_FIRST),
        day("2026-05-07"));
}

static void
job_keys(void **state)
{
    (void)state;
    assert_int_equal(fleet->n_jobs, 8);
    const struct job *j = &fleet->jobs[0];
    assert_string_equal(j->id, "annual-test");
    assert_string_equal(j->title, "Annual test");
    assert_int_equal(j->class, CLASS_LAW);
    assert_string_equal(j->authority, "the national vehicle testing authority");
    assert_string_equal(j->source, "Testing Order 4");
    assert_string_equal(j->caution, "Lifts are for people qualified for them");
    for (size_t i = 0; i < fleet->n_jobs; i++)
        assert_int_equal(fleet->jobs[i].index, i);
    const struct job *service = fleet_job(fleet, "service");
    assert_int_equal(service->class, CLASS_MAKER);
    assert_int_equal(service->n_covers, 1);
    assert_string_equal(service->covers[0]->id, "inspection");
    assert_null(service->authority);
    const struct job *wheel = fleet_job(fleet, "wheel-check");
    assert_int_equal(wheel->class, CLASS_OWN);
    assert_int_equal(wheel->n_follows, 1);
    assert_string_equal(wheel->follows[0]->id, "wheel-off");
    const struct job *card = fleet_job(fleet, "card");
    assert_int_equal(card->also_counts.most, 2);
    assert_string_equal(card->also_counts.job->id, "inspection");
}

static void
job_rule(void **state)
{
    (void)state;
    const struct rule *r = &fleet->jobs[0].rule;
    assert_int_equal(r->n_every, 1);
    assert_span(r->every[0].span, 12, STEP_MONTHS);
    assert_int_equal(r->ends, ENDS_DAY_BEFORE);
    assert_int_equal(r->first_ends, ENDS_MONTH_END);
    assert_int_equal(r->month_end, MONTH_END_STICKY);
    assert_int_equal(r->runs_from, KEEPS_DATE);
    assert_span(r->window, 1, STEP_MONTHS);
    assert_int_equal(r->window_opens, WINDOW_DAY_AFTER);
    assert_int_equal(r->late, LATE_KEEPS_DATE);
    assert_span(r->shortest, 10, STEP_MONTHS);
    assert_int_equal(r->first.origin, ORIGIN_REGISTERED);
    assert_span(r->first.after, 12, STEP_MONTHS);
    assert_int_equal(r->n_ages, 2);
    assert_span(r->ages[0].age, 6, STEP_YEARS);
    assert_span(r->ages[0].every, 6, STEP_MONTHS);
    assert_span(r->ages[1].age, 12, STEP_YEARS);
    assert_span(r->ages[1].every, 3, STEP_MONTHS);
    assert_int_equal(r->age_from, ORIGIN_BUILT);
    assert_int_equal(r->off_road, OFF_ROAD_WAITS);
    assert_string_equal(r->place, "station");
    assert_non_null(r->calendar);
    assert_int_equal(r->roll, ROLL_PRECEDING);
    assert_span(r->lead.span, 10, STEP_DAYS);
    assert_true(r->lead.working);
    assert_int_equal(r->remind.n_before, 3);
    assert_span(r->remind.before[0], 8, STEP_WEEKS);
    assert_span(r->remind.before[1], 1, STEP_WEEKS);
    assert_span(r->remind.before[2], 0, STEP_DAYS);
    assert_span(r->remind.overdue_every, 2, STEP_DAYS);
}

static void
other_rules(void **state)
{
    (void)state;
    const struct rule *r = &fleet_job(fleet, "service")->rule;
    assert_int_equal(r->n_every, 3);
    assert_span(r->every[0].span, 12, STEP_MONTHS);
    assert_int_equal(kind_meter(&r->every[1]), METER_DISTANCE);
    assert_int_equal(r->every[1].amount, 20000);
    assert_int_equal(kind_meter(&r->every[2]), METER_HOURS);
    assert_int_equal(r->n_at_most, 2);
    assert_span(r->at_most[0].span, 2, STEP_YEARS);
    assert_int_equal(kind_meter(&r->at_most[1]), METER_DISTANCE);
    assert_int_equal(r->at_most[1].amount, 30000);
    assert_int_equal(r->forecast, FORECAST_LIKELY);
    assert_span(r->reading_within, 6, STEP_WEEKS);
    assert_int_equal(r->roll, ROLL_NEAREST);
    assert_span(r->lead.span, 2, STEP_WEEKS);
    assert_false(r->lead.working);
    /* What is not stated. */
    assert_int_equal(r->ends, ENDS_SAME_DAY);
    assert_int_equal(r->runs_from, FROM_COMPLETION);
    assert_int_equal(r->age_from, ORIGIN_EARLIEST);
    assert_int_equal(r->first.origin, ORIGIN_NONE);
    assert_int_equal(r->window.n, 0);
    assert_null(r->calendar);
    assert_null(r->place);
    r = &fleet_job(fleet, "extinguisher")->rule;
    assert_string_equal(r->place, "The workshop");
    assert_span(r->window, 6, STEP_WEEKS);
    assert_int_equal(r->window_opens, WINDOW_SAME_DAY);
    assert_int_equal(fleet_job(fleet, "wheel-check")->rule.n_every, 2);
    assert_int_equal(fleet_job(fleet, "card")->rule.runs_from, FROM_DEADLINE);
    assert_true(kind_is_calendar_rule(
        &fleet_job(fleet, "extinguisher")->rule.every[0]));
}

static void
subjects(void **state)
{
    (void)state;
    assert_int_equal(fleet->n_subjects, 4);
    const struct subject *k7 = &fleet->subjects[0];
    assert_string_equal(k7->id, "K7");
    assert_string_equal(k7->title, "The blue one");
    assert_int_equal(k7->kind, SUBJECT_VEHICLE);
    assert_int_equal(k7->registered, day("2019-05-16"));
    assert_int_equal(k7->built, day("2019-03-01"));
    assert_int_equal(k7->in_service, day("2019-06-01"));
    assert_ptr_equal(k7->depot, &fleet->depots[0]);
    assert_int_equal(k7->unit, UNIT_KM);
    /* 10000 miles of 1.609344 km are 16093.44 km; more use is the safer. */
    assert_int_equal(k7->yearly_distance, 16094);
    assert_int_equal(k7->yearly_hours, 900);
    const struct subject *k8 = &fleet->subjects[1];
    assert_null(k8->title);
    assert_int_equal(k8->registered, DAY_NONE);
    assert_ptr_equal(k8->depot, &fleet->depots[1]);
    assert_int_equal(k8->unit, UNIT_MILES);
    assert_int_equal(k8->yearly_distance, 10000);
    const struct subject *ex = &fleet->subjects[2];
    assert_int_equal(ex->kind, SUBJECT_EQUIPMENT);
    assert_ptr_equal(ex->carrier, k7);
    assert_null(ex->depot);
    assert_int_equal(ex->yearly_distance, 0);
    assert_int_equal(fleet->subjects[3].kind, SUBJECT_DRIVER);
    for (size_t i = 0; i < fleet->n_subjects; i++)
        assert_int_equal(fleet->subjects[i].index, i);
}

static void
tasks(void **state)
{
    (void)state;
    /* Five of K7, two of K8 and one each of the others. */
    assert_int_equal(fleet->n_tasks, 9);
    assert_int_equal(fleet->subjects[1].first_task, 5);
    assert_int_equal(fleet->subjects[1].n_tasks, 2);
    const struct task *t = &fleet->tasks[0];
    assert_ptr_equal(t->subject, &fleet->subjects[0]);
    assert_string_equal(t->job->id, "annual-test");
    assert_int_equal(t->baseline.last, day("2026-03-14"));
    assert_int_equal(t->baseline.deadline, day("2027-03-13"));
    assert_int_equal(t->baseline.last_reading[METER_DISTANCE], -1);
    /* No override: the job's own rule, and none of its own. */
    assert_ptr_equal(t->rule, &t->job->rule);
    t = task("K7", "service");
    assert_int_equal(t->baseline.last, day("2026-05-04"));
    assert_int_equal(t->baseline.deadline, DAY_NONE);
    /* 75000 miles are 120700.8 km. */
    assert_int_equal(t->baseline.last_reading[METER_DISTANCE], 120700);
    assert_int_equal(t->baseline.last_reading[METER_HOURS], 4100);
    t = task("D1", "card");
    assert_int_equal(t->rule->first.origin, ORIGIN_ON);
    assert_int_equal(t->rule->first.on, day("2026-09-30"));
    assert_span(t->rule->every[0].span, 12, STEP_MONTHS);
}

static void
overrides(void **state)
{
    (void)state;
    const struct task *own = task("K7", "inspection");
    const struct task *typed = task("K8", "inspection");
    assert_span(own->rule->every[0].span, 6, STEP_WEEKS);
    assert_span(typed->rule->every[0].span, 8, STEP_WEEKS);
    assert_span(own->job->rule.every[0].span, 10, STEP_WEEKS);
    /* The kind of end of the type holds below it, and the first end goes
     * with it. */
    assert_int_equal(own->rule->ends, ENDS_WEEK_END);
    assert_int_equal(own->rule->first_ends, ENDS_WEEK_END);
    assert_int_equal(typed->rule->first_ends, ENDS_WEEK_END);
    assert_int_equal(own->job->rule.first_ends, ENDS_SAME_DAY);
}

static void
calendars_of_tasks(void **state)
{
    (void)state;
    const struct work_calendar *depot = fleet->depots[0].calendar;
    const struct job *test = &fleet->jobs[0];
    const struct work_calendar *both = task("K7", "annual-test")->calendar;
    /* 2026-05-07 is a Thursday, 2026-05-06 a Wednesday. */
    assert_true(work_calendar_is_open(both, day("2026-05-07")));
    assert_false(work_calendar_is_open(both, day("2026-05-06")));
    assert_false(work_calendar_is_open(both, day("2026-03-17")));
    assert_ptr_not_equal(both, depot);
    assert_ptr_not_equal(both, test->rule.calendar);
    /* Made once for each pair. */
    assert_ptr_equal(task("D1", "card")->calendar, both);
    assert_ptr_equal(task("K7", "service")->calendar, depot);
    /* Where the subject has it done, and where the type has it done. */
    assert_ptr_equal(task("K7", "wheel-check")->calendar, both);
    assert_ptr_equal(task("K7", "inspection")->calendar, both);
    assert_ptr_equal(
        task("K7", "inspection")->rule->calendar, test->rule.calendar);
    assert_null(task("K7", "inspection")->job->rule.calendar);
    assert_string_equal(task("K8", "annual-test")->rule->place, "The workshop");
    assert_string_equal(task("K8", "inspection")->rule->place, "station");
    /* The carrier's depot, where the work is done in the same place. */
    assert_ptr_equal(task("EX-31", "extinguisher")->calendar, depot);
}

static void
persons(void **state)
{
    (void)state;
    assert_int_equal(fleet->n_persons, 4);
    const struct person *p = fleet->persons;
    assert_string_equal(p[0].id, "manager");
    assert_string_equal(p[0].name, "The manager");
    assert_string_equal(p[0].mail, "manager@skerrow.example");
    assert_int_equal(p[0].n_told, 1);
    assert_int_equal(p[0].told[0].kind, SCOPE_ALL);
    assert_span(p[0].from, 60, STEP_YEARS);
    assert_false(p[0].from_overdue);
    assert_int_equal(p[0].days, WEEKDAYS_ALL);
    assert_null(p[1].name);
    assert_int_equal(p[1].n_told, 3);
    assert_int_equal(p[1].told[0].kind, SCOPE_DEPOT);
    assert_ptr_equal(p[1].told[0].which, &fleet->depots[0]);
    assert_int_equal(p[1].told[1].kind, SCOPE_SUBJECT);
    assert_ptr_equal(p[1].told[1].which, &fleet->subjects[1]);
    assert_int_equal(p[1].told[2].kind, SCOPE_JOB);
    assert_ptr_equal(p[1].told[2].which, &fleet->jobs[0]);
    assert_span(p[1].from, 4, STEP_WEEKS);
    assert_int_equal(p[1].days, 1 | 1 << 3);
    assert_ptr_equal(p[1].calendar, fleet->depots[0].calendar);
    assert_int_equal(p[1].urgent, URGENT_LAW_OVERDUE);
    assert_int_equal(p[1].outlook, 1);
    assert_null(p[0].calendar);
    assert_int_equal(p[0].urgent, URGENT_NEVER);
    assert_int_equal(p[0].outlook, 0);
    assert_span(p[2].from, 1, STEP_WEEKS);
    assert_true(p[2].from_overdue);
    assert_span(p[3].from, 0, STEP_DAYS);
    assert_true(p[3].from_overdue);
}

static void
feeds(void **state)
{
    (void)state;
    assert_int_equal(fleet->n_feeds, 2);
    assert_string_equal(fleet->feeds[0].id, "harbour");
    assert_string_equal(fleet->feeds[0].title, "Harbour");
    assert_ptr_equal(fleet->feeds[0].shows[0].which, &fleet->depots[0]);
    assert_span(fleet->feeds[0].horizon, 6, STEP_MONTHS);
    assert_string_equal(fleet->feeds[1].title, "all");
    assert_int_equal(fleet->feeds[1].shows[0].kind, SCOPE_ALL);
    assert_span(fleet->feeds[1].horizon, 18, STEP_MONTHS);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(site_and_mail),
        cmocka_unit_test(depots),
        cmocka_unit_test(working_days),
        cmocka_unit_test(job_keys),
        cmocka_unit_test(job_rule),
        cmocka_unit_test(other_rules),
        cmocka_unit_test(subjects),
        cmocka_unit_test(tasks),
        cmocka_unit_test(overrides),
        cmocka_unit_test(calendars_of_tasks),
        cmocka_unit_test(persons),
        cmocka_unit_test(feeds),
    };

    return cmocka_run_group_tests(tests, read_fleet, free_fleet);
}
