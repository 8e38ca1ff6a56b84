/* Two kinds that only a copy of the tree has, see new-record-kind-is-one-row: a
 * look at a vehicle, with a field of each type in its body, and a finding that
 * is about a look.  What holds for them holds for any new row. */
#include <sysexits.h>

#include "arena.h"
#include "buf.h"
#include "chain.h"
#include "ledger_fixture.h"
#include "outbox.h"
#include "records.h"
#include "test.h"

static const struct subject buses[] = {
    {.id = "K7", .unit = UNIT_KM}, {.id = "K8", .unit = UNIT_KM}};
static const struct fleet fleet = {.subjects = buses, .n_subjects = 2};

#define NOON (12 * 60)
#define BOTH (RECORD_BIT(RECORD_LOOKED) | RECORD_BIT(RECORD_FINDING))

static const char *const items[] = {"T1", "L1"};
static const struct record_value all_values[] = {
    {.word = "items", .items = items, .n_items = 2},
    {.word = "driver", .text = "teal"},
    {.word = "at", .number = NOON},
    {.word = "seats", .number = -3},
    {.word = "next", .number = 20601},
    {.word = "weather", .text = "fog"},
};
static const struct record_value item = {.word = "item", .text = "T1"};

static const struct record look = {.kind = RECORD_LOOKED,
    .subject_id = "K7",
    .day = 20600,
    .until = DAY_NONE,
    .reading = -1,
    .entered = 1700000000,
    .values = all_values,
    .n_values = COUNT(all_values)};
static const struct record finding = {.kind = RECORD_FINDING,
    .subject_id = "K7",
    .day = 20600,
    .until = DAY_NONE,
    .reading = -1,
    .entered = 1700000001,
    .about = 1,
    .values = &item,
    .n_values = 1};

/* What stands of these kinds and that subject; the texts are in @a. */
static struct record *
standing(struct ledger *l, unsigned kinds, const char *subject_id,
    struct arena *a, size_t *n)
{
    struct record *list;
    struct fault f = {0, ""};

    if (records_standing(l, &fleet, kinds, subject_id, a, &list, n, &f) != 0)
        fail_msg("%s", f.text);
    return list;
}

static void
values_are_kept_by_their_type(void **state)
{
    struct ledger *l = opened(LEDGER_WRITE);
    struct arena *a = arena_new();
    struct buf *said = buf_new();
    size_t n;

    (void)state;
    assert_int_equal(records_add(l, &look, NULL, NULL), 0);
    assert_outside("SELECT body FROM event",
        "{\"at\":720,\"driver\":\"teal\",\"items\":[\"T1\",\"L1\"],"
        "\"next\":20601,\"seats\":-3,\"weather\":\"fog\"}");
    struct record *r = standing(l, BOTH, NULL, a, &n);
    assert_int_equal(n, 1);
    assert_int_equal(r->entered, 1700000000);
    assert_int_equal(r->n_values, COUNT(all_values));
    assert_int_equal(record_value(r, "at")->number, NOON);
    assert_int_equal(record_value(r, "seats")->number, -3);
    assert_int_equal(record_value(r, "next")->number, 20601);
    assert_string_equal(record_text(r, "driver"), "teal");
    assert_string_equal(record_text(r, "weather"), "fog");
    assert_int_equal(record_value(r, "items")->n_items, 2);
    assert_string_equal(record_value(r, "items")->items[1], "L1");
    assert_null(record_value(r, "item"));
    record_say(r, said);
    assert_string_equal(buf_str(said), "  at 12:00  looked at T1, L1");
    buf_free(said);
    arena_free(a);
    ledger_close(l);
}

/* Each of these in place of the value at hand, or with what is there. */
static void
what_the_row_does_not_allow_is_refused(void **state)
{
    static const char *const with_empty[] = {"T1", ""};
    static const struct {
        size_t at;
        struct record_value value;
        const char *says;
    } bad[] = {
        {0, {.word = "other"}, "has to have a items"},
        {0, {.word = "items", .text = "T1"}, "is not a list of texts"},
        {0, {.word = "items", .items = with_empty, .n_items = 2},
            "is not a list of texts"},
        {1, {.word = "driver", .text = ""}, "is not the id of a person"},
        {1, {.word = "driver", .number = 7}, "is not the id of a person"},
        {2, {.word = "at", .number = 24 * 60}, "is not a time of day"},
        {2, {.word = "at", .number = -1}, "is not a time of day"},
        {2, {.word = "at", .text = "12:00"}, "is not a time of day"},
        {3, {.word = "seats", .text = "3"}, "is not a whole number"},
        {4, {.word = "next", .number = DAY_NONE}, "is not a day"},
        {4, {.word = "next", .number = 84006}, "is not a day"},
        {5, {.word = "weather"}, "is not a text"},
        {5, {.word = "items", .items = items, .n_items = 2}, "one twice"},
        {5, {.word = "item", .text = "T1"}, "has no other field"},
    };
    struct ledger *l = opened(LEDGER_WRITE);

    (void)state;
    for (size_t i = 0; i < COUNT(bad); i++) {
        struct record_value values[COUNT(all_values)];
        struct record r = look;
        struct fault f = {0, ""};
        memcpy(values, all_values, sizeof values);
        values[bad[i].at] = bad[i].value;
        r.values = values;
        assert_int_equal(records_add(l, &r, NULL, &f), -1);
        assert_fault(&f, EX_DATAERR);
        if (strstr(f.text, bad[i].says) == NULL)
            fail_msg("%zu: %s", i, f.text);
    }
    assert_outside("SELECT count(*) || '' FROM event", "0");
    ledger_close(l);
}

