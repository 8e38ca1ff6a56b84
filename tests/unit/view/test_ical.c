#include <libical/ical.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sysexits.h>
#include <uuid/uuid.h>

#include "buf.h"
#include "caution.h"
#include "ical.h"
#include "ical_back.h"
#include "test.h"

#define SITE "Skerrow Isles Transport"

/*
 * A fleet of one bus with an extinguisher, and one thing that means harm: its
 * texts try to end their property and to begin an event of their own.
 */
static const struct depot harbour = {.id = "harbour"};
static const struct depot odd_depot = {.id = "a,b;c\\d"};
static const struct subject bus = {.id = "K7", .depot = &harbour};
static const struct subject extinguisher = {
    .id = "EX-31",
    .kind = SUBJECT_EQUIPMENT,
    .carrier = &bus,
};
static const struct subject hostile = {
    .id = "T9\r\nEND:VEVENT\r\nBEGIN:VEVENT",
    .depot = &odd_depot,
};
static const struct job annual_test = {
    .id = "annual-test",
    .title = "Annual test",
    .class = CLASS_LAW,
    .authority = "the national vehicle testing authority",
};
static const struct job engine_service = {
    .id = "engine-service",
    .title = "Engine oil and filter",
    .class = CLASS_MAKER,
};
static const struct job extinguisher_service = {
    .id = "extinguisher-service",
    .title = "Extinguisher service",
    .class = CLASS_RECOMMENDATION,
    .caution = "Stored pressure: never open the valve",
};
static const struct job forged = {
    .id = "forged",
    .title = "Lift, ramp; \"belt\" \\ \xf0\x9f\x9a\x8c\xe2\x80\xa8"
             "END:VEVENT\xe2\x80\xa8"
             "BEGIN:VEVENT\xc2\x85SUMMARY:forged \xe2\x80\xae\xff",
    .class = CLASS_OWN,
    .authority = "us\nATTENDEE:mailto:x@y.example",
};
static const struct rule plain_rule = {.forecast = FORECAST_EARLY};
static const struct rule likely_rule = {.forecast = FORECAST_LIKELY};

static const struct task test_of_bus = {
    .subject = &bus,
    .job = &annual_test,
    .rule = &plain_rule,
};
static const struct task service_of_bus = {
    .subject = &bus,
    .job = &engine_service,
    .rule = &plain_rule,
};
static const struct task service_of_extinguisher = {
    .subject = &extinguisher,
    .job = &extinguisher_service,
    .rule = &plain_rule,
};
static const struct task forged_task = {
    .subject = &hostile,
    .job = &forged,
    .rule = &plain_rule,
};

static const struct reason test_reasons[] = {
    {.text = "passed on 2025-05-15, record 42"},
    {.text = "12 months, ends day before"},
    {.text = "the station works on tue thu"},
};
static const struct reason forged_reasons[] = {
    {.text = "because\r\nEND:VEVENT\r\nBEGIN:VEVENT, said; \\ he"},
};

enum { TEST, SERVICE, EXTINGUISHER, NEXT_TEST, NO_RECORD, FORGED, RETURN, N };

static struct ical_feed feed;
static struct due dues[N];
static struct ical_stamp stamps[N + 1];

static int
set_up(void **state)
{
    const struct due blank = {
        .state = DUE_AHEAD,
        .deadline = DAY_NONE,
        .plan_day = DAY_NONE,
        .book_by = DAY_NONE,
        .last_done = DAY_NONE,
        .due_reading = -1,
        .cycle.start = DAY_NONE,
    };

    (void)state;
    feed = (struct ical_feed){
        .site = SITE,
        .id = "harbour",
        .title = "Harbour, north; \\ \xe2\x9a\x93",
        .alarm = {-1, STEP_DAYS},
    };
    for (size_t i = 0; i < N; i++) {
        dues[i] = blank;
        /* 2026-03-01T04:17:00Z, by date(1). */
        stamps[i] = (struct ical_stamp){(int64_t)i, 1772338620};
    }
    stamps[N] = (struct ical_stamp){7, 1772338620};

    struct due *d = &dues[TEST];
    d->task = &test_of_bus;
    d->cycle.record = 42;
    d->deadline = day_of(2026, 5, 14);
    d->plan_day = day_of(2026, 5, 12);
    d->book_by = day_of(2026, 4, 28);
    d->last_done = day_of(2025, 5, 15);
    d->reasons = test_reasons;
    d->n_reasons = 3;

    d = &dues[SERVICE];
    d->task = &service_of_bus;
    d->cycle.start = day_of(2025, 9, 1);
    d->deadline = day_of(2026, 6, 10);
    d->plan_day = day_of(2026, 6, 10);
    d->last_done = day_of(2025, 9, 1);
    d->forecast = (struct forecast){.basis = FORECAST_READINGS,
        .early = day_of(2026, 6, 10),
        .likely = day_of(2026, 6, 30),
        .late = day_of(2026, 7, 20)};

    d = &dues[EXTINGUISHER];
    d->task = &service_of_extinguisher;
    d->state = DUE_OVERDUE;
    d->deadline = day_of(2026, 3, 1);
    d->plan_day = day_of(2026, 2, 27);

    d = &dues[NEXT_TEST];
    *d = dues[TEST];
    d->cycle.ahead = 1;
    d->deadline = day_of(2027, 5, 11);
    d->plan_day = day_of(2027, 5, 11);
    d->book_by = DAY_NONE;
    d->n_reasons = 0;

    dues[NO_RECORD].task = &service_of_bus;
    dues[NO_RECORD].state = DUE_NO_RECORD;

    d = &dues[FORGED];
    d->task = &forged_task;
    d->cycle.record = 9;
    d->deadline = d->plan_day = day_of(2028, 2, 29);
    d->reasons = forged_reasons;
    d->n_reasons = 1;

    d = &dues[RETURN];
    d->task = &service_of_extinguisher;
    d->state = DUE_BEFORE_RETURN;
    d->cycle.record = 3;
    d->deadline = day_of(2026, 12, 31);
    return 0;
}

