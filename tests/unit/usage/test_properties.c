/* What holds of every forecast, over random readings. */
#include <math.h>

#include "model.h"
#include "test.h"

#define MOST 150
#define RUNS 3000
#define DAY0 18000

struct random {
    uint64_t state;
};

static uint64_t
next(struct random *r, uint64_t below)
{
    r->state ^= r->state << 13;
    r->state ^= r->state >> 7;
    r->state ^= r->state << 17;
    return r->state % below;
}

/* Readings of a meter, now and then a wrong one, with spells off the road. */
struct made {
    struct reading readings[MOST + 1];
    struct spell spells[2];
    struct usage usage;
};

static void
make(struct made *m, struct random *r, int longest_gap)
{
    day_t day = DAY0;
    int64_t value = (int64_t)next(r, 200000);
    int64_t rate = 20 + (int64_t)next(r, 200);

    m->usage = (struct usage){.readings = m->readings, .spells = m->spells};
    size_t n = 1 + next(r, MOST);
    for (size_t i = 0; i < n; i++) {
        int64_t shown = next(r, 12) > 0 ? value : (int64_t)next(r, 400000);
        m->readings[i] = (struct reading){day, shown};
        int gap = 1 + (int)next(r, (uint64_t)longest_gap);
        if (next(r, 40) == 0)
            rate = 1 + (int64_t)next(r, 300);
        value += (int64_t)next(r, (uint64_t)(2 * rate * gap));
        day += gap;
    }
    m->usage.n = n;
    m->usage.yearly = next(r, 2) ? 0 : 10 * (int64_t)next(r, 5000);
    m->spells[0] = (struct spell){DAY0 + 10, DAY0 + 10 + (day_t)next(r, 60)};
    m->spells[1] = (struct spell){day + 5, day + (day_t)next(r, 50)};
    m->usage.n_spells = next(r, 3);
    if (m->spells[1].until < m->spells[1].from)
        m->spells[1].until = DAY_NONE;
}

static int64_t
as_number(day_t d)
{
    return d == DAY_NONE ? INT64_MAX : d;
}

static void
assert_no_later(day_t a, day_t b, uint64_t run)
{
    if (as_number(a) > as_number(b))
        fail_msg(
            "run %llu: day %d, and %d for more", (unsigned long long)run, a, b);
}

static void
a_lower_due_reading_is_never_later(void **state)
{
    struct random r = {20261101};

    (void)state;
    for (uint64_t run = 0; run < RUNS; run++) {
        struct made m;
        make(&m, &r, 1 + (int)next(&r, 40));
        int64_t start = m.readings[0].value;
        struct reading from = {DAY0, start};
        int64_t less = start + 1 + (int64_t)next(&r, 90000);
        int64_t more = less + 1 + (int64_t)next(&r, next(&r, 2) ? 100 : 50000);
        struct forecast a = usage_forecast(&m.usage, from, less);
        struct forecast b = usage_forecast(&m.usage, from, more);
        assert_no_later(a.early, b.early, run);
        assert_no_later(a.likely, b.likely, run);
        assert_no_later(a.late, b.late, run);
    }
}

static void
early_likely_and_late_are_in_order(void **state)
{
    struct random r = {20261102};

    (void)state;
    for (uint64_t run = 0; run < RUNS; run++) {
        struct made m;
        make(&m, &r, 1 + (int)next(&r, 40));
        struct reading from = {DAY0, m.readings[0].value};
        struct forecast f = usage_forecast(
            &m.usage, from, from.value + 1 + (int64_t)next(&r, 90000));
        assert_no_later(f.early, f.likely, run);
        assert_no_later(f.likely, f.late, run);
    }
}

/* Nonzero when both days lie in one of the periods that misses are counted by:
 * four weeks and thirteen. */
static int
in_one_period(day_t a, day_t b)
{
    return a / 28 == b / 28 && a / 91 == b / 91;
}

/*
 * No use off the road, and the rate is the same, up to the rounding of the
 * reading: half a unit in a fade of 91 days at 20 a day or more are 0.0003 of
 * it, a tenth of a day in 365. A year and a half at most, so that no seasons
 * come in.
 */
static void
a_reading_on_the_line_moves_nothing(void **state)
{
    struct random r = {20261103};
    uint64_t held = 0;
    uint64_t other_view = 0; /* of which readings are wrong */

    (void)state;
    for (uint64_t run = 0; run < RUNS; run++) {
        struct made m;
        struct model model;
        make(&m, &r, 1 + (int)next(&r, 7));
        m.usage.n_spells = m.usage.n_spells > 1 ? 1 : m.usage.n_spells;
        struct reading last = m.readings[m.usage.n - 1];
        model_make(&model, &m.usage, DAY0 - 1);
        if (model.basis != FORECAST_READINGS || model.rate.a_day < 20 ||
            model.newest.day != last.day || last.day - DAY0 > 548)
            continue;
        day_t on = last.day + 1 + (day_t)next(&r, 60);
        int64_t due = last.value + (int64_t)(model.rate.a_day *
                                             (70 + (double)next(&r, 300)));
        struct reading from = {DAY0 - 1, due - 1};
        struct forecast a = usage_forecast(&m.usage, from, due);
        if (a.basis != FORECAST_READINGS)
            continue;
        double days = effective_days_at(&model.effective, on) -
                      effective_days_at(&model.effective, last.day);
        m.readings[m.usage.n++] =
            (struct reading){on, last.value + llround(model.rate.a_day * days)};
        struct forecast b = usage_forecast(&m.usage, from, due);
        if (a.left_out != b.left_out) {
            other_view++;
            continue;
        }
        held++;
        if (b.likely < a.likely - 1 || b.likely > a.likely + 1)
            fail_msg("run %llu: likely %d, then %d", (unsigned long long)run,
                a.likely, b.likely);
        if (in_one_period(last.day, on)) {
            assert_no_later(a.early, b.early + 1, run);
            assert_no_later(b.late, a.late + 1, run);
        }
    }
    assert_true(held > RUNS / 4);
    assert_true(other_view < RUNS / 100);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_lower_due_reading_is_never_later),
        cmocka_unit_test(early_likely_and_late_are_in_order),
        cmocka_unit_test(a_reading_on_the_line_moves_nothing),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
