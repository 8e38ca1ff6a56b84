/* From readings to a rate and to a day, by figures worked out by hand. */
#include "days.h"
#include "test.h"
#include "usage.h"

#define DAY0 20000
#define LENGTH(list) (sizeof(list) / sizeof(list)[0])

static const struct reading nowhere = {DAY0, 0};

static struct usage
usage_of(const struct reading *list, size_t n)
{
    return (struct usage){.readings = list, .n = n};
}

/* Fifty a day from 10000 on, read every thirty days: 19000 on day 180. */
static void
fifty_a_day(struct reading list[7])
{
    for (int i = 0; i < 7; i++)
        list[i] = (struct reading){DAY0 + 30 * i, 10000 + 1500 * i};
}

/* Ten a day for 91 days, then twenty for 91.  A day weighs 1/e of the one 91
 * days after it, so that the rate is (20 + 10/e) / (1 + 1/e) = 17.31: 1740 take
 * 100.5 days. */
static void
the_newest_use_counts_most(void **state)
{
    struct reading list[] = {{DAY0, 0}, {DAY0 + 91, 910}, {DAY0 + 182, 2730}};
    struct usage u = usage_of(list, 3);
    struct forecast f = usage_forecast(&u, nowhere, 2730 + 1740);

    (void)state;
    assert_int_equal(f.basis, FORECAST_READINGS);
    assert_int_equal(f.likely, DAY0 + 182 + 100);
}

/*
 * Fifty a day for 20 days, and 5000 to go: 100 days.  Nothing was foretold yet,
 * so the usual stands: 0.10 (1 - 20/365.25) = 0.0945 for the part of the year
 * not seen, with 0.01 a quarter's variance is 0.1045, with 0.02 a month's
 * 0.1145.  The power is log(0.1145/0.1045) / log(91/28) = 0.078, the variance
 * for 100 days 0.1045 (91/100)^0.078 = 0.1038, its root 0.3221, and Student's
 * ninth tenth with three degrees 1.627: e^0.5241 = 1.689, so 59.2 days and
 * 168.9.
 */
static void
early_and_late(void **state)
{
    struct reading list[] = {{DAY0, 10000}, {DAY0 + 20, 11000}};
    struct usage u = usage_of(list, 2);
    struct forecast f = usage_forecast(&u, nowhere, 16000);

    (void)state;
    assert_int_equal(f.early, DAY0 + 20 + 59);
    assert_int_equal(f.likely, DAY0 + 20 + 100);
    assert_int_equal(f.late, DAY0 + 20 + 168);
    assert_int_equal(f.seasonal, 0);
    assert_int_equal(f.left_out, 0);
}

/* The stated 365.25 times 20 a day count as the quarter before the first
 * reading.  Fifty a day in the next: (50 + 20/e) / (1 + 1/e) = 41.93, so that
 * 4200 take 100.2 days. */
static void
the_stated_use_counts_before_the_first(void **state)
{
    struct reading list[] = {{DAY0, 10000}, {DAY0 + 91, 14550}};
    struct usage u = usage_of(list, 2);

    (void)state;
    u.yearly = 7305;
    struct forecast f = usage_forecast(&u, nowhere, 14550 + 4200);
    assert_int_equal(f.basis, FORECAST_READINGS);
    assert_int_equal(f.likely, DAY0 + 91 + 100);
}

/* However regular, use may change: a long row of readings on a line leaves the
 * early day some days before the likely one. */
static void
nothing_invents_precision(void **state)
{
    struct reading list[200];
    struct usage u = usage_of(list, LENGTH(list));

    (void)state;
    for (int i = 0; i < 200; i++)
        list[i] = (struct reading){DAY0 + 7 * i, INT64_C(350) * i};
    struct forecast f = usage_forecast(&u, nowhere, list[199].value + 10000);
    assert_int_equal(f.likely, list[199].day + 200);
    assert_in_range(f.early, list[199].day + 160, list[199].day + 190);
    assert_in_range(f.late, list[199].day + 210, list[199].day + 250);
}

