/* What people were told, and the messages that told them. */
#include <sysexits.h>

#include "arena.h"
#include "days.h"
#include "ledger_fixture.h"
#include "outbox.h"
#include "test.h"

static const char bytes[] = "To: x\r\n\r\nzero \0 byte and \xff\r\n";

static struct outbox_message
message(const char *id)
{
    return (struct outbox_message){.person = "manager",
        .message_id = id,
        .recipient = "manager@skerrow.example",
        .bytes = bytes,
        .len = sizeof bytes - 1,
        .created = 1767225600};
}

static struct sent_reminder
stage(const char *name, const char *deadline)
{
    return (struct sent_reminder){.subject = "K7",
        .job = "annual-test",
        .cycle = "r42",
        .stage = name,
        .person = "manager",
        .deadline = date(deadline)};
}

static void
add(struct ledger *l, const char *id, const struct sent_reminder *told,
    size_t n)
{
    struct outbox_message m = message(id);
    struct fault f = {0, ""};

    if (outbox_add(l, &m, told, n, &f) != 0)
        fail_msg("%s", f.text);
}

static struct outbox_message *
waiting(struct ledger *l, struct arena *a, size_t want)
{
    struct outbox_message *list = NULL;
    struct fault f = {0, ""};
    size_t n = 0;

    if (outbox_open(l, a, &list, &n, &f) != 0)
        fail_msg("%s", f.text);
    assert_int_equal(n, want);
    return list;
}

static day_t
last_deadline(struct ledger *l, struct sent_reminder t)
{
    day_t d = 0;

    assert_int_equal(sent_reminder_last_deadline(l, &t, &d, NULL), 0);
    return d;
}

static void
a_message_waits_with_its_very_bytes(void **state)
{
    (void)state;
    struct ledger *l = opened(LEDGER_WRITE);
    for (int i = 0; i < 5; i++) {
        char id[] = "<0@skerrow.example>";
        id[1] = (char)('0' + i);
        add(l, id, NULL, 0);
    }
    ledger_close(l);
    l = opened(LEDGER_READ);
    struct arena *a = arena_new();
    struct outbox_message *m = waiting(l, a, 5);
    for (int i = 0; i < 5; i++) {
        assert_int_equal(m[i].id, i + 1);
        assert_int_equal(m[i].message_id[1], '0' + i);
        assert_string_equal(m[i].person, "manager");
        assert_string_equal(m[i].recipient, "manager@skerrow.example");
        assert_int_equal(m[i].len, sizeof bytes - 1);
        assert_memory_equal(m[i].bytes, bytes, sizeof bytes);
        assert_int_equal(m[i].created, 1767225600);
        assert_int_equal(m[i].attempts, 0);
        assert_int_equal(m[i].tried, 0);
        assert_null(m[i].error);
    }
    arena_free(a);
    ledger_close(l);
}

static void
a_message_waits_until_it_is_sent(void **state)
{
    (void)state;
    struct ledger *l = opened(LEDGER_WRITE);
    struct arena *a = arena_new();
    waiting(l, a, 0);
    add(l, "<1>", NULL, 0);
    add(l, "<2>", NULL, 0);
    assert_int_equal(outbox_try(l, 1, 100, 400, "cut off", NULL), 0);
    struct outbox_message *m = waiting(l, a, 2);
    assert_int_equal(m[0].attempts, 1);
    assert_int_equal(m[0].tried, 100);
    assert_int_equal(m[0].next_try, 400);
    assert_string_equal(m[0].error, "cut off");
    assert_int_equal(m[1].attempts, 0);
    assert_int_equal(m[1].next_try, 0);
    assert_int_equal(outbox_failed(l, 1, "no route", NULL), 0);
    assert_int_equal(outbox_try(l, 1, 400, 1000, "cut off", NULL), 0);
    assert_int_equal(outbox_failed(l, 1, "greylisted", NULL), 0);
    m = waiting(l, a, 2);
    assert_int_equal(m[0].attempts, 2);
    assert_int_equal(m[0].next_try, 1000);
    assert_string_equal(m[0].error, "greylisted");

    assert_int_equal(outbox_sent(l, 1, 1100, NULL), 0);
    m = waiting(l, a, 1);
    assert_int_equal(m[0].id, 2);
    /* What comes too late changes nothing, and no attempt begins. */
    struct fault f = {0, ""};
    assert_int_equal(outbox_sent(l, 1, 1200, NULL), 0);
    assert_int_equal(outbox_failed(l, 1, "late", NULL), 0);
    assert_int_equal(outbox_give_up(l, 1, 1200, "late", NULL), 0);
    assert_int_equal(outbox_try(l, 1, 1200, 1300, "late", &f), -1);
    assert_fault(&f, EX_DATAERR);
    assert_int_equal(outbox_drop(l, 1, 1200, "late", &f), -1);
    assert_fault(&f, EX_DATAERR);
    assert_outside("SELECT sent || ' ' || attempts || ' ' || (error IS NULL)"
                   " || ' ' || (gave_up IS NULL) || (dropped IS NULL)"
                   " FROM outbox WHERE id = 1",
        "1100 2 1 11");
    arena_free(a);
    ledger_close(l);
}

