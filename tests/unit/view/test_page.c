/* The workshop page: what stands where, and by which mark. */
#include <stdio.h>

#include "buf.h"
#include "condition.h"
#include "fixture.h"
#include "page.h"
#include "test.h"

#define TODAY "2026-12-02" /* a Wednesday, of week 49 */

/* Done that day and due ten days on. */
static struct job *
job_done(struct world *w, const char *id, const char *day)
{
    struct job *j = world_job(w, id, "10 days");

    world_done(w, j, day);
    return j;
}

static void
add_token(const struct page_recorder *recorder, const struct due *d,
    char out[PAGE_TOKEN])
{
    (void)recorder;
    (void)d;
    snprintf(out, PAGE_TOKEN, "cafe");
}

/* The page of @w; freed by the caller. */
static struct buf *
page_of(struct world *w, const char *notice, int has_forms)
{
    static const struct page_recorder recorder = {"S. \"Eider\"", 7, add_token};
    const struct filter filter = {.projected = 1, .from = date(TODAY)};
    struct buf *out = buf_new();
    struct selection dues;

    world_snapshot_to(w, date(TODAY), page_until(date(TODAY)));
    w->fleet.site.name = "Skerrow Isles";
    w->depot.title = "Harbour";
    assert_int_equal(select_dues(w->snapshot, &filter, &dues), 0);
    struct defects *ds = defects_new(&w->fleet);
    struct conditions *c =
        conditions_new(w->snapshot, ds, w->records, w->n_records);
    assert_non_null(c);
    const struct page page = {.dues = &dues,
        .filter = &filter,
        .conditions = c,
        .facts = &w->facts,
        .drawn = "Wed 2026-12-02 04:17",
        .notice = notice,
        .recorder = has_forms ? &recorder : NULL};
    assert_non_null(out);
    assert_int_equal(page_html(&page, out), 0);
    free(dues.dues);
    conditions_free(c);
    defects_free(ds);
    return out;
}

/* The part of the page from the heading with @id up to the next one, or the
 * end; in a buffer of its own that the next call overwrites. */
static const char *
part(const struct buf *page, const char *id)
{
    static char text[20000];
    char mark[40];

    snprintf(mark, sizeof mark, "<h2 id=\"%s\">", id);
    const char *from = strstr(buf_str(page), mark);
    if (from == NULL)
        return "";
    const char *to = strstr(from, "</section>");
    assert_non_null(to);
    snprintf(text, sizeof text, "%.*s", (int)(to - from), from);
    return text;
}

static int
has(const struct buf *page, const char *id, const char *text)
{
    return strstr(part(page, id), text) != NULL;
}

/* Ten days from 21 November are 1 December; from the 20th, 30 November. */
static void
what_is_overdue(void **state)
{
    struct world *w = *state;
    struct job *law = job_done(w, "Brakes", "2026-11-21");

    law->class = CLASS_LAW;
    law->overdue = OVERDUE_STOPS;
    job_done(w, "Wash", "2026-11-20");
    struct buf *page = page_of(w, NULL, 0);
    assert_true(has(page, "stop", "Brakes"));
    assert_true(has(page, "stop", "deadline was Tue 1 Dec"));
    assert_true(has(page, "stop", "Lifted by a record that it was done"));
    assert_true(has(page, "stop",
        "<strong class=\"cond not-to-be-driven\">not to be driven</strong>"));
    assert_false(has(page, "stop", "Wash"));
    assert_true(has(page, "late", "Also overdue"));
    assert_true(has(page, "late", "Wash"));
    assert_false(has(page, "late", "Brakes"));
    /* Both stand in one cell, by day, under the mark of the graver. */
    assert_true(has(page, "year",
        "<svg class=\"m L over\" role=\"img\">"
        "<title>Wash (own), Overdue; Brakes (law), Overdue</title>"));
    buf_free(page);
}

/* The deadlines are the 6th and the 13th, Sundays: the Fridays before are the
 * 4th and the 11th.  The one after next is planned ten days from then, on
 * Monday the 14th, which is no longer next week. */
