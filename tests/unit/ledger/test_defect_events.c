/* The events of a defect, through the ledger into the fold. */

#include "arena.h"
#include "chain.h"
#include "from_records.h"
#include "ledger_fixture.h"
#include "records.h"

static const struct subject k7 = {.id = "K7", .kind = SUBJECT_VEHICLE};
static const struct fleet fleet = {.subjects = &k7, .n_subjects = 1};

#define DAY 20514 /* 2026-03-02 */

static const struct record_value check[] = {
    {.word = "sheet", .text = "walk-round"}, {.word = "at", .number = 420},
    {.word = "nil", .number = 0}};
static const struct record_value report[] = {{.word = "item", .text = "T1"},
    {.word = "grade", .text = "major"}, {.word = "at", .number = 420},
    {.word = "number", .number = 1}};
static const struct record_value assess[] = {
    {.word = "verdict", .text = "until"}, {.word = "at", .number = 480}};
static const struct record_value at[] = {{.word = "at", .number = 540}};
static const struct record_value why[] = {{.word = "why", .text = "sold"}};

static void
enter(struct ledger *l, enum record_kind kind, int64_t about,
    const struct record_value *values, size_t n)
{
    struct fault f = {0, ""};
    int on_subject = kind == RECORD_CHECKED || kind == RECORD_REPORTED ||
                     kind == RECORD_LEFT;
    struct record r = {.kind = kind,
        .subject_id = on_subject ? "K7" : NULL,
        .about = about,
        .day = DAY,
        .until = kind == RECORD_ASSESSED ? DAY + 4 : DAY_NONE,
        .reading = -1,
        .entered = 1700000000,
        .by = "ann",
        .values = values,
        .n_values = n};

    if (records_add(l, &r, NULL, &f))
        fail_msg("%s: %s", record_kind_word(kind), f.text);
}

/* All of them in the order of entry, and the fold over them. */
static struct defects *
folded(struct ledger *l, struct arena *a)
{
    struct defects *ds = defects_new(&fleet);
    struct record *list;
    struct fault f = {0, ""};
    size_t n;

    assert_int_equal(records_read(l, &fleet, a, &list, &n, &f), 0);
    assert_int_equal(defects_read(ds, a, list, n), 0);
    return ds;
}

static void
what_was_entered_is_verified_and_folded(void **state)
{
    struct ledger *l = opened(LEDGER_WRITE);
    struct arena *a = arena_new();
    struct fault f = {0, ""};
    struct chain chain;

    (void)state;
    enter(l, RECORD_CHECKED, 0, check, COUNT(check));
    enter(l, RECORD_REPORTED, 1, report, COUNT(report));
    enter(l, RECORD_ASSESSED, 2, assess, COUNT(assess));
    struct defects *ds = folded(l, a);
    const struct defect *d = defects_numbered(ds, 1);
    assert_non_null(d);
    assert_int_equal(d->state, DEFECT_UNTIL);
    assert_int_equal(d->until, DAY + 4);
    assert_int_equal(d->cause, 1);
    assert_int_equal(d->reported.at.minute, 420);
    defects_free(ds);
    enter(l, RECORD_REPAIRED, 2, at, COUNT(at));
    enter(l, RECORD_RELEASED, 2, at, COUNT(at));
    enter(l, RECORD_LEFT, 0, why, COUNT(why));
    ds = folded(l, a);
    assert_int_equal(defects_numbered(ds, 1)->state, DEFECT_CLOSED);
    defects_free(ds);
    assert_int_equal(records_void(l, 5, NULL, "not yet", 1700000000, &f), 0);
    ds = folded(l, a);
    assert_int_equal(defects_numbered(ds, 1)->state, DEFECT_REPAIRED);
    defects_free(ds);
    assert_int_equal(chain_verify(l, &chain, &f), 0);
    arena_free(a);
    ledger_close(l);
}

/* A repair of what is no defect, and a report without its item. */
static void
what_does_not_fit_its_kind_is_refused(void **state)
{
    struct ledger *l = opened(LEDGER_WRITE);
    struct fault f = {0, ""};
    struct record r = {.kind = RECORD_REPAIRED,
        .about = 1,
        .day = DAY,
        .until = DAY_NONE,
        .reading = -1,
        .values = at,
        .n_values = 1};

    (void)state;
    enter(l, RECORD_CHECKED, 0, check, COUNT(check));
    assert_int_equal(records_add(l, &r, NULL, &f), -1);
    r.kind = RECORD_REPORTED;
    r.subject_id = "K7";
    f = (struct fault){0, ""};
    assert_int_equal(records_add(l, &r, NULL, &f), -1);
    assert_non_null(strstr(f.text, "item"));
    ledger_close(l);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(what_was_entered_is_verified_and_folded,
            in_a_folder, out_of_the_folder),
        cmocka_unit_test_setup_teardown(what_does_not_fit_its_kind_is_refused,
            in_a_folder, out_of_the_folder),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