/* 5000 to go at fifty a day, whatever stands in one reading of the seven: a
 * digit too many, one missing, two the wrong way round, another vehicle's. */
static void
one_wrong_reading(void **state)
{
    static const int64_t wrong[] = {145000, 1450, 41500, 3, 99999};
    struct reading list[7];
    struct usage u = usage_of(list, 7);

    (void)state;
    for (size_t at = 1; at < 6; at++)
        for (size_t i = 0; i < LENGTH(wrong); i++) {
            fifty_a_day(list);
            list[at].value = wrong[i];
            struct forecast f = usage_forecast(&u, nowhere, 24000);
            assert_int_equal(f.likely, DAY0 + 180 + 100);
            assert_int_equal(f.left_out, 1);
        }
}

/* Wrong in the same way twice, and in different ways at the ends. */
static void
two_wrong_readings(void **state)
{
    struct reading list[7];
    struct usage u = usage_of(list, 7);

    (void)state;
    fifty_a_day(list);
    list[2].value = 130000;
    list[3].value = 145000;
    assert_int_equal(
        usage_forecast(&u, nowhere, 24000).likely, DAY0 + 180 + 100);
    fifty_a_day(list);
    list[0].value = 100000;
    list[6].value = 1900; /* the one before stands at 17500: 6500 to go */
    assert_int_equal(
        usage_forecast(&u, nowhere, 24000).likely, DAY0 + 150 + 130);
}

/* 91000 for 19000.  It may be wrong, so the likely day goes by those before;
 * but the early day counts it, and a due reading that it shows is reached. */
static void
the_newest_far_too_high(void **state)
{
    struct reading list[8];
    struct usage u = usage_of(list, 7);

    (void)state;
    fifty_a_day(list);
    list[6].value = 91000;
    struct forecast f = usage_forecast(&u, nowhere, 92000);
    assert_int_equal(f.likely, DAY0 + 150 + (92000 - 17500) / 50);
    assert_in_range(f.early, DAY0 + 180, DAY0 + 180 + 20);
    f = usage_forecast(&u, nowhere, 24000);
    assert_int_equal(f.basis, FORECAST_REACHED);
    assert_int_equal(f.early, DAY0 + 180);
    /* The next one says that it was wrong. */
    u.n = 8;
    list[7] = (struct reading){DAY0 + 200, 20000};
    f = usage_forecast(&u, nowhere, 24000);
    assert_int_equal(f.basis, FORECAST_READINGS);
    assert_int_equal(f.likely, DAY0 + 200 + 80);
}

/* It says that the due reading was not shown yet, for what it is worth: by
 * those before, 500 more than 17500 would have been on day 160. */
static void
the_newest_far_too_low(void **state)
{
    struct reading list[7];
    struct usage u = usage_of(list, 7);

    (void)state;
    fifty_a_day(list);
    list[6] = (struct reading){DAY0 + 250, 1900};
    struct forecast f = usage_forecast(&u, nowhere, 18000);
    assert_int_equal(f.left_out, 1);
    assert_int_equal(f.early, DAY0 + 250);
    assert_int_equal(f.likely, DAY0 + 250);
}

/* Of two readings of one day the last stands: 90 of them are left. */
static void
twice_on_one_day(void **state)
{
    struct reading list[] = {{DAY0, 10000}, {DAY0 + 30, 11500},
        {DAY0 + 60, 31000}, {DAY0 + 60, 13000}};
    struct usage u = usage_of(list, 4);

    (void)state;
    assert_int_equal(usage_forecast(&u, nowhere, 17510).likely, DAY0 + 60 + 90);
}

/* A reserve bus, ten kilometres a month, put on a route: at most ten times as
 * much is believed at first, and all of it once readings agree. */