/* Append @item to @out as an event. */
static void
add_item(struct ical *c, const struct ical_item *item,
    const struct ical_stamp *stamp, struct buf *out)
{
    struct buf *content = buf_new();

    assert_non_null(content);
    assert_int_equal(ical_content(c, item, content), 0);
    assert_int_equal(ical_stamped(c, item, content, stamp, out), 0);
    buf_free(content);
}

static void
check_whole(const struct buf *out, size_t n)
{
    struct fault f = {0};

    if (ical_check(buf_str(out), buf_len(out), &feed, n, &f))
        fail_msg("%s", f.text);
}

/* A feed of these items, all with the last stamp; free with buf_free(). */
static struct buf *
rendered_items(const struct ical_item *items, size_t n)
{
    struct buf *out = buf_new();
    struct ical *c = ical_new(&feed);

    assert_non_null(out);
    assert_non_null(c);
    assert_int_equal(ical_begin(c, out), 0);
    for (size_t i = 0; i < n; i++)
        add_item(c, &items[i], &stamps[N], out);
    ical_end(out);
    check_whole(out, n);
    ical_free(c);
    return out;
}

/* The feed of the first @n dues, or the one of none; free with buf_free(). */
static struct buf *
rendered(size_t n)
{
    struct ical_item nothing = {.kind = ICAL_NOTHING};
    struct buf *out = buf_new();
    struct ical *c = ical_new(&feed);

    assert_non_null(out);
    assert_non_null(c);
    assert_int_equal(ical_begin(c, out), 0);
    for (size_t i = 0; i < n; i++)
        add_item(c, &(struct ical_item){.kind = ICAL_DUE, .due = &dues[i]},
            &stamps[i], out);
    if (n == 0)
        add_item(c, &nothing, &stamps[N], out);
    ical_end(out);
    check_whole(out, n ? n : 1);
    ical_free(c);
    return out;
}

/* The content, or the outline, of the event of @d; free with buf_free(). */
static struct buf *
made(int (*make)(struct ical *, const struct ical_item *, struct buf *),
    const struct due *d)
{
    struct buf *out = buf_new();
    struct ical *c = ical_new(&feed);

    assert_non_null(out);
    assert_non_null(c);
    assert_int_equal(
        make(c, &(struct ical_item){.kind = ICAL_DUE, .due = d}, out), 0);
    ical_free(c);
    return out;
}

static void
uid_of(const struct ical_item *item, char out[ICAL_UID_TEXT])
{
    struct ical *c = ical_new(&feed);

    assert_non_null(c);
    ical_uid(c, item, out);
    ical_free(c);
}

static void
due_uid(const struct due *d, char out[ICAL_UID_TEXT])
{
    uid_of(&(struct ical_item){.kind = ICAL_DUE, .due = d}, out);
}

static icalcomponent *
parsed(const struct buf *out)
{
    icalcomponent *c = icalparser_parse_string(buf_str(out));

    assert_non_null(c);
    assert_int_equal(icalcomponent_count_errors(c), 0);
    return c;
}

/* The event of @d in @calendar, found by its UID. */
static icalcomponent *
event_of(icalcomponent *calendar, const struct due *d)
{
    char uid[ICAL_UID_TEXT];
    icalcomponent *c =
        icalcomponent_get_first_component(calendar, ICAL_VEVENT_COMPONENT);

    due_uid(d, uid);
    while (c != NULL && strcmp(icalcomponent_get_uid(c), uid) != 0)
        c = icalcomponent_get_next_component(calendar, ICAL_VEVENT_COMPONENT);
    assert_non_null(c);
    return c;
}

/* The value of a property, or of the X- property of that name, as written. */
static void
check_value(icalcomponent *c, const char *name, const char *wanted)
{
    icalproperty *p = icalcomponent_get_first_property(c, ICAL_ANY_PROPERTY);

    while (p != NULL && strcmp(icalproperty_get_property_name(p), name) != 0)
        p = icalcomponent_get_next_property(c, ICAL_ANY_PROPERTY);
    assert_non_null(p);
    assert_string_equal(icalproperty_get_value_as_string(p), wanted);
}

static void
calendar_properties(void **state)
{
    struct buf *out = rendered(N);
    icalcomponent *c = parsed(out);

    (void)state;
    check_value(c, "VERSION", "2.0");
    check_value(c, "PRODID", "-//ostler//due dates//EN");
    check_value(c, "CALSCALE", "GREGORIAN");
    check_value(c, "NAME", "Harbour north \xe2\x9a\x93");
    check_value(c, "X-WR-CALNAME", "Harbour north \xe2\x9a\x93");
    check_value(c, "X-PUBLISHED-TTL", "PT6H");
    /* RFC 7986, 5.7: the VALUE parameter is required. */
    assert_non_null(
        strstr(buf_str(out), "\r\nREFRESH-INTERVAL;VALUE=DURATION:PT6H\r\n"));
    /* METHOD would need an ORGANIZER (RFC 5546); no zones, no alarms. */
    assert_null(strstr(buf_str(out), "\nMETHOD"));
    assert_null(strstr(buf_str(out), "VTIMEZONE"));
    assert_null(strstr(buf_str(out), "VALARM"));
    icalcomponent_free(c);
    buf_free(out);
}

