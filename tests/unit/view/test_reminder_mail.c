/* What a message says: its subject, its text and its page. */
#include "buf.h"
#include "fixture.h"
#include "reminder_mail.h"
#include "test.h"

#define TODAY "2026-11-30" /* a Monday */
#define CAUTION                                                                \
    "The certificate, the maker's schedule and the local authority decide. "   \
    "Work on brakes, wheels, lifts, extinguishers and tachographs is for "     \
    "people qualified for it.\n"

/* Done that day and due ten days on. */
static struct job *
job_done(struct world *w, const char *id, const char *title, const char *day)
{
    struct job *j = world_job(w, id, "10 days");

    j->title = title;
    world_done(w, j, day);
    return j;
}

/* A letter of every due of @w, in its order; @items has room for them. */
static struct reminder_mail
reminder_of(struct world *w, struct reminder_item *items)
{
    size_t n;
    world_due(w, &w->jobs[0], TODAY);
    const struct due *dues = snapshot_dues(w->snapshot, &n);

    for (size_t i = 0; i < n; i++)
        items[i] = (struct reminder_item){&dues[i], DAY_NONE};
    return (struct reminder_mail){.site = "Skerrow Isles",
        .today = date(TODAY),
        .items = items,
        .n = n,
        .outlook = DAY_NONE};
}

static void
assert_made(const struct reminder_mail *l,
    int (*make)(const struct reminder_mail *, struct buf *), const char *wanted)
{
    struct buf *out = buf_new();

    assert_non_null(out);
    assert_int_equal(make(l, out), 0);
    assert_string_equal(buf_str(out), wanted);
    buf_free(out);
}

static void
assert_subject(struct world *w, const char *wanted)
{
    struct reminder_item items[WORLD_TASKS];
    struct reminder_mail l = reminder_of(w, items);

    assert_made(&l, reminder_subject, wanted);
}

/* The example of the task that this is written for. */
static void
the_worst_comes_first(void **state)
{
    struct world *w = *state;

    job_done(w, "a", "Wash", "2026-11-24");
    job_done(w, "b", "Polish", "2026-11-25");
    job_done(w, "c", "Sweep", "2026-11-15");
    struct job *test = job_done(w, "d", "Annual test", "2026-11-13");
    job_done(w, "e", "Wax", "2026-11-10");
    test->class = CLASS_LAW;
    assert_subject(w, "K7 Annual test overdue since Mon 23 Nov, 4 more");
}

/* Nothing known of a law job is worse than an own one overdue, and the other
 * way round; of the same class, what has no record is the worse. */
static void
the_class_decides(void **state)
{
    struct world *w = *state;
    struct job *late = job_done(w, "a", "Wash", "2026-11-13");
    struct job *never = world_job(w, "b", "10 days");

    never->title = "Lift";
    assert_subject(w, "K7 Lift has no record, 1 more");
    late->class = CLASS_LAW;
    assert_subject(w, "K7 Wash overdue since Mon 23 Nov, 1 more");
    never->class = CLASS_LAW;
    assert_subject(w, "K7 Lift has no record, 1 more");
}

/* What failed comes before all, whatever the class. */
static void
a_failure_comes_first(void **state)
{
    struct world *w = *state;
    struct job *late = job_done(w, "a", "Wash", "2026-11-13");
    struct job *never = world_job(w, "b", "10 days");
    struct job *lift = job_done(w, "c", "Lift", "2026-11-27");

    never->class = late->class = CLASS_LAW;
    world_done(w, lift, "2026-11-28")->kind = RECORD_FAILED;
    assert_subject(w, "K7 Lift failed on Sat 28 Nov, 2 more");
}

static void
subjects_of_one(void **state)
{
    struct world *w = *state;
    struct job *j = job_done(w, "a", "Wash", "2026-11-25");

    assert_subject(w, "K7 Wash due by Sat 5 Dec");
    world_done(w, j, "2026-11-30");
    assert_subject(w, "K7 Wash due by Thu 10 Dec");
    /* Another year is named. */
    world_every(w, &j->rule, "40 days");
    assert_subject(w, "K7 Wash due by Sat 9 Jan 2027");
    /* The plan day is Friday, 8 January: 28 days before is 11 December, 39
     * are 30 November, 42 are Friday, 27 November. */
    j->rule.lead = (struct lead){{28, STEP_DAYS}, 0};
    assert_subject(w, "K7 Wash due by Sat 9 Jan 2027");
    j->rule.lead = (struct lead){{39, STEP_DAYS}, 0};
    assert_subject(w, "K7 Wash to be booked today");
    j->rule.lead = (struct lead){{42, STEP_DAYS}, 0};
    assert_subject(w, "K7 Wash to be booked now");
}