static void
put_to_other_use(void **state)
{
    struct reading list[20];
    struct usage u = usage_of(list, 17);

    (void)state;
    for (int i = 0; i < 20; i++)
        list[i] = (struct reading){
            DAY0 + 30 * i, 10000 + 10 * i + (i > 15 ? 2400 * (i - 15) : 0)};
    assert_int_equal(usage_forecast(&u, nowhere, 40000).left_out, 1);
    u.n = 20;
    struct forecast f = usage_forecast(&u, nowhere, 40000);
    assert_int_equal(f.left_out, 0);
    /* 120 days at eighty weigh 1 - e^(-120/91) = 0.73: 59 a day. */
    assert_in_range(
        f.likely, list[19].day + 20240 / 62, list[19].day + 20240 / 56);
}

/* The readings of a meter that was replaced go on below nothing. */
static void
below_zero(void **state)
{
    struct reading list[7];
    struct usage u = usage_of(list, 7);
    struct reading from = {DAY0, -9000};

    (void)state;
    fifty_a_day(list);
    for (int i = 0; i < 7; i++)
        list[i].value -= 19000;
    assert_int_equal(usage_forecast(&u, from, 5000).likely, DAY0 + 180 + 100);
    assert_int_equal(usage_at(&u, DAY0 - 10), -9500);
}

/* Fifty on each of the 60 days on the road of 90; then twenty more days of it,
 * nine before a spell of ten and eleven after. */
static void
off_the_road(void **state)
{
    struct reading list[] = {
        {DAY0, 10000}, {DAY0 + 30, 11500}, {DAY0 + 90, 13000}};
    struct spell spells[] = {{DAY0 + 31, DAY0 + 60}, {DAY0 + 100, DAY0 + 109}};
    struct usage u = usage_of(list, 3);

    (void)state;
    u.spells = spells;
    u.n_spells = 1;
    assert_int_equal(usage_forecast(&u, nowhere, 14000).likely, DAY0 + 110);
    u.n_spells = 2;
    assert_int_equal(usage_forecast(&u, nowhere, 14000).likely, DAY0 + 120);
    /* With no return known it counts up to the newest reading: it errs early.
     */
    spells[1].until = DAY_NONE;
    assert_int_equal(usage_forecast(&u, nowhere, 14000).likely, DAY0 + 110);
    assert_int_equal(usage_at(&u, DAY0 + 92), 13100);
}

/* Thirteen days are too few to tell a rate. */
static void
too_close(void **state)
{
    struct reading list[] = {{DAY0, 0}, {DAY0 + 14, 140}};
    struct usage u = usage_of(list, 2);

    (void)state;
    assert_int_equal(usage_forecast(&u, nowhere, 1145).likely, DAY0 + 114);
    list[1].day--;
    assert_int_equal(usage_forecast(&u, nowhere, 1145).basis, FORECAST_NONE);
}

/* 36525 a year are 100 a day: 150 when fast, 70 when slow. */
static void
the_stated_use(void **state)
{
    struct usage u = {.yearly = 36525};
    struct forecast f = usage_forecast(&u, nowhere, 15010);

    (void)state;
    assert_int_equal(f.basis, FORECAST_STATED);
    assert_int_equal(f.early, DAY0 + 100);
    assert_int_equal(f.likely, DAY0 + 150);
    assert_int_equal(f.late, DAY0 + 214);
    u.yearly = 0;
    f = usage_forecast(&u, nowhere, 15010);
    assert_int_equal(f.basis, FORECAST_NONE);
    assert_int_equal(f.early, DAY_NONE);
}

/* The stated use counts on from the newest reading. */
static void
the_stated_use_from_one_reading(void **state)
{
    struct reading one = {DAY0 + 50, 5000};
    struct usage u = usage_of(&one, 1);

    (void)state;
    u.yearly = 36525;
    struct forecast f = usage_forecast(&u, nowhere, 15010);
    assert_int_equal(f.basis, FORECAST_STATED);
    assert_int_equal(f.likely, DAY0 + 150);
}

