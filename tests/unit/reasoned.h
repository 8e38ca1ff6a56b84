#ifndef REASONED_H
#define REASONED_H

/* What the reasons of a due say. */

#include "due.h"
#include "test.h"

#include <string.h>

/* Nonzero when some reason of @d is of that step. */
static inline int
has_reason(const struct due *d, enum reason_step step)
{
    for (size_t i = 0; i < d->n_reasons; i++)
        if (d->reasons[i].step == step)
            return 1;
    return 0;
}

/* Nonzero when some reason of @d says @words. */
static inline int
says(const struct due *d, const char *words)
{
    for (size_t i = 0; i < d->n_reasons; i++)
        if (strstr(d->reasons[i].text, words) != NULL)
            return 1;
    return 0;
}

/*
 * The promise of due.h: the chain of days runs without a gap from the start
 * of the cycle to the plan day, or to the deadline where there is no plan
 * day, and from there to the book-by day.  Without a deadline there is no day
 * to explain, only to begin from.
 */
static inline void
assert_reasoned(const struct due *d)
{
    day_t at = DAY_NONE;
    day_t end = d->plan_day != DAY_NONE ? d->plan_day : d->deadline;
    day_t book_by = DAY_NONE;

    if (d->besides == DUE_NO_RECORD)
        return;
    size_t start = 0;
    while (start < d->n_reasons && d->reasons[start].step == REASON_NOTE)
        start++;
    assert_true(start < d->n_reasons);
    assert_int_equal(d->reasons[start].step, REASON_START);
    for (size_t i = 0; i < d->n_reasons; i++) {
        const struct reason *r = &d->reasons[i];
        assert_int_equal(r->before, at);
        assert_true(r->text[0] != '\0');
        assert_true(r->text[strlen(r->text) - 1] != '.');
        if (r->step == REASON_NOTE || r->step == REASON_FIRST)
            assert_int_equal(r->before, r->after);
        if (r->step == REASON_LEAD) {
            assert_int_equal(at, d->plan_day);
            assert_int_equal(i, d->n_reasons - 1);
            book_by = r->after;
        } else {
            at = r->after;
        }
    }
    if (end != DAY_NONE)
        assert_int_equal(at, end);
    assert_int_equal(book_by, d->book_by);
}

#endif