static void
an_event(void **state)
{
    struct buf *out = rendered(N);
    icalcomponent *c = parsed(out);
    icalcomponent *e = event_of(c, &dues[TEST]);

    (void)state;
    check_value(e, "DTSTAMP", "20260301T041700Z");
    check_value(e, "LAST-MODIFIED", "20260301T041700Z");
    check_value(e, "SEQUENCE", "0");
    check_value(e, "DTSTART", "20260512");
    check_value(e, "DTEND", "20260513");
    assert_string_equal(icalcomponent_get_summary(e), "K7 - Annual test");
    assert_string_equal(icalcomponent_get_description(e),
        "Deadline: Thu 2026-05-14\n"
        "Book by: Tue 2026-04-28\n"
        "Class: law, the national vehicle testing authority\n"
        "Last done: Thu 2025-05-15\n"
        "passed on 2025-05-15, record 42\n"
        "12 months, ends day before\n"
        "the station works on tue thu\n" CAUTION_TEXT);
    check_value(e, "STATUS", "CONFIRMED");
    check_value(e, "TRANSP", "TRANSPARENT");
    check_value(e, "X-MICROSOFT-CDO-BUSYSTATUS", "FREE");
    assert_non_null(strstr(buf_str(out), "\r\nCATEGORIES:Due,harbour\r\n"));
    assert_non_null(
        strstr(buf_str(out), "\r\nDTSTART;VALUE=DATE:20260512\r\n"));
    icalcomponent_free(c);
    buf_free(out);
}

static void
overdue_and_forecast(void **state)
{
    struct buf *out = rendered(N);
    icalcomponent *c = parsed(out);
    icalcomponent *e = event_of(c, &dues[EXTINGUISHER]);

    (void)state;
    assert_string_equal(
        icalcomponent_get_summary(e), "EX-31 overdue - Extinguisher service");
    /* No lead, never done; 2026 is no leap year. */
    assert_string_equal(icalcomponent_get_description(e),
        "Deadline: Sun 2026-03-01\n"
        "Class: recommendation\n"
        "Last done: not on record\n"
        "Stored pressure: never open the valve\n" CAUTION_TEXT);
    check_value(e, "DTSTART", "20260227");
    check_value(e, "DTEND", "20260228");
    check_value(e, "STATUS", "CONFIRMED");
    /* Its depot is its carrier's. */
    assert_non_null(strstr(buf_str(out), "\r\nCATEGORIES:Overdue,harbour\r\n"));

    e = event_of(c, &dues[NEXT_TEST]);
    assert_string_equal(
        icalcomponent_get_summary(e), "K7 forecast - Annual test");
    check_value(e, "STATUS", "TENTATIVE");
    assert_non_null(
        strstr(buf_str(out), "\r\nCATEGORIES:Forecast,harbour\r\n"));
    /* Off the road, with a deadline and no plan day. */
    e = event_of(c, &dues[RETURN]);
    assert_string_equal(icalcomponent_get_summary(e),
        "EX-31 before return - Extinguisher service");
    check_value(e, "DTSTART", "20261231");
    check_value(e, "DTEND", "20270101");
    icalcomponent_free(c);
    buf_free(out);
}

/* Make dues[TEST] one that failed on 2 March 2026 and would otherwise stand as
 * @besides. */
static void
fail_test(enum due_state besides)
{
    static const struct record failure = {.id = 50,
        .kind = RECORD_FAILED,
        .day = 20514, /* days from 1970-01-01 to 2026-03-02 */
        .by = "Ann",
        .reference = "J-12",
        .note = "brakes pull; left"};

    assert_int_equal(failure.day, day_of(2026, 3, 2));
    dues[TEST].state = DUE_FAILED;
    dues[TEST].besides = besides;
    dues[TEST].failed = &failure;
}

/* The title says so, the event stands on the day of the failure, and nothing
 * says that it is done. */
static void
what_failed(void **state)
{
    static const struct {
        enum due_state besides;
        const char *summary;
    } kinds[] = {
        {DUE_AHEAD, "K7 failed - Annual test"},
        {DUE_NOW, "K7 failed - Annual test"},
        {DUE_OVERDUE, "K7 failed and overdue - Annual test"},
        {DUE_BEFORE_RETURN, "K7 failed and before return - Annual test"},
        {DUE_NO_RECORD, "K7 failed and no record - Annual test"},
    };

    (void)state;
    feed.alarm = (struct span){1, STEP_WEEKS};
    for (size_t i = 0; i < sizeof kinds / sizeof *kinds; i++) {
        fail_test(kinds[i].besides);
        struct buf *out = rendered(1);
        icalcomponent *c = parsed(out);
        icalcomponent *e = event_of(c, &dues[TEST]);
        assert_string_equal(icalcomponent_get_summary(e), kinds[i].summary);
        check_value(e, "DTSTART", "20260302");
        check_value(e, "DTEND", "20260303");
        check_value(e, "STATUS", "CONFIRMED");
        assert_non_null(strstr(icalcomponent_get_description(e),
            "failed on Mon 2026-03-02 (by Ann, reference J-12): brakes pull; "
            "left\n"));
        assert_non_null(strstr(
            icalcomponent_get_description(e), "Deadline: Thu 2026-05-14\n"));
        assert_non_null(
            strstr(buf_str(out), "\r\nCATEGORIES:Failed,harbour\r\n"));
        assert_null(strstr(buf_str(out), "VALARM"));
        icalcomponent_free(c);
        buf_free(out);
    }
}