static void
two_weeks(void **state)
{
    struct world *w = *state;

    job_done(w, "Soon", "2026-11-26");
    world_every(w, &job_done(w, "Later", "2026-12-02")->rule, "11 days");
    struct buf *page = page_of(w, NULL, 0);
    assert_true(has(page, "this", "<time datetime=\"2026-12-04\">Fri 4 Dec"));
    assert_true(has(page, "this", "Soon"));
    assert_true(has(page, "this", "no later than Sun 6 Dec"));
    assert_true(has(page, "this", "week 49"));
    assert_false(has(page, "this", "Later"));
    assert_true(has(page, "next", "<time datetime=\"2026-12-11\">Fri 11 Dec"));
    assert_true(has(page, "next", "Later"));
    assert_false(has(page, "next", "Soon"));
    assert_true(has(page, "next", "week 50"));
    buf_free(page);
}

/* A plan day that has passed is not lost: Tuesday 1 December for a deadline on
 * the Wednesday, which is closed. */
static void
a_day_that_has_passed(void **state)
{
    struct world *w = *state;

    world_calendar(w, &(struct work_calendar_plan){.works = WEEKDAYS & ~4u});
    job_done(w, "Wash", "2026-11-22");
    struct buf *page = page_of(w, NULL, 0);
    assert_true(has(page, "this", "<time datetime=\"2026-12-01\">Tue 1 Dec"));
    assert_true(has(page, "this", "its day has passed"));
    assert_true(has(page, "this", "Wash"));
    buf_free(page);
}

static void
off_the_road(void **state)
{
    struct world *w = *state;

    job_done(w, "Wash", "2026-11-20");
    world_off_road(w, "2026-11-23", "-")->note = "an <axle>";
    struct buf *page = page_of(w, NULL, 0);
    assert_true(has(page, "stop",
        "Off the road since Mon 23 Nov 2026, no return on record: "
        "<bdi>an &lt;axle&gt;</bdi>"));
    assert_true(has(page, "stop", "Before it returns:"));
    assert_true(has(page, "stop", "Wash"));
    assert_false(has(page, "late", "Wash"));
    assert_true(has(page, "year", "off the road today"));
    buf_free(page);
}

static void
nothing_known(void **state)
{
    struct world *w = *state;

    world_job(w, "Wash", "10 days");
    struct buf *page = page_of(w, NULL, 0);
    assert_true(has(page, "open", "Wash"));
    assert_true(has(page, "open", "no record of it"));
    assert_true(has(page, "stop", "Nothing on record keeps"));
    assert_true(has(page, "late", "Nothing."));
    assert_non_null(strstr(buf_str(page), "<a href=\"#open\">"));
    buf_free(page);
}

/* Due on 31 December, four weeks on. */
static void
what_failed_comes_before_dates(void **state)
{
    struct world *w = *state;
    struct job *brakes = job_done(w, "Brakes", "2026-12-01");

    world_every(w, &brakes->rule, "30 days");
    struct record *failure = world_done(w, brakes, "2026-12-02");
    failure->kind = RECORD_FAILED;
    failure->by = "Ann";
    failure->reference = "J-12";
    failure->note = "pulls <left>";
    struct buf *page = page_of(w, NULL, 0);
    assert_true(has(page, "failed", "Brakes"));
    assert_true(has(page, "failed",
        "failed on Wed 2026-12-02 (by Ann, reference J-12): pulls "
        "&lt;left&gt;"));
    assert_true(has(page, "failed", "deadline is Thu 31 Dec"));
    assert_false(has(page, "this", "Brakes"));
    assert_true(has(page, "year", "Brakes (own), Failed"));
    assert_true(strstr(buf_str(page), "<section class=\"stop\"") <
                strstr(buf_str(page), "<section class=\"failed\""));
    assert_false(has(page, "stop", "Brakes"));
    assert_non_null(strstr(buf_str(page), "<a href=\"#failed\">"));
    assert_null(strstr(buf_str(page), "Nothing on record keeps"));
    buf_free(page);
}