static void
a_deadline_that_moved(void **state)
{
    struct world *w = *state;
    struct reminder_item items[WORLD_TASKS];

    job_done(w, "a", "Wash", "2026-11-30");
    struct reminder_mail l = reminder_of(w, items);
    items[0].moved_from = date("2026-12-09");
    assert_made(&l, reminder_subject, "K7 Wash moved to Thu 10 Dec");
    assert_made(&l, reminder_text,
        "Skerrow Isles, Mon 30 Nov 2026\n\n"
        "1 coming.\n\n"
        "Coming (1)\n\n"
        "1. K7: Wash\n"
        "Deadline moved: from Wed 9 Dec 2026 to Thu 10 Dec 2026\n"
        "Deadline and plan day: Thu 10 Dec 2026 (own)\n"
        "Why: every 10 days (own), from Mon 30 Nov 2026\n"
        "When it is done: ostler record K7 a --on DAY\n\n" CAUTION);
}

/* Deadline Saturday 5 December, so the plan day is Friday. */
static void
the_text(void **state)
{
    struct world *w = *state;
    struct reminder_item items[WORLD_TASKS];

    w->subjects[0].title = "The blue one";
    job_done(w, "a", "Wash", "2026-11-25");
    struct job *test = job_done(w, "b", "Annual test", "2026-11-13");
    test->class = CLASS_LAW;
    struct reminder_mail l = reminder_of(w, items);
    assert_made(&l, reminder_text,
        "Skerrow Isles, Mon 30 Nov 2026\n\n"
        "1 overdue, 1 this week.\n\n"
        "Overdue (1)\n\n"
        "1. K7 (The blue one): Annual test\n"
        "Deadline and plan day: Mon 23 Nov 2026 (law)\n"
        "Why: every 10 days (law), from Fri 13 Nov 2026\n"
        "When it is done: ostler record K7 b --on DAY\n\n"
        "This week (1)\n\n"
        "2. K7 (The blue one): Wash\n"
        "Deadline: Sat 5 Dec 2026 (own)\n"
        "Plan day: Fri 4 Dec 2026\n"
        "Why: every 10 days (own), from Wed 25 Nov 2026\n"
        "When it is done: ostler record K7 a --on DAY\n\n" CAUTION);
}

/* Of four within a length of time it is the oldest that decides, and the reason
 * says so itself: it does not run from the newest. */
static void
a_reason_that_says_all(void **state)
{
    struct world *w = *state;
    struct reminder_item items[WORLD_TASKS];
    struct buf *out = buf_new();
    struct job *j = world_job(w, "a", "4 within 12 months");

    world_done(w, j, "2025-12-10");
    world_done(w, j, "2026-02-10");
    world_done(w, j, "2026-04-10");
    world_done(w, j, "2026-09-10");
    struct reminder_mail l = reminder_of(w, items);
    assert_int_equal(reminder_text(&l, out), 0);
    assert_non_null(
        strstr(buf_str(out), "is the 4th last and then drops out\n"));
    buf_free(out);
}