/* Nor in a list of what there is to do. */
static void
what_failed_is_still_to_do(void **state)
{
    (void)state;
    feed.form = FEED_TODOS;
    fail_test(DUE_OVERDUE);
    struct buf *out = rendered(1);
    icalcomponent *c = parsed(out);
    icalcomponent *t =
        icalcomponent_get_first_component(c, ICAL_VTODO_COMPONENT);
    assert_string_equal(
        icalcomponent_get_summary(t), "K7 failed and overdue - Annual test");
    check_value(t, "STATUS", "NEEDS-ACTION");
    check_value(t, "DUE", "20260302");
    assert_null(strstr(buf_str(out), "COMPLETED"));
    icalcomponent_free(c);
    buf_free(out);
}

static void
check_status(const char *wanted)
{
    struct buf *out = made(ical_content, &dues[SERVICE]);

    assert_non_null(strstr(buf_str(out), wanted));
    buf_free(out);
}

/* The deadline of SERVICE is the forecast's early day. */
static void
tentative_when_the_forecast_decides(void **state)
{
    static const struct task likely = {
        .subject = &bus,
        .job = &engine_service,
        .rule = &likely_rule,
    };
    struct due *d = &dues[SERVICE];

    (void)state;
    check_status("STATUS:TENTATIVE");
    d->forecast.basis = FORECAST_STATED;
    check_status("STATUS:TENTATIVE");
    d->task = &likely; /* 2026-06-30: the calendar came first */
    check_status("STATUS:CONFIRMED");
    d->deadline = day_of(2026, 6, 30);
    check_status("STATUS:TENTATIVE");
    d->forecast.basis = FORECAST_REACHED;
    check_status("STATUS:CONFIRMED");
    d->forecast.basis = FORECAST_NONE;
    check_status("STATUS:CONFIRMED");
}

/* What has no day stands on that of its stamp, 2026-03-01, and says why. */
static void
without_a_day(void **state)
{
    static const struct {
        enum due_state state;
        const char *summary;
    } kinds[] = {
        {DUE_NO_RECORD, "K7 no record - Engine oil and filter"},
        {DUE_NEEDS_READING, "K7 needs a reading - Engine oil and filter"},
        {DUE_BEFORE_RETURN, "K7 before return - Engine oil and filter"},
    };

    (void)state;
    for (size_t i = 0; i < sizeof kinds / sizeof *kinds; i++) {
        dues[NO_RECORD].state = kinds[i].state;
        struct buf *out = rendered(N);
        icalcomponent *c = parsed(out);
        icalcomponent *e = event_of(c, &dues[NO_RECORD]);
        assert_string_equal(icalcomponent_get_summary(e), kinds[i].summary);
        check_value(e, "DTSTART", "20260301");
        check_value(e, "DTEND", "20260302");
        assert_non_null(
            strstr(buf_str(out), "\r\nCATEGORIES:Undated,harbour\r\n"));
        int says_overdue = strstr(icalcomponent_get_description(e),
                               "treat it as overdue") != NULL;
        assert_int_equal(says_overdue, kinds[i].state == DUE_NO_RECORD);
        icalcomponent_free(c);
        buf_free(out);
    }
}

/* Some readers know an event by its summary and day alone. */
static void
jobs_of_one_title_are_told_apart(void **state)
{
    struct job job = annual_test;
    struct task task = test_of_bus;

    (void)state;
    job.title_shared = 1;
    task.job = &job;
    dues[TEST].task = &task;
    struct buf *out = rendered(1);
    icalcomponent *c = parsed(out);
    assert_string_equal(icalcomponent_get_summary(event_of(c, &dues[TEST])),
        "K7 - Annual test (annual-test)");
    icalcomponent_free(c);
    buf_free(out);
}

static void
what_was_done(void **state)
{
    const struct proof in_time = {.task = &test_of_bus,
        .deadline = day_of(2026, 5, 14),
        .done = day_of(2026, 5, 14)};
    const struct proof late = {.task = &test_of_bus,
        .deadline = day_of(2025, 5, 14),
        .done = day_of(2025, 5, 15)};
    const struct ical_item items[] = {
        {.kind = ICAL_DONE, .proof = &in_time},
        {.kind = ICAL_DONE, .proof = &late},
    };
    struct buf *out = rendered_items(items, 2);
    icalcomponent *c = parsed(out);
    icalcomponent *e =
        icalcomponent_get_first_component(c, ICAL_VEVENT_COMPONENT);

    (void)state;
    assert_string_equal(icalcomponent_get_summary(e), "K7 done - Annual test");
    assert_string_equal(icalcomponent_get_description(e),
        "Done: Thu 2026-05-14\n"
        "Deadline: Thu 2026-05-14\n"
        "Class: law, the national vehicle testing authority\n" CAUTION_TEXT);
    check_value(e, "DTSTART", "20260514");
    check_value(e, "STATUS", "CONFIRMED");
    e = icalcomponent_get_next_component(c, ICAL_VEVENT_COMPONENT);
    assert_non_null(strstr(icalcomponent_get_description(e), "\nLate\n"));
    assert_non_null(strstr(buf_str(out), "\r\nCATEGORIES:Done,harbour\r\n"));
    icalcomponent_free(c);
    buf_free(out);
}