/* A reading before the cycle began says nothing of it. */
static void
a_reading_that_shows_it(void **state)
{
    struct reading list[] = {
        {DAY0 - 10, 900}, {DAY0 + 20, 950}, {DAY0 + 40, 1000}};
    struct usage u = usage_of(list, 3);
    struct forecast f = usage_forecast(&u, nowhere, 1000);

    (void)state;
    assert_int_equal(f.basis, FORECAST_REACHED);
    assert_int_equal(f.early, DAY0 + 40);
    assert_int_equal(f.likely, DAY0 + 40);
    assert_int_equal(f.late, DAY0 + 40);
    assert_int_not_equal(
        usage_forecast(&u, nowhere, 1001).basis, FORECAST_REACHED);
    assert_int_equal(usage_forecast(&u, nowhere, 900).early, DAY0 + 20);
    struct reading then = {DAY0 - 10, 0};
    assert_int_equal(usage_forecast(&u, then, 900).early, DAY0 - 10);
}

/* One in a hundred days: the day lies past the range, and is none. */
static void
so_slow_that_there_is_no_day(void **state)
{
    struct reading list[] = {{DAY0, 1000}, {DAY0 + 100, 1001}};
    struct usage u = usage_of(list, 2);
    struct forecast f = usage_forecast(&u, nowhere, 21000);

    (void)state;
    assert_int_equal(f.basis, FORECAST_READINGS);
    assert_int_equal(f.early, DAY_NONE);
    list[1].value = 1000; /* not used at all: no rate to go by */
    assert_int_equal(usage_forecast(&u, nowhere, 21000).basis, FORECAST_NONE);
}

static void
what_the_meter_showed(void **state)
{
    struct reading list[] = {{DAY0, 10000}, {DAY0 + 100, 15000}};
    struct usage u = usage_of(list, 2);

    (void)state;
    assert_int_equal(usage_at(&u, DAY0), 10000);
    assert_int_equal(usage_at(&u, DAY0 + 100), 15000);
    assert_int_equal(usage_at(&u, DAY0 + 50), 12500);
    assert_int_equal(usage_at(&u, DAY0 + 1), 10050);
    assert_int_equal(usage_at(&u, DAY0 + 110), 15500);
    assert_int_equal(usage_at(&u, DAY0 - 10), 9500);
    assert_int_equal(usage_at(&u, DAY0 - 1000), 0);
    u.n = 1;
    assert_int_equal(usage_at(&u, DAY0 + 10), 10000);
    u.yearly = 36525;
    assert_int_equal(usage_at(&u, DAY0 + 10), 11000);
    u.n = 0;
    assert_true(usage_at(&u, DAY0) == USAGE_UNKNOWN);
}

/* What was left out says nothing: half way between 13000 and 16000. */
static void
what_it_showed_is_not_what_is_wrong(void **state)
{
    struct reading list[7];
    struct usage u = usage_of(list, 7);

    (void)state;
    fifty_a_day(list);
    list[3].value = 145000;
    assert_int_equal(usage_at(&u, DAY0 + 90), 14500);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_newest_use_counts_most),
        cmocka_unit_test(early_and_late),
        cmocka_unit_test(the_stated_use_counts_before_the_first),
        cmocka_unit_test(nothing_invents_precision),
        cmocka_unit_test(one_wrong_reading),
        cmocka_unit_test(two_wrong_readings),
        cmocka_unit_test(the_newest_far_too_high),
        cmocka_unit_test(the_newest_far_too_low),
        cmocka_unit_test(twice_on_one_day),
        cmocka_unit_test(put_to_other_use),
        cmocka_unit_test(below_zero),
        cmocka_unit_test(off_the_road),
        cmocka_unit_test(too_close),
        cmocka_unit_test(the_stated_use),
        cmocka_unit_test(the_stated_use_from_one_reading),
        cmocka_unit_test(a_reading_that_shows_it),
        cmocka_unit_test(so_slow_that_there_is_no_day),
        cmocka_unit_test(what_the_meter_showed),
        cmocka_unit_test(what_it_showed_is_not_what_is_wrong),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