/* A first message names what was under way; an outlook lists all. */
static void
two_short_lists(void **state)
{
    struct world *w = *state;
    struct reminder_item items[WORLD_TASKS];
    const struct due *dues[WORLD_TASKS];

    job_done(w, "a", "Wash", "2026-11-30");
    struct reminder_mail l = reminder_of(w, items);
    dues[0] = items[0].due;
    l.n = 0;
    l.under_way = dues;
    l.n_under_way = 1;
    assert_made(&l, reminder_subject, "First message: 1 under way");
    assert_made(&l, reminder_text,
        "Skerrow Isles, Mon 30 Nov 2026\n\n"
        "Under way (1)\n\n"
        "This is the first message to you. What follows was under way before "
        "it, and is only named here; you hear of each again at its next "
        "reminder.\n\n"
        "- K7 Wash, deadline Thu 10 Dec 2026 (own)\n\n" CAUTION);
    l.n_under_way = 0;
    l.outlook = date("2026-12-28");
    l.coming = dues;
    l.n_coming = 1;
    assert_made(&l, reminder_subject, "Outlook: 1 due by Mon 28 Dec");
    assert_made(&l, reminder_text,
        "Skerrow Isles, Mon 30 Nov 2026\n\n"
        "Outlook (1)\n\n"
        "All that is due by Mon 28 Dec 2026, and what waits for a record, a "
        "reading or a return:\n\n"
        "- K7 Wash, deadline Thu 10 Dec 2026 (own)\n\n" CAUTION);
    l.n_coming = 0;
    assert_made(&l, reminder_subject, "Outlook: nothing due by Mon 28 Dec");
    assert_made(&l, reminder_text,
        "Skerrow Isles, Mon 30 Nov 2026\n\n"
        "Outlook (0)\n\n"
        "Nothing of yours is due by Mon 28 Dec 2026.\n\n" CAUTION);
    /* What is told in full is not listed once more. */
    l.n = 1;
    struct buf *out = buf_new();
    assert_int_equal(reminder_text(&l, out), 0);
    assert_non_null(
        strstr(buf_str(out), "Nothing else of yours is due by Mon 28 Dec"));
    l.n_coming = 1;
    buf_clear(out);
    assert_int_equal(reminder_text(&l, out), 0);
    assert_non_null(strstr(buf_str(out),
        "Besides what stands above, all that is due by Mon 28 Dec 2026, and "));
    buf_free(out);
}

/* What has another plan day than its deadline is listed with both. */
static void
a_plan_day_in_a_list(void **state)
{
    struct world *w = *state;
    struct reminder_item items[WORLD_TASKS];
    const struct due *dues[1];

    job_done(w, "a", "Wash", "2026-11-25");
    struct reminder_mail l = reminder_of(w, items);
    dues[0] = items[0].due;
    l.n = 0;
    l.under_way = dues;
    l.n_under_way = 1;
    struct buf *out = buf_new();
    assert_int_equal(reminder_text(&l, out), 0);
    assert_non_null(strstr(buf_str(out),
        "\n- K7 Wash, plan day Fri 4 Dec, deadline Sat 5 Dec 2026 (own)\n"));
    buf_free(out);
}

/* 59 characters, of one byte or of three, and a mark where it was cut. */
static void
a_long_title_is_cut(void **state)
{
    struct world *w = *state;
    struct job *j = job_done(w, "a", "", "2026-11-13");

    j->title = "A job with a name that nobody would ever want to have to read";
    /* 25 characters are for the end, which leaves 34: a blank before the mark
     * goes too. */
    assert_subject(w,
        "K7 A job with a name that nobody\xe2\x80\xa6 overdue since Mon "
        "23 Nov");
    j->title = "\xe8\xbd\xa6\xe8\xbd\xa6\xe8\xbd\xa6\xe8\xbd\xa6\xe8\xbd\xa6"
               "\xe8\xbd\xa6\xe8\xbd\xa6\xe8\xbd\xa6\xe8\xbd\xa6\xe8\xbd\xa6"
               "\xe8\xbd\xa6\xe8\xbd\xa6\xe8\xbd\xa6\xe8\xbd\xa6\xe8\xbd\xa6"
               "\xe8\xbd\xa6\xe8\xbd\xa6\xe8\xbd\xa6\xe8\xbd\xa6\xe8\xbd\xa6"
               "\xe8\xbd\xa6\xe8\xbd\xa6\xe8\xbd\xa6\xe8\xbd\xa6\xe8\xbd\xa6"
               "\xe8\xbd\xa6\xe8\xbd\xa6\xe8\xbd\xa6\xe8\xbd\xa6\xe8\xbd\xa6"
               "\xe8\xbd\xa6\xe8\xbd\xa6\xe8\xbd\xa6\xe8\xbd\xa6\xe8\xbd\xa6";
    struct reminder_item items[WORLD_TASKS];
    struct reminder_mail l = reminder_of(w, items);
    struct buf *out = buf_new();
    assert_int_equal(reminder_subject(&l, out), 0);
    /* K7 and a blank, 30 of three bytes, the mark of three, the end. */
    assert_int_equal(buf_len(out), 3 + 30 * 3 + 3 + 25);
    buf_free(out);
}