/* Due on 1 December: by law it is not for use, failed or not. */
static void
failed_and_overdue(void **state)
{
    struct world *w = *state;
    struct job *brakes = job_done(w, "Brakes", "2026-11-01");

    brakes->class = CLASS_LAW;
    brakes->overdue = OVERDUE_STOPS;
    brakes->failure = FAILURE_STOPS;
    world_every(w, &brakes->rule, "30 days");
    world_done(w, brakes, "2026-12-02")->kind = RECORD_FAILED;
    struct buf *page = page_of(w, NULL, 0);
    assert_true(has(page, "stop", "it is overdue as well"));
    assert_true(has(
        page, "stop", "Lifted by a pass, or somebody who may release it"));
    assert_string_equal(part(page, "failed"), "");
    assert_false(has(page, "late", "Brakes"));
    buf_free(page);
}

/* Week 49 of 2026 and 52 more: the last one ends on Sunday 5 December 2027. */
static void
a_year(void **state)
{
    (void)state;
    assert_day(page_until(date("2026-11-30")), "2027-12-05");
    assert_day(page_until(date("2026-12-06")), "2027-12-05");
}

/* A page that is read has no form; one to write on has the person's. */
static void
forms(void **state)
{
    struct world *w = *state;
    struct buf *page;

    job_done(w, "Wash", "2026-11-26");
    page = page_of(w, "The <pass> is old", 0);
    assert_null(strstr(buf_str(page), "<form"));
    assert_non_null(strstr(buf_str(page), "The &lt;pass&gt; is old"));
    buf_free(page);
    page = page_of(w, NULL, 1);
    assert_true(has(page, "this", "<form method=\"post\">"));
    assert_true(has(page, "this", "name=\"cycle\" value=\"r1\""));
    assert_true(has(page, "this", "name=\"token\" value=\"cafe\""));
    assert_true(has(page, "this", "name=\"made\" value=\"7\""));
    assert_true(has(page, "this", "name=\"on\" required value=\"2026-12-02\""));
    assert_false(has(page, "this", "only the reading"));
    assert_true(has(page, "this", "name=\"reading\""));
    assert_non_null(strstr(buf_str(page), "S. &quot;Eider&quot;"));
    buf_free(page);
    /* What has no meter is not asked for one. */
    w->subjects[0].kind = SUBJECT_EQUIPMENT;
    page = page_of(w, NULL, 1);
    assert_true(has(page, "this", "<form method=\"post\">"));
    assert_false(has(page, "this", "name=\"reading\""));
    buf_free(page);
}

static void
an_answer(void **state)
{
    (void)state;
    struct buf *out = buf_new();
    const struct page_answer a = {.site = "Skerrow Isles",
        .heading = "No such page",
        .text = "Perhaps the key was changed & \xe2\x80\xaeyou",
        .back = "/a?b&c"};

    assert_non_null(out);
    assert_int_equal(page_answer_html(&a, out), 0);
    assert_non_null(strstr(buf_str(out), "<h1>No such page</h1>"));
    assert_non_null(strstr(buf_str(out), "changed &amp; you</p>"));
    assert_non_null(strstr(buf_str(out), "href=\"/a?b&amp;c\""));
    assert_null(strstr(buf_str(out), "<form"));
    assert_null(strstr(buf_str(out), "<script"));
    buf_free(out);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        WORLD_TEST(what_is_overdue),
        WORLD_TEST(two_weeks),
        WORLD_TEST(a_day_that_has_passed),
        WORLD_TEST(off_the_road),
        WORLD_TEST(nothing_known),
        WORLD_TEST(what_failed_comes_before_dates),
        WORLD_TEST(failed_and_overdue),
        cmocka_unit_test(a_year),
        WORLD_TEST(forms),
        cmocka_unit_test(an_answer),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
