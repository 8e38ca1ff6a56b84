#ifndef YARD_H
#define YARD_H

/*
 * A yard with two vehicles, an extinguisher on each, and people of every right:
 * acts are asked about and, where they may be, entered.  2 March 2026 is a
 * Monday.
 */

#include "days.h"
#include "may_enter.h"
#include "missing.h"
#include "test.h"

#include <stdlib.h>

enum { K7, M2, X1, X2 };

struct yard {
    struct subject subjects[4];
    struct person persons[5];
    struct subject_type type;
    struct check_item item;
    struct check_sheet sheet;
    const struct check_sheet *sheets[1];
    struct fleet fleet;
    struct defects *defects;
    int64_t next;
    day_t inspection;
};

static inline int
yard_setup(void **state)
{
    struct yard *y = calloc(1, sizeof *y);
    const char *const ids[] = {"K7", "M2", "X1", "X2"};

    assert_non_null(y);
    y->type = (struct subject_type){.id = "extinguisher"};
    y->item = (struct check_item){
        .code = "F1", .grade = GRADE_MAJOR, .carried = &y->type};
    y->sheet = (struct check_sheet){.items = &y->item, .n_items = 1};
    y->sheets[0] = &y->sheet;
    for (size_t i = 0; i < COUNT(ids); i++)
        y->subjects[i] = (struct subject){.id = ids[i],
            .index = i,
            .kind = i < X1 ? SUBJECT_VEHICLE : SUBJECT_EQUIPMENT,
            .type = i < X1 ? NULL : &y->type,
            .sheets = y->sheets,
            .n_sheets = i < X1};
    y->subjects[X1].carrier = y->subjects[X1].first_carrier = &y->subjects[K7];
    y->subjects[X2].carrier = y->subjects[X2].first_carrier = &y->subjects[M2];
    y->persons[0] = (struct person){.id = "ann", .may = 7};
    y->persons[1] = (struct person){.id = "bea", .may = 7};
    y->persons[2] = (struct person){.id = "cai"};
    y->persons[3] = (struct person){.id = "eve", .may = MAY_ASSESS};
    y->persons[4] = (struct person){.id = "fin", .may = MAY_REPAIR};
    y->fleet = (struct fleet){.subjects = y->subjects,
        .n_subjects = 4,
        .persons = y->persons,
        .n_persons = 5,
        .site.defer_at_most = {4, STEP_WEEKS}};
    y->defects = defects_new(&y->fleet);
    assert_non_null(y->defects);
    y->next = 1;
    y->inspection = DAY_NONE;
    *state = y;
    return 0;
}

static inline int
yard_teardown(void **state)
{
    struct yard *y = *state;

    defects_free(y->defects);
    free(y);
    return 0;
}

#define YARD_TEST(f)                                                           \
    cmocka_unit_test_setup_teardown(f, yard_setup, yard_teardown)

/* Ask about @e and enter it where that may be; the refusal. */
static inline enum defect_refusal
yard_enter(struct yard *y, struct defect_event e)
{
    struct enter_now now = {e.at.day, y->inspection};
    struct enter_answer a = may_enter(y->defects, &e, &now);

    if (a.refusal != ENTER_ALLOWED)
        return a.refusal;
    e.id = y->next++;
    if (e.kind == EVENT_REPORTED) {
        e.about = a.defect ? a.defect->first : 0;
        e.number = e.about ? 0 : defects_next_number(y->defects);
    }
    assert_int_equal(defects_add(y->defects, &e), 0);
    return ENTER_ALLOWED;
}

/* Somebody reports T1 of that subject, live, at that minute of the day. */
static inline struct defect_event
found(struct yard *y, int subject, enum grade grade, const char *day, int at,
    const char *by)
{
    return (struct defect_event){.kind = EVENT_REPORTED,
        .subject = &y->subjects[subject],
        .subject_id = y->subjects[subject].id,
        .item = "T1",
        .grade = grade,
        .at = {date(day), at},
        .by = by,
        .until = DAY_NONE,
        .reading = -1};
}

/* Somebody does that about the defect with that number. */
static inline struct defect_event
done(const struct yard *y, enum defect_kind kind, int64_t number,
    const char *day, int at, const char *by)
{
    const struct defect *d = defects_numbered(y->defects, number);

    return (struct defect_event){.kind = kind,
        .about = d ? d->first : -1,
        .at = {date(day), at},
        .by = by,
        .until = DAY_NONE,
        .reading = -1};
}

/* Somebody decides that about defect 1. */
static inline struct defect_event
decided(const struct yard *y, enum defect_verdict verdict, const char *day,
    int at, const char *by)
{
    struct defect_event e = done(y, EVENT_ASSESSED, 1, day, at, by);

    e.verdict = verdict;
    return e;
}

static inline struct defect_event
put_off(const struct yard *y, const char *until, const char *day, int at,
    const char *by)
{
    struct defect_event e = decided(y, VERDICT_UNTIL, day, at, by);

    e.until = date(until);
    return e;
}

/* The event with that id is voided. */
static inline struct defect_event
undone(int64_t event, const char *day, const char *by)
{
    return (struct defect_event){.kind = EVENT_VOIDED,
        .about = event,
        .at = {date(day), 0},
        .by = by,
        .until = DAY_NONE,
        .reading = -1};
}

static inline const struct defect *
numbered(const struct yard *y, int64_t number)
{
    const struct defect *d = defects_numbered(y->defects, number);

    assert_non_null(d);
    return d;
}

#define ENTERED(e) assert_int_equal(yard_enter(y, (e)), ENTER_ALLOWED)
#define REFUSED_AS(e, why) assert_int_equal(yard_enter(y, (e)), (why))
#define STATE_IS(n, s) assert_int_equal(numbered(y, (n))->state, (s))

#endif