static void
where_a_feed_ends(void **state)
{
    const struct ical_item end = {
        .kind = ICAL_END, .day = day_of(2026, 12, 31)};
    struct buf *out = rendered_items(&end, 1);
    icalcomponent *c = parsed(out);
    icalcomponent *e =
        icalcomponent_get_first_component(c, ICAL_VEVENT_COMPONENT);

    (void)state;
    assert_string_equal(
        icalcomponent_get_summary(e), "This calendar ends here: it is full");
    check_value(e, "DTSTART", "20261231");
    check_value(e, "DTEND", "20270101");
    icalcomponent_free(c);
    buf_free(out);
}

static void
a_page_to_look_at(void **state)
{
    (void)state;
    feed.url = "https://dues.skerrow.example/page?a=1,2;b#c";
    struct buf *out = rendered(1);
    icalcomponent *c = parsed(out);
    check_value(event_of(c, &dues[TEST]), "URL", feed.url);
    icalcomponent_free(c);
    buf_free(out);
}

/*
 * All-day events begin at midnight, so nine in the morning a week before is 6
 * days and 15 hours before.  The plan day is 12 May; a month before is 12
 * April, 30 days.
 */
static void
alarms(void **state)
{
    static const struct {
        struct span alarm;
        const char *trigger;
    } cases[] = {
        {{1, STEP_WEEKS}, "-P6DT15H"},
        {{0, STEP_DAYS}, "PT9H"},
        {{1, STEP_DAYS}, "-PT15H"},
        {{1, STEP_MONTHS}, "-P29DT15H"},
    };

    (void)state;
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        feed.alarm = cases[i].alarm;
        struct buf *out = rendered(N);
        icalcomponent *c = parsed(out);
        icalcomponent *a = icalcomponent_get_first_component(
            event_of(c, &dues[TEST]), ICAL_VALARM_COMPONENT);
        assert_non_null(a);
        check_value(a, "ACTION", "DISPLAY");
        check_value(a, "DESCRIPTION", "K7 - Annual test");
        check_value(a, "TRIGGER", cases[i].trigger);
        /* What is overdue, and what has no day, does not ring. */
        assert_int_equal(
            icalcomponent_count_components(
                event_of(c, &dues[EXTINGUISHER]), ICAL_VALARM_COMPONENT),
            0);
        assert_int_equal(
            icalcomponent_count_components(
                event_of(c, &dues[NO_RECORD]), ICAL_VALARM_COMPONENT),
            0);
        icalcomponent_free(c);
        buf_free(out);
    }
}

/* RFC 5545, 3.6.2 and 3.8.1.11, 3.8.2.1, 3.8.2.3. */
static void
to_dos(void **state)
{
    const struct proof done = {.task = &test_of_bus,
        .deadline = day_of(2026, 5, 14),
        .done = day_of(2026, 3, 2)};
    const struct ical_item items[] = {
        {.kind = ICAL_DUE, .due = &dues[TEST]},
        {.kind = ICAL_DONE, .proof = &done},
        {.kind = ICAL_DUE, .due = &dues[NO_RECORD]},
        {.kind = ICAL_NOTHING},
    };
    char event[ICAL_UID_TEXT], todo[ICAL_UID_TEXT];

    (void)state;
    due_uid(&dues[TEST], event);
    feed.form = FEED_TODOS;
    feed.alarm = (struct span){1, STEP_WEEKS};
    due_uid(&dues[TEST], todo);
    assert_string_not_equal(event, todo);
    struct buf *out = rendered_items(items, 4);
    icalcomponent *c = parsed(out);
    icalcomponent *t =
        icalcomponent_get_first_component(c, ICAL_VTODO_COMPONENT);
    check_value(t, "UID", todo);
    check_value(t, "DUE", "20260512");
    check_value(t, "STATUS", "NEEDS-ACTION");
    assert_string_equal(icalcomponent_get_summary(t), "K7 - Annual test");
    /* Without a DTSTART an alarm can only go by the end (3.8.6.3). */
    assert_non_null(
        strstr(buf_str(out), "\r\nTRIGGER;RELATED=END:-P6DT15H\r\n"));
    t = icalcomponent_get_next_component(c, ICAL_VTODO_COMPONENT);
    check_value(t, "STATUS", "COMPLETED");
    check_value(t, "COMPLETED", "20260302T120000Z");
    check_value(t, "PERCENT-COMPLETE", "100");
    t = icalcomponent_get_next_component(c, ICAL_VTODO_COMPONENT);
    check_value(t, "STATUS", "NEEDS-ACTION");
    assert_int_equal(icalcomponent_count_properties(t, ICAL_DUE_PROPERTY), 0);
    t = icalcomponent_get_next_component(c, ICAL_VTODO_COMPONENT);
    check_value(t, "STATUS", "COMPLETED");
    assert_null(strstr(buf_str(out), "TRANSP"));
    assert_null(strstr(buf_str(out), "DTSTART"));
    icalcomponent_free(c);
    buf_free(out);
}

