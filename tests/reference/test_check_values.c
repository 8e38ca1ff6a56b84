/*
 * Steps of days, months and years against worked values from Acts, cases,
 * official guidance and standards; each row names its source.  "Worked" marks
 * values worked out by hand from the rule that is named.
 */
#include "days.h"
#include "step.h"
#include "test.h"

/* What a row asks of the day @from and its number @n. */
enum ask {
    MONTHS,    /* n months on */
    STICKY,    /* the same, month ends stay month ends */
    EVE,       /* the last day of n months beginning that day */
    EVE_DAYS,  /* the last day of n days beginning that day */
    MONTH_END, /* the end of the month that lies n months on */
    OPENS      /* the day after the one n months before */
};

struct value {
    const char *source;
    const char *from;
    enum ask ask;
    int n;
    const char *want;
};

static const struct value values[] = {
    /* Dodds v Walker [1981] 1 WLR 1027, House of Lords: the corresponding
     * date; 31 January was one day late. */
    {"Dodds v Walker", "1978-09-30", MONTHS, 4, "1979-01-30"},
    /* E J Riley Investments v Eurostile Holdings (Estates Gazette's report). */
    {"Riley v Eurostile", "1983-03-23", MONTHS, 2, "1983-05-23"},
    /* Where there is no corresponding date, the last day: Regulation (EEC)
     * 1182/71, article 3(2). */
    {"1182/71 worked, 31 Oct", "2026-10-31", MONTHS, 4, "2027-02-28"},
    {"1182/71 worked, 31 Jan", "2026-01-31", MONTHS, 1, "2026-02-28"},
    {"1182/71 worked, leap year", "2028-01-31", MONTHS, 1, "2028-02-29"},
    {"1182/71 worked, 31 Aug", "2026-08-31", MONTHS, 6, "2027-02-28"},
    {"1182/71 worked, 29 Feb", "2024-02-29", MONTHS, 12, "2025-02-28"},
    {"1182/71 worked, four years", "2024-02-29", MONTHS, 48, "2028-02-29"},
    {"1182/71 worked, 30 Apr", "2026-04-30", MONTHS, 6, "2026-10-30"},
    {"1182/71 worked, 28 Feb", "2026-02-28", MONTHS, 6, "2026-08-28"},
    {"1182/71 worked, 31 Dec", "2026-12-31", MONTHS, 15, "2028-03-31"},
    /* FpML 5.8, RollConventionEnum EOM: "irrespective of the length of the
     * month and the previous roll day". */
    {"FpML EOM worked, 30 Apr", "2026-04-30", STICKY, 6, "2026-10-31"},
    {"FpML EOM worked, 28 Feb", "2026-02-28", STICKY, 6, "2026-08-31"},
    {"FpML EOM worked, 29 Feb", "2024-02-29", STICKY, 12, "2025-02-28"},
    {"FpML EOM worked, no end", "2026-04-29", STICKY, 6, "2026-10-29"},
    /* W3C XML Schema part 2, appendix E: 2000-01 less P3M is 1999-10. */
    {"XML Schema, backwards", "2000-01-01", MONTHS, -3, "1999-10-01"},
    /* GOV.UK, "Getting an MOT", summer 2020: the six months' extension. */
    {"MOT extended", "2020-07-31", MONTHS, 6, "2021-01-31"},
    /* The third anniversary of registration: GOV.UK, "Getting an MOT", as
     * quoted by garages. */
    {"first MOT, March", "2005-03-01", MONTHS, 36, "2008-03-01"},
    {"first MOT, July", "2005-07-01", MONTHS, 36, "2008-07-01"},
    /* "Up to a month (minus a day) before it runs out": runs out on 15 May,
     * earliest 16 April (GOV.UK); the 2007 and 2008 editions. */
    {"MOT window, 15 May", "2026-05-15", OPENS, 1, "2026-04-16"},
    {"MOT window, 2007", "2007-04-01", OPENS, 1, "2007-03-02"},
    {"MOT renewed, 2007", "2007-04-01", MONTHS, 12, "2008-04-01"},
    {"MOT window, 2008", "2008-03-01", OPENS, 1, "2008-02-02"},
    {"MOT renewed, 2008", "2008-03-01", MONTHS, 12, "2009-03-01"},
    {"MOT window worked, 31 Mar", "2027-03-31", OPENS, 1, "2027-03-01"},
    {"MOT window worked, 30 Mar", "2027-03-30", OPENS, 1, "2027-03-01"},
    {"MOT window worked, 29 Mar", "2027-03-29", OPENS, 1, "2027-03-01"},
    {"MOT window worked, 1 Mar", "2027-03-01", OPENS, 1, "2027-02-02"},
    {"MOT window worked, 31 May", "2026-05-31", OPENS, 1, "2026-05-01"},
    {"MOT window worked, 31 Dec", "2026-12-31", OPENS, 1, "2026-12-01"},
    /* The earlier of the two readings that short months allow. */
    {"MOT window worked, 28 Feb", "2027-02-28", OPENS, 1, "2027-01-29"},
    {"MOT window worked, 29 Feb", "2028-02-29", OPENS, 1, "2028-01-30"},
    {"MOT window worked, 30 Apr", "2026-04-30", OPENS, 1, "2026-03-31"},
    /* A year minus a day, from the day of the test. */
    {"MOT lasts, 10 April", "2026-04-10", EVE, 12, "2027-04-09"},
    {"MOT lasts worked, 15 May", "2026-05-15", EVE, 12, "2027-05-14"},
    {"MOT lasts worked, 1 Mar", "2026-03-01", EVE, 12, "2027-02-28"},
    /* Goods Vehicles (Plating and Testing) Regulations 1988 (SI 1988/1478),
     * regulation 11: to the last day of the month a year on. */
    {"goods, first worked", "2026-03-10", MONTH_END, 12, "2027-03-31"},
    {"goods, leap worked", "2027-02-05", MONTH_END, 12, "2028-02-29"},
    {"goods, early worked", "2027-01-15", MONTH_END, 12, "2028-01-31"},
    {"goods, renewed worked", "2027-03-31", MONTH_END, 12, "2028-03-31"},
    /* Regulation (EU) 2016/799, annex IC (409): within 24 months. */
    {"tachograph worked, 29 Feb", "2024-02-29", MONTHS, 24, "2026-02-28"},
    {"tachograph worked, 31 Aug", "2026-08-31", MONTHS, 24, "2028-08-31"},
    /* SI 2008/198, regulation 2: 42 days starting on the day after 1 Jan. */
    {"tachograph chart worked", "2026-01-02", EVE_DAYS, 42, "2026-02-12"},
    /* LOLER 1998, regulation 9(3)(a)(i): every six months. */
    {"lift worked, 31 Aug", "2026-08-31", MONTHS, 6, "2027-02-28"},
    {"lift worked, month ends", "2026-02-28", STICKY, 6, "2026-08-31"},
};