/* A title that would end a header, turn the text around or write a tag. */
static void
hostile_titles(void **state)
{
    struct world *w = *state;
    struct reminder_item items[WORLD_TASKS];
    struct job *j = job_done(w, "a", "x\r\nBcc: v@y", "2026-11-25");

    assert_subject(w, "K7 x Bcc: v@y due by Sat 5 Dec");
    j->title = "\xe2\x80\xaex\xe2\x80\xa8y\xff\x07";
    assert_subject(w, "K7 x y\xef\xbf\xbd due by Sat 5 Dec");
    j->title = "<script>alert(\"&amp;\")</script>\x1b";
    struct reminder_mail l = reminder_of(w, items);
    l.site = "<b>\x01";
    struct buf *out = buf_new();
    assert_int_equal(reminder_html(&l, out), 0);
    assert_null(strstr(buf_str(out), "<script"));
    assert_null(strstr(buf_str(out), "<b>"));
    assert_null(strchr(buf_str(out), '\x1b'));
    assert_non_null(strstr(buf_str(out),
        "K7 &lt;script&gt;alert(&quot;&amp;amp;&quot;)&lt;/script&gt;</h3>"));
    buf_free(out);
}

/* Nothing is fetched, and what a screen reader goes by is there. */
static void
the_page(void **state)
{
    struct world *w = *state;
    struct reminder_item items[WORLD_TASKS];
    static const char *const never[] = {"http:", "https:", "src=", "url(",
        "@import", "<link", "<script", "<table"};
    static const char *const once[] = {"<h1 ", "<html lang=\"en\">",
        "name=\"color-scheme\" content=\"light dark\"",
        "@media (prefers-color-scheme:dark)", "Overdue (1)</h2>",
        "K7 Annual test</h3>", "Deadline and plan day:</i> Mon 23 Nov 2026"};

    job_done(w, "b", "Annual test", "2026-11-13");
    struct reminder_mail l = reminder_of(w, items);
    struct buf *out = buf_new();
    assert_int_equal(reminder_html(&l, out), 0);
    for (size_t i = 0; i < sizeof never / sizeof *never; i++)
        if (strstr(buf_str(out), never[i]) != NULL)
            fail_msg("there is %s", never[i]);
    for (size_t i = 0; i < sizeof once / sizeof *once; i++) {
        const char *at = strstr(buf_str(out), once[i]);
        if (at == NULL || strstr(at + 1, once[i]) != NULL)
            fail_msg("%s is not there once", once[i]);
    }
    buf_free(out);
}

/* Done on the 25th and due ten days on: what waits for a reading, or for the
 * return, is named with that day. */
static void
what_waits_is_named_with_its_deadline(void **state)
{
    struct world *w = *state;
    struct reminder_item items[WORLD_TASKS];
    struct job *j = job_done(w, "a", "Wash", "2026-11-25");
    const char *named[] = {
        "- K7 Wash, needs a reading, deadline Sat 5 Dec 2026",
        "- K7 Wash, before return, deadline Sat 5 Dec 2026"};

    world_every(w, &j->rule, "10 days or 1000 km");
    for (int i = 0; i < 2; i++) {
        struct reminder_mail l = reminder_of(w, items);
        const struct due *due = items[0].due;
        struct buf *out = buf_new();
        l.n = 0;
        l.outlook = date("2026-12-28");
        l.coming = &due;
        l.n_coming = 1;
        assert_int_equal(reminder_text(&l, out), 0);
        assert_non_null(strstr(buf_str(out), named[i]));
        buf_free(out);
        world_every(w, &j->rule, "10 days");
        world_off_road(w, "2026-11-28", "-");
    }
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        WORLD_TEST(the_worst_comes_first),
        WORLD_TEST(the_class_decides),
        WORLD_TEST(a_failure_comes_first),
        WORLD_TEST(subjects_of_one),
        WORLD_TEST(a_deadline_that_moved),
        WORLD_TEST(the_text),
        WORLD_TEST(a_reason_that_says_all),
        WORLD_TEST(two_short_lists),
        WORLD_TEST(a_plan_day_in_a_list),
        WORLD_TEST(a_long_title_is_cut),
        WORLD_TEST(hostile_titles),
        WORLD_TEST(the_page),
        WORLD_TEST(what_waits_is_named_with_its_deadline),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