/* Given up is not gone: it can still be sent, wait again or be dropped. */
static void
a_message_is_given_up_and_comes_back(void **state)
{
    (void)state;
    struct ledger *l = opened(LEDGER_WRITE);
    struct arena *a = arena_new();
    for (int i = 0; i < 3; i++) {
        char id[] = "<0>";
        id[1] = (char)('0' + i);
        add(l, id, NULL, 0);
        assert_int_equal(outbox_try(l, i + 1, 100, 400, "cut off", NULL), 0);
        assert_int_equal(
            outbox_give_up(l, i + 1, 110, "no such user", NULL), 0);
    }
    struct outbox_message *m = waiting(l, a, 3);
    assert_int_equal(m[0].gave_up, 110);
    assert_int_equal(m[0].next_try, 0);
    assert_string_equal(m[0].error, "no such user");
    assert_int_equal(outbox_try(l, 1, 500, 800, "cut off", NULL), 0);
    m = waiting(l, a, 3);
    assert_int_equal(m[0].gave_up, 110); /* until it is known how it ended */
    assert_int_equal(outbox_failed(l, 1, "busy", NULL), 0);
    m = waiting(l, a, 3);
    assert_int_equal(m[0].gave_up, 0);
    assert_int_equal(outbox_sent(l, 2, 900, NULL), 0);
    assert_int_equal(outbox_drop(l, 3, 950, "left us", NULL), 0);
    m = waiting(l, a, 1);
    assert_int_equal(m[0].id, 1);
    struct outbox_message *dropped = NULL;
    size_t n = 0;
    assert_int_equal(outbox_dropped(l, a, &dropped, &n, NULL), 0);
    assert_int_equal(n, 1);
    assert_int_equal(dropped[0].id, 3);
    assert_int_equal(dropped[0].dropped, 950);
    assert_string_equal(dropped[0].note, "left us");
    arena_free(a);
    ledger_close(l);
}

/* Nobody drops a message without saying why. */
static void
a_drop_without_a_note_is_refused(void **state)
{
    struct fault f = {0, ""};

    (void)state;
    struct ledger *l = opened(LEDGER_WRITE);
    add(l, "<1>", NULL, 0);
    assert_int_equal(outbox_drop(l, 1, 100, "", &f), -1);
    assert_fault(&f, EX_DATAERR);
    assert_int_equal(outbox_drop(l, 1, 100, NULL, &f), -1);
    assert_int_equal(outbox_drop(l, 2, 100, "none", &f), -1);
    assert_outside("SELECT count(*) FROM outbox WHERE dropped IS NULL", "1");
    ledger_close(l);
}

static void
a_stage_was_told_only_to_whom_it_was_told(void **state)
{
    struct sent_reminder t = stage("4 weeks", "2027-03-13");

    (void)state;
    struct ledger *l = opened(LEDGER_WRITE);
    assert_int_equal(sent_reminder_has(l, &t, NULL), 0);
    add(l, "<1>", &t, 1);
    assert_int_equal(sent_reminder_has(l, &t, NULL), 1);
    struct sent_reminder other = t;
    other.subject = "k7"; /* the same, as everywhere */
    other.job = "Annual-Test";
    other.person = "MANAGER";
    other.deadline = DAY_NONE;
    assert_int_equal(sent_reminder_has(l, &other, NULL), 1);
    other = t;
    other.subject = "K8";
    assert_int_equal(sent_reminder_has(l, &other, NULL), 0);
    other = t;
    other.job = "engine-service";
    assert_int_equal(sent_reminder_has(l, &other, NULL), 0);
    other = t;
    other.cycle = "r43";
    assert_int_equal(sent_reminder_has(l, &other, NULL), 0);
    other = t;
    other.stage = "1 week";
    assert_int_equal(sent_reminder_has(l, &other, NULL), 0);
    other = t;
    other.person = "fitter";
    assert_int_equal(sent_reminder_has(l, &other, NULL), 0);
    ledger_close(l);
}

/* What was told of another deadline was not told of this one; a stage that is
 * told again has a day after its name. */
static void
a_stage_is_told_of_a_deadline(void **state)
{
    struct sent_reminder t = stage("4-weeks", "2027-03-13");
    struct sent_reminder moved = stage("4-weeks@2027-02-20", "2027-03-20");
    struct sent_reminder other = stage("4-weeks", "2027-03-20");
    struct sent_reminder longer = stage("14-weeks@2027-02-20", "2027-03-27");

    (void)state;
    struct ledger *l = opened(LEDGER_WRITE);
    add(l, "<1>", &t, 1);
    assert_int_equal(sent_reminder_of_deadline(l, &t, NULL), 1);
    assert_int_equal(sent_reminder_of_deadline(l, &other, NULL), 0);
    add(l, "<2>", &moved, 1);
    assert_int_equal(sent_reminder_of_deadline(l, &other, NULL), 1);
    add(l, "<3>", &longer, 1);
    other.deadline = longer.deadline;
    assert_int_equal(sent_reminder_of_deadline(l, &other, NULL), 0);
    other.deadline = DAY_NONE;
    assert_int_equal(sent_reminder_of_deadline(l, &other, NULL), 0);
    ledger_close(l);
}