static void
one_belongs_to_another_that_stands(void **state)
{
    struct ledger *l = opened(LEDGER_WRITE);
    struct record other = finding;
    struct fault f = {0, ""};

    (void)state;
    assert_int_equal(records_add(l, &finding, NULL, &f), -1);
    assert_fault(&f, EX_DATAERR); /* there is no record 1 */
    assert_int_equal(records_add(l, &look, NULL, NULL), 0);
    assert_int_equal(records_add(l, &finding, NULL, NULL), 0);
    other.about = 2;
    assert_int_equal(records_add(l, &other, NULL, &f), -1);
    assert_non_null(strstr(f.text, "cannot be about record 2, finding"));
    other.about = 0;
    assert_int_equal(records_add(l, &other, NULL, &f), -1);
    assert_non_null(strstr(f.text, "has to have a record that it is about"));
    assert_int_equal(records_void(l, 1, NULL, "no", 5, NULL), 0);
    assert_int_equal(records_add(l, &finding, NULL, &f), -1);
    assert_non_null(strstr(f.text, "no longer stands, record 3 voided it"));
    struct record about = look;
    about.about = 2;
    assert_int_equal(records_add(l, &about, NULL, &f), -1);
    assert_non_null(strstr(f.text, "cannot be about record 2, finding"));
    assert_outside("SELECT count(*) || '' FROM event", "3");
    ledger_close(l);
}

/* A look, what was found, and the message about it, or nothing of all that. */
static int
write_together(struct ledger *l, const char *message_id)
{
    const struct outbox_message m = {.person = "manager",
        .message_id = message_id,
        .recipient = "manager@skerrow.example",
        .bytes = "Subject: K7\r\n\r\n",
        .len = 15,
        .created = 1700000002};
    struct record r = finding;

    if (ledger_begin(l, NULL) != 0)
        return -1;
    if (records_add(l, &look, &r.about, NULL) == 0 &&
        records_add(l, &r, NULL, NULL) == 0 &&
        records_add(l, &r, NULL, NULL) == 0 &&
        outbox_add(l, &m, NULL, 0, NULL) == 0)
        return ledger_commit(l, NULL);
    ledger_rollback(l);
    return -1;
}

static void
several_are_written_together_or_not_at_all(void **state)
{
    struct ledger *l = opened(LEDGER_WRITE);
    struct chain chain;

    (void)state;
    assert_int_equal(write_together(l, "<1@skerrow.example>"), 0);
    assert_outside("SELECT group_concat(kind || coalesce(about, ''), ' ')"
                   " FROM event",
        "looked finding1 finding1");
    /* The message-id is there already, so nothing of it is written. */
    assert_int_equal(write_together(l, "<1@skerrow.example>"), -1);
    assert_outside("SELECT count(*) || '' FROM event", "3");
    assert_int_equal(write_together(l, "<2@skerrow.example>"), 0);
    assert_outside("SELECT about || '' FROM event WHERE id = 6", "4");
    assert_int_equal(chain_verify(l, &chain, NULL), 0);
    assert_int_equal(chain.records, 6);
    ledger_close(l);
}

static void
a_fold_goes_over_what_stands_in_order_of_entry(void **state)
{
    static const int64_t of_k7[] = {1, 2, 5};
    struct ledger *l = opened(LEDGER_WRITE);
    struct arena *a = arena_new();
    struct record r = finding;
    size_t n;

    (void)state;
    assert_int_equal(records_add(l, &look, NULL, NULL), 0);    /* 1 */
    assert_int_equal(records_add(l, &finding, NULL, NULL), 0); /* 2 */
    r.subject_id = "K8";
    assert_int_equal(records_add(l, &r, NULL, NULL), 0);       /* 3 */
    assert_int_equal(records_add(l, &finding, NULL, NULL), 0); /* 4 */
    r = look;
    r.subject_id = "k7";
    r.day = 20500; /* the day does not matter, nor how the id is written */
    assert_int_equal(records_add(l, &r, NULL, NULL), 0);          /* 5 */
    assert_int_equal(records_void(l, 4, NULL, "no", 5, NULL), 0); /* 6 */
    r = (struct record){.kind = RECORD_READING,
        .subject_id = "K7",
        .day = 20600,
        .until = DAY_NONE,
        .meter = METER_DISTANCE,
        .reading = 9,
        .entered = 6};
    assert_int_equal(records_add(l, &r, NULL, NULL), 0); /* 7 */
    struct record *list = standing(l, BOTH, "K7", a, &n);
    assert_int_equal(n, COUNT(of_k7));
    for (size_t i = 0; i < n; i++)
        assert_int_equal(list[i].id, of_k7[i]);
    assert_int_equal(list[1].about, 1);
    (void)standing(l, BOTH, NULL, a, &n);
    assert_int_equal(n, 4);
    list = standing(l, RECORD_BIT(RECORD_FINDING), NULL, a, &n);
    assert_int_equal(n, 2);
    assert_string_equal(list[1].subject_id, "K8");
    /* Along with a kind that dues follow from. */
    list = standing(l, BOTH | RECORD_BIT(RECORD_READING), "k7", a, &n);
    assert_int_equal(n, 4);
    assert_int_equal(list[3].id, 7);
    arena_free(a);
    ledger_close(l);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        TEST(values_are_kept_by_their_type),
        TEST(what_the_row_does_not_allow_is_refused),
        TEST(one_belongs_to_another_that_stands),
        TEST(several_are_written_together_or_not_at_all),
        TEST(a_fold_goes_over_what_stands_in_order_of_entry),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