/* Whatever changes the content changes the outline, and what does not, not. */
static void
the_outline_tells_of_every_change(void **state)
{
    struct job job = annual_test;
    struct task task = test_of_bus;
    struct due *d = &dues[TEST];
    const struct due before = dues[TEST];

    (void)state;
#define CHANGED(change)                                                        \
    do {                                                                       \
        *d = before;                                                           \
        struct buf *content = made(ical_content, d);                           \
        struct buf *outline = made(ical_outline, d);                           \
        change;                                                                \
        struct buf *new_content = made(ical_content, d);                       \
        struct buf *new_outline = made(ical_outline, d);                       \
        assert_string_not_equal(buf_str(content), buf_str(new_content));       \
        assert_false(buf_len(outline) == buf_len(new_outline) &&               \
                     memcmp(buf_str(outline), buf_str(new_outline),            \
                         buf_len(outline)) == 0);                              \
        buf_free(content);                                                     \
        buf_free(outline);                                                     \
        buf_free(new_content);                                                 \
        buf_free(new_outline);                                                 \
    } while (0)
    CHANGED(d->deadline++);
    CHANGED(d->plan_day--);
    CHANGED(d->book_by = DAY_NONE);
    CHANGED(d->last_done++);
    CHANGED(d->n_reasons--);
    CHANGED(d->state = DUE_OVERDUE);
    CHANGED(d->cycle.record++);
    CHANGED(d->cycle.ahead++);
    CHANGED(d->task = &service_of_bus);
    CHANGED(
        (d->forecast.basis = FORECAST_STATED, d->forecast.early = d->deadline));
    task.job = &job;
    job.caution = "Chock the wheels";
    CHANGED(d->task = &task);
#undef CHANGED
    *d = before;
    struct buf *outline = made(ical_outline, d);
    d->warnings = WARN_PLAN_PASSED;
    d->state = DUE_NOW;
    struct buf *same = made(ical_outline, d);
    assert_int_equal(buf_len(outline), buf_len(same));
    assert_memory_equal(buf_str(outline), buf_str(same), buf_len(same));
    buf_free(same);
    buf_free(outline);
}

/* From the published bytes comes back what went into them. */
static void
what_was_published_reads_back(void **state)
{
    struct buf *out = rendered(N);
    struct buf *content = buf_new();
    struct ical_back back = {buf_str(out), buf_str(out) + buf_len(out)};
    struct ical_seen seen;
    char uid[ICAL_UID_TEXT];

    (void)state;
    for (size_t i = 0; i < N; i++) {
        assert_int_equal(ical_back_next(&back, FEED_EVENTS, &seen, content), 1);
        due_uid(&dues[i], uid);
        assert_string_equal(seen.uid, uid);
        assert_int_equal(seen.stamp.sequence, i);
        assert_int_equal(seen.stamp.modified, 1772338620);
        assert_true(seen.is_due);
        struct buf *wanted = made(ical_content, &dues[i]);
        assert_string_equal(buf_str(content), buf_str(wanted));
        buf_free(wanted);
    }
    assert_int_equal(ical_back_next(&back, FEED_EVENTS, &seen, content), 0);
    buf_free(out);

    /* The event of an empty feed is none of a due.  Rubbish is passed over. */
    out = rendered(0);
    back = (struct ical_back){buf_str(out), buf_str(out) + buf_len(out)};
    assert_int_equal(ical_back_next(&back, FEED_EVENTS, &seen, content), 1);
    assert_false(seen.is_due);
    assert_null(strstr(buf_str(content), "DTSTART"));
    static const char rubbish[] = "BEGIN:VEVENT\r\nUID:x\r\nEND:VEVENT\r\n"
                                  "BEGIN:VEVENT\r\nUID:";
    back = (struct ical_back){rubbish, rubbish + sizeof rubbish - 1};
    assert_int_equal(ical_back_next(&back, FEED_EVENTS, &seen, content), 0);
    buf_free(content);
    buf_free(out);
}

static void
hostile_texts_stay_texts(void **state)
{
    struct buf *out = rendered(N);
    icalcomponent *c = parsed(out);
    icalcomponent *e = event_of(c, &dues[FORGED]);

    (void)state;
    assert_string_equal(icalcomponent_get_summary(e),
        "T9 END:VEVENT BEGIN:VEVENT - Lift, ramp; \"belt\" \\ "
        "\xf0\x9f\x9a\x8c END:VEVENT BEGIN:VEVENT SUMMARY:forged "
        "\xef\xbf\xbd");
    assert_string_equal(icalcomponent_get_description(e),
        "Deadline: Tue 2028-02-29\n"
        "Class: own, us ATTENDEE:mailto:x@y.example\n"
        "Last done: not on record\n"
        "because END:VEVENT BEGIN:VEVENT, said; \\ he\n" CAUTION_TEXT);
    check_value(e, "DTEND", "20280301");
    assert_int_equal(
        icalcomponent_count_properties(e, ICAL_ATTENDEE_PROPERTY), 0);
    assert_non_null(strstr(buf_str(out), "\r\nCATEGORIES:Due,a b c d\r\n"));
    icalcomponent_free(c);
    buf_free(out);
}

/* A backslash before an "n" is no line feed.  (The sample has none of these:
 * Python's icalendar 4 takes it for one.) */
static void
a_backslash_is_a_backslash(void **state)
{
    struct job job = annual_test;
    struct task task = test_of_bus;

    (void)state;
    job.title = "C:\\new\\;\\\\,";
    task.job = &job;
    dues[TEST].task = &task;
    struct buf *out = rendered(1);
    icalcomponent *c = parsed(out);
    assert_non_null(strstr(
        buf_str(out), "\r\nSUMMARY:K7 - C:\\\\new\\\\\\;\\\\\\\\\\,\r\n"));
    assert_string_equal(icalcomponent_get_summary(event_of(c, &dues[TEST])),
        "K7 - C:\\new\\;\\\\,");
    icalcomponent_free(c);
    buf_free(out);
}