static void
the_deadline_last_told(void **state)
{
    struct sent_reminder first[] = {stage("8 weeks", "2027-03-13")};
    struct sent_reminder then[] = {stage("4 weeks", "2027-03-01")};
    struct sent_reminder none[] = {stage("no record", "-")};
    struct sent_reminder other = stage("8 weeks", "-");

    (void)state;
    struct ledger *l = opened(LEDGER_WRITE);
    assert_day(last_deadline(l, first[0]), "-");
    add(l, "<1>", first, 1);
    assert_day(last_deadline(l, then[0]), "2027-03-13");
    add(l, "<2>", then, 1);
    assert_day(last_deadline(l, first[0]), "2027-03-01");
    other.person = "fitter";
    assert_day(last_deadline(l, other), "-");
    other = stage("8 weeks", "-");
    other.cycle = "r43";
    assert_day(last_deadline(l, other), "-");
    add(l, "<3>", none, 1);
    assert_day(last_deadline(l, first[0]), "-");
    ledger_close(l);
}

static void
a_message_and_what_it_tells_are_one(void **state)
{
    struct outbox_message m = message("<2>");
    struct sent_reminder t[] = {stage("8 weeks", "2027-03-13"),
        stage("4 weeks", "2027-03-13"), stage("8 weeks", "2027-03-13")};
    struct fault f = {0, ""};

    (void)state;
    struct ledger *l = opened(LEDGER_WRITE);
    assert_int_equal(outbox_add(l, &m, t, 3, &f), -1);
    assert_fault(&f, EX_DATAERR);
    assert_outside("SELECT count(*) FROM outbox", "0");
    assert_outside("SELECT count(*) FROM told", "0");

    add(l, "<1>", t, 2);
    assert_int_equal(outbox_add(l, &m, &t[1], 1, &f), -1);
    assert_outside("SELECT count(*) FROM outbox", "1");
    assert_outside("SELECT count(*) FROM told", "2");

    /* The same message-id again, with something new to tell. */
    m.message_id = "<1>";
    t[2].stage = "1 week";
    assert_int_equal(outbox_add(l, &m, &t[2], 1, &f), -1);
    assert_int_equal(sent_reminder_has(l, &t[2], NULL), 0);
    ledger_close(l);
}

/* Inside a larger group, too, a refused message takes only itself away. */
static void
a_refused_message_leaves_the_group_alone(void **state)
{
    struct sent_reminder t = stage("8 weeks", "2027-03-13");
    struct outbox_message m = message("<2>");
    struct fault f = {0, ""};

    (void)state;
    struct ledger *l = opened(LEDGER_WRITE);
    assert_int_equal(ledger_begin(l, NULL), 0);
    add(l, "<1>", &t, 1);
    assert_int_equal(outbox_add(l, &m, &t, 1, &f), -1);
    assert_fault(&f, EX_DATAERR);
    assert_int_equal(ledger_commit(l, NULL), 0);
    assert_outside("SELECT group_concat(message_id) FROM outbox", "<1>");
    ledger_close(l);
}

static void
an_incomplete_message_is_refused(void **state)
{
    struct outbox_message m = message("<1>");
    struct sent_reminder t = stage("8 weeks", "2027-03-13");
    struct fault f = {0, ""};

    (void)state;
    struct ledger *l = opened(LEDGER_WRITE);
    m.len = 0;
    assert_int_equal(outbox_add(l, &m, NULL, 0, &f), -1);
    assert_fault(&f, EX_DATAERR);
    m = message("");
    assert_int_equal(outbox_add(l, &m, NULL, 0, &f), -1);
    m = message("<1>");
    m.recipient = "";
    assert_int_equal(outbox_add(l, &m, NULL, 0, &f), -1);
    m = message("<1>");
    t.cycle = NULL;
    assert_int_equal(outbox_add(l, &m, &t, 1, &f), -1);
    t = stage("8 weeks", "-");
    t.deadline = DAY_LAST + 1;
    assert_int_equal(outbox_add(l, &m, &t, 1, &f), -1);
    assert_outside("SELECT count(*) FROM outbox", "0");
    ledger_close(l);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        TEST(a_message_waits_with_its_very_bytes),
        TEST(a_message_waits_until_it_is_sent),
        TEST(a_message_is_given_up_and_comes_back),
        TEST(a_drop_without_a_note_is_refused),
        TEST(a_stage_was_told_only_to_whom_it_was_told),
        TEST(a_stage_is_told_of_a_deadline),
        TEST(the_deadline_last_told),
        TEST(a_message_and_what_it_tells_are_one),
        TEST(a_refused_message_leaves_the_group_alone),
        TEST(an_incomplete_message_is_refused),
    };

    return cmocka_run_group_tests_name("ledger_outbox", tests, NULL, NULL);
}
