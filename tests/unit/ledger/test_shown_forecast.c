/* Forecasts that stand, from one pass to the next. */
#include <sysexits.h>

#include "days.h"
#include "ledger_fixture.h"
#include "shown_forecast.h"
#include "test.h"

static struct calm *
calm(void)
{
    struct calm *c = calm_new((struct span){3, STEP_DAYS}, CALM_SETTLE);

    assert_non_null(c);
    return c;
}

static struct held
held(const char *subject, enum meter meter, const char *early)
{
    return (struct held){subject, "oil", "r1", meter,
        {.basis = FORECAST_READINGS,
            .early = date(early),
            .likely = date("2026-05-01"),
            .late = date("2026-09-01")}};
}

/* What stands of @h by the ledger; its forecast is that of @h when nothing
 * does. */
static struct forecast
stands(struct ledger *l, struct held h)
{
    struct calm *c = calm();

    assert_int_equal(shown_forecast_read(l, c, NULL), 0);
    calm_settle(c, FORECAST_EARLY, &h);
    calm_free(c);
    return h.forecast;
}

/* Settle that one and keep what changed. */
static void
keep(struct ledger *l, struct held h)
{
    struct calm *c = calm();

    assert_int_equal(shown_forecast_read(l, c, NULL), 0);
    calm_settle(c, FORECAST_EARLY, &h);
    assert_int_equal(shown_forecast_write(l, c, NULL), 0);
    calm_free(c);
}

static void
what_is_held_is_there_the_next_time(void **state)
{
    (void)state;
    struct ledger *l = opened(LEDGER_WRITE);
    keep(l, held("K7", METER_DISTANCE, "2026-03-01"));
    keep(l, held("K7", METER_HOURS, "2026-04-01"));
    struct held as_stated = held("K8", METER_DISTANCE, "2026-03-10");
    as_stated.forecast.basis = FORECAST_STATED;
    keep(l, as_stated);
    ledger_close(l);
    l = opened(LEDGER_WRITE);
    struct forecast f = stands(l, held("k7", METER_DISTANCE, "2026-03-03"));
    assert_int_equal(f.basis, FORECAST_READINGS);
    assert_int_equal(f.early, date("2026-03-01"));
    assert_int_equal(f.likely, date("2026-05-01"));
    assert_int_equal(f.late, date("2026-09-01"));
    f = stands(l, held("K7", METER_HOURS, "2026-04-02"));
    assert_int_equal(f.early, date("2026-04-01"));
    as_stated.forecast.early++;
    f = stands(l, as_stated);
    assert_int_equal(f.basis, FORECAST_STATED);
    assert_int_equal(f.early, date("2026-03-10"));
    ledger_close(l);
}

static void
what_moves_takes_its_place(void **state)
{
    (void)state;
    struct ledger *l = opened(LEDGER_WRITE);
    keep(l, held("K7", METER_DISTANCE, "2026-03-01"));
    keep(l, held("K7", METER_DISTANCE, "2026-03-02"));
    assert_int_equal(stands(l, held("K7", METER_DISTANCE, "2026-03-03")).early,
        date("2026-03-01"));
    keep(l, held("k7", METER_DISTANCE, "2026-03-04"));
    assert_int_equal(stands(l, held("K7", METER_DISTANCE, "2026-03-06")).early,
        date("2026-03-04"));
    ledger_close(l);
}

/* Of a job only the cycle in force is held, with those foretold from it: what
 * was held of others is gone, so that it would move by a day. */
static void
what_is_over_is_dropped(void **state)
{
    static const char *const over[] = {"r1", "r1+1", "r12", "none+1"};

    (void)state;
    struct ledger *l = opened(LEDGER_WRITE);
    struct held h = held("K7", METER_DISTANCE, "2026-03-01");
    struct held other = held("K8", METER_DISTANCE, "2026-03-01");
    keep(l, other);
    for (size_t i = 0; i < sizeof over / sizeof *over; i++) {
        h.cycle = over[i];
        keep(l, h);
    }
    h.cycle = "r2+1";
    keep(l, h);
    h.cycle = "r2";
    keep(l, h);
    h.forecast.early++;
    other.forecast.early++;
    assert_int_equal(stands(l, h).early, date("2026-03-01"));
    assert_int_equal(stands(l, other).early, date("2026-03-01"));
    h.cycle = "r2+1";
    assert_int_equal(stands(l, h).early, date("2026-03-01"));
    for (size_t i = 0; i < sizeof over / sizeof *over; i++) {
        h.cycle = over[i];
        assert_int_equal(stands(l, h).early, date("2026-03-02"));
    }
    ledger_close(l);
}

/* Who only looks needs no right to write, and nothing new is nothing to
 * write. */
static void
nothing_new_writes_nothing(void **state)
{
    struct fault f = {0, ""};

    (void)state;
    struct ledger *l = opened(LEDGER_WRITE);
    keep(l, held("K7", METER_DISTANCE, "2026-03-01"));
    ledger_close(l);
    l = opened(LEDGER_READ);
    keep(l, held("K7", METER_DISTANCE, "2026-03-02"));
    struct calm *c = calm();
    struct held moved = held("K7", METER_DISTANCE, "2026-03-09");
    assert_int_equal(shown_forecast_read(l, c, NULL), 0);
    calm_settle(c, FORECAST_EARLY, &moved);
    assert_int_equal(shown_forecast_write(l, c, &f), -1);
    assert_int_equal(f.code, EX_NOPERM);
    calm_free(c);
    ledger_close(l);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        TEST(what_is_held_is_there_the_next_time),
        TEST(what_moves_takes_its_place),
        TEST(what_is_over_is_dropped),
        TEST(nothing_new_writes_nothing),
    };

    return cmocka_run_group_tests_name("ledger_held", tests, NULL, NULL);
}