static void
empty_feed(void **state)
{
    struct buf *out = rendered(0);
    icalcomponent *c = parsed(out);
    icalcomponent *e =
        icalcomponent_get_first_component(c, ICAL_VEVENT_COMPONENT);
    char uid[ICAL_UID_TEXT], other[ICAL_UID_TEXT];

    (void)state;
    uid_of(&(struct ical_item){.kind = ICAL_NOTHING}, uid);
    feed.id = "hill";
    uid_of(&(struct ical_item){.kind = ICAL_NOTHING}, other);
    assert_string_not_equal(uid, other);
    assert_string_equal(icalcomponent_get_uid(e), uid);
    assert_string_equal(
        icalcomponent_get_summary(e), "Nothing due in this window");
    check_value(e, "DTSTART", "20260301");
    check_value(e, "DTEND", "20260302");
    check_value(e, "SEQUENCE", "7");
    check_value(e, "TRANSP", "TRANSPARENT");
    icalcomponent_free(c);
    buf_free(out);
}

/* The content is the event without its three stamps, and nothing else. */
static void
content_is_the_event_without_its_stamps(void **state)
{
    struct buf *whole = rendered(1);
    struct buf *content = made(ical_content, &dues[TEST]);
    struct buf *wanted = buf_new();
    static const char lines[] = "DTSTAMP:20260301T041700Z\r\n"
                                "LAST-MODIFIED:20260301T041700Z\r\n"
                                "SEQUENCE:0\r\n";

    (void)state;
    const char *begin = strstr(buf_str(whole), "BEGIN:VEVENT");
    const char *cut = strstr(buf_str(whole), lines);
    const char *end = strstr(buf_str(whole), "END:VCALENDAR");
    assert_non_null(cut);
    buf_add(wanted, begin, (size_t)(cut - begin));
    cut += sizeof lines - 1;
    buf_add(wanted, cut, (size_t)(end - cut));
    assert_string_equal(buf_str(content), buf_str(wanted));

    buf_free(content);
    content = made(ical_content, &dues[NO_RECORD]);
    assert_null(strstr(buf_str(content), "DTSTAMP"));
    assert_null(strstr(buf_str(content), "DTSTART"));
    buf_free(wanted);
    buf_free(content);
    buf_free(whole);
}

/* RFC 9562, A.4: the name "www.example.com" in the namespace for DNS. */
static void
uuid_version_5(void **state)
{
    static const char name[] = "www.example.com";
    uuid_t dns, u;
    char text[ICAL_UID_TEXT];

    (void)state;
    uuid_parse("6ba7b810-9dad-11d1-80b4-00c04fd430c8", dns);
    uuid_generate_sha1(u, dns, name, strlen(name));
    uuid_unparse_lower(u, text);
    assert_string_equal(text, "2ed6657d-e927-568b-95e1-2665a8aea6a2");
}

/*
 * Expected from uuid.uuid5() of Python 3, from the outside in:
 *   u = UUID("467171cb-f208-40ce-86dd-51a539e4c4ec")
 *   for name in ("due", SITE, "K7", "annual-test", "r42"): u = uuid5(u, name)
 * and of ("empty feed", SITE, "harbour").
 */
static void
uids(void **state)
{
    char uid[ICAL_UID_TEXT];

    (void)state;
    due_uid(&dues[TEST], uid);
    assert_string_equal(uid, "534025b3-d4fa-5124-be19-ed11ad6f5692");
    uid_of(&(struct ical_item){.kind = ICAL_NOTHING}, uid);
    assert_string_equal(uid, "7fd2c2e0-fcea-5af7-8104-4bc5d2f2d334");
}

static void
a_uid_stays_when_the_day_moves(void **state)
{
    char uid[ICAL_UID_TEXT], other[ICAL_UID_TEXT];
    struct due moved = dues[TEST];

    (void)state;
    due_uid(&dues[TEST], uid);
    moved.plan_day -= 5;
    moved.deadline += 3;
    moved.state = DUE_OVERDUE;
    due_uid(&moved, other);
    assert_string_equal(uid, other);
    moved.cycle.record = 43;
    due_uid(&moved, other);
    assert_string_not_equal(uid, other);
}

/* No length of text, nor a blank or a colon in it, breaks a line. */
static void
titles_of_every_length(void **state)
{
    static const char *const words[] = {
        "x", "\xe8\xbd\xa6", "\xf0\x9f\x9a\x8c", "a: b\xc3\xa9"};
    struct job job = annual_test;
    struct task task = test_of_bus;
    char title[420];

    (void)state;
    task.job = &job;
    job.title = title;
    dues[TEST].task = &task;
    for (size_t w = 0; w < sizeof words / sizeof *words; w++)
        for (size_t n = 1; n * strlen(words[w]) <= 400; n++) {
            title[0] = '\0';
            for (size_t i = 0; i < n; i++)
                strcat(title, words[w]);
            struct buf *out = rendered(1);
            icalcomponent *c = parsed(out);
            icalcomponent *e = event_of(c, &dues[TEST]);
            assert_string_equal(icalcomponent_get_summary(e) + 5, title);
            icalcomponent_free(c);
            buf_free(out);
        }
}

/* A file to go with a message has no name, and nobody asks for it again. */
static void
a_file_without_a_name(void **state)
{
    (void)state;
    feed.title = NULL;
    struct buf *out = rendered(2);

    assert_null(strstr(buf_str(out), "NAME"));
    assert_null(strstr(buf_str(out), "REFRESH-INTERVAL"));
    assert_null(strstr(buf_str(out), "X-PUBLISHED-TTL"));
    assert_non_null(strstr(buf_str(out), "BEGIN:VEVENT"));
    buf_free(out);
}