static day_t
answer(const struct value *v)
{
    day_t from = date(v->from);

    switch (v->ask) {
    case MONTHS:
        return step_months(from, v->n, MONTH_END_CLAMP);
    case STICKY:
        return step_months(from, v->n, MONTH_END_STICKY);
    case EVE:
        return step_period_last(from, (struct span){v->n, STEP_MONTHS});
    case EVE_DAYS:
        return step_period_last(from, (struct span){v->n, STEP_DAYS});
    case MONTH_END:
        return step_month_last(step_months(from, v->n, MONTH_END_CLAMP));
    case OPENS:
        return step_days(step_months(from, -v->n, MONTH_END_CLAMP), 1);
    }
    return DAY_NONE;
}

static void
value_holds(void **state)
{
    const struct value *v = *state;

    assert_day(answer(v), v->want);
}

/* W3C XML Schema part 2, appendix E: the order of additions matters. */
static void
xml_schema_orders_additions(void **state)
{
    day_t d = date("2000-03-30");

    (void)state;
    assert_day(step_months(step_days(d, 1), 1, MONTH_END_CLAMP), "2000-04-30");
    assert_day(step_days(step_months(d, 1, MONTH_END_CLAMP), 1), "2000-05-01");
}

/* Worked: from 31 January 2026 month by month, anchored and chained. */
static void
anchored_steps_do_not_drift(void **state)
{
    static const char *const anchored[] = {
        "2026-02-28", "2026-03-31", "2026-04-30"};
    static const char *const chained[] = {
        "2026-02-28", "2026-03-28", "2026-04-28"};
    struct span month = {1, STEP_MONTHS};
    day_t anchor = date("2026-01-31");
    day_t last = anchor;

    (void)state;
    for (int i = 0; i < 3; i++) {
        last = step_span(last, month, 1, MONTH_END_CLAMP);
        assert_day(last, chained[i]);
        assert_day(
            step_span(anchor, month, i + 1, MONTH_END_CLAMP), anchored[i]);
    }
}

int
main(void)
{
    struct CMUnitTest tests[COUNT(values) + 2] = {
        cmocka_unit_test(xml_schema_orders_additions),
        cmocka_unit_test(anchored_steps_do_not_drift),
    };

    for (size_t i = 0; i < COUNT(values); i++)
        tests[i + 2] = (struct CMUnitTest){
            values[i].source, value_holds, NULL, NULL, (void *)&values[i]};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