/* Give @text to the check as a feed of @n events; it must refuse. */
static void
refused(const char *text, size_t n, const char *why)
{
    struct fault f = {0};

    assert_int_equal(ical_check(text, strlen(text), &feed, n, &f), -1);
    assert_int_equal(f.code, EX_SOFTWARE);
    if (strstr(f.text, why) == NULL)
        fail_msg("'%s' does not hold '%s'", f.text, why);
}

/* The rendered feed with the first @old replaced by @new. */
static void
refused_with(const char *old, const char *new, const char *why)
{
    struct buf *out = rendered(2);
    struct buf *changed = buf_new();
    const char *at = strstr(buf_str(out), old);

    assert_non_null(at);
    buf_add(changed, buf_str(out), (size_t)(at - buf_str(out)));
    buf_text(changed, new);
    buf_text(changed, at + strlen(old));
    refused(buf_str(changed), 2, why);
    buf_free(changed);
    buf_free(out);
}

static void
the_check_refuses(void **state)
{
    char uid[ICAL_UID_TEXT], other[ICAL_UID_TEXT];
    struct fault f = {0};
    struct buf *out = rendered(2);

    (void)state;
    refused(buf_str(out), 1, "2 events and not 1");
    refused(buf_str(out), 3, "2 events and not 3");
    assert_int_equal(ical_check("", 0, &feed, 1, &f), -1);
    assert_int_equal(
        ical_check(buf_str(out), buf_len(out) + 1, &feed, 2, &f), -1);
    feed.form = FEED_TODOS;
    assert_int_equal(ical_check(buf_str(out), buf_len(out), &feed, 2, &f), -1);
    feed.form = FEED_EVENTS;
    buf_free(out);
    refused("Not found\r\n", 0, "one calendar");
    refused(
        "BEGIN:VCALENDAR\r\nVERSION:2.0\r\nEND:VCALENDAR\r\n", 0, "too few");

    refused_with("END:VCALENDAR\r\n", "END:VCALENDAR\n", "CRLF");
    refused_with("END:VCALENDAR\r\n", "END:VCALENDAR", "CRLF");
    refused_with("K7 -", "K7 \r", "UTF-8");
    refused_with("K7 -", "K7 \xff", "UTF-8");
    refused_with("K7 - Annual test",
        "01234567890123456789012345678901234567890123456789012345678901234567",
        "75 octets");
    refused_with("DTSTART;VALUE=DATE:20260512", "DTSTART;VALUE=DATE:20260513",
        "one day long");
    refused_with("SEQUENCE:0\r\n", "", "property");
    refused_with("TRANSP:TRANSPARENT\r\n", "", "property");
    refused_with("CALSCALE:GREGORIAN\r\n", "", "property");
    refused_with("SUMMARY:", "SUMMARY:x\r\nSUMMARY:", "property");
    refused_with("STATUS:CONFIRMED", "STAT:US\r\n, broken", "read");
    due_uid(&dues[TEST], uid);
    due_uid(&dues[SERVICE], other);
    refused_with(uid, other, "two events");
}

/* Write the feed of all dues, and an empty one, into @folder, for the readers
 * in tests/reference. */
static int
write_samples(const char *folder)
{
    char path[4096];
    static const size_t counts[] = {N, 0};
    static const char *const names[] = {"sample.ics", "empty.ics"};

    set_up(NULL);
    for (size_t i = 0; i < 2; i++) {
        snprintf(path, sizeof path, "%s/%s", folder, names[i]);
        FILE *file = fopen(path, "wb");
        if (file == NULL)
            return 1;
        struct buf *out = rendered(counts[i]);
        fwrite(buf_str(out), 1, buf_len(out), file);
        buf_free(out);
        if (fclose(file))
            return 1;
    }
    return 0;
}

int
main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup(calendar_properties, set_up),
        cmocka_unit_test_setup(an_event, set_up),
        cmocka_unit_test_setup(overdue_and_forecast, set_up),
        cmocka_unit_test_setup(what_failed, set_up),
        cmocka_unit_test_setup(what_failed_is_still_to_do, set_up),
        cmocka_unit_test_setup(tentative_when_the_forecast_decides, set_up),
        cmocka_unit_test_setup(without_a_day, set_up),
        cmocka_unit_test_setup(jobs_of_one_title_are_told_apart, set_up),
        cmocka_unit_test_setup(what_was_done, set_up),
        cmocka_unit_test_setup(where_a_feed_ends, set_up),
        cmocka_unit_test_setup(a_page_to_look_at, set_up),
        cmocka_unit_test_setup(alarms, set_up),
        cmocka_unit_test_setup(to_dos, set_up),
        cmocka_unit_test_setup(the_outline_tells_of_every_change, set_up),
        cmocka_unit_test_setup(what_was_published_reads_back, set_up),
        cmocka_unit_test_setup(hostile_texts_stay_texts, set_up),
        cmocka_unit_test_setup(a_backslash_is_a_backslash, set_up),
        cmocka_unit_test_setup(empty_feed, set_up),
        cmocka_unit_test_setup(content_is_the_event_without_its_stamps, set_up),
        cmocka_unit_test_setup(uuid_version_5, set_up),
        cmocka_unit_test_setup(uids, set_up),
        cmocka_unit_test_setup(a_uid_stays_when_the_day_moves, set_up),
        cmocka_unit_test_setup(titles_of_every_length, set_up),
        cmocka_unit_test_setup(a_file_without_a_name, set_up),
        cmocka_unit_test_setup(the_check_refuses, set_up),
    };

    if (argc == 2)
        return write_samples(argv[1]);
    return cmocka_run_group_tests(tests, NULL, NULL);
}
