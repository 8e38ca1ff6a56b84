/*
 * The calendar layer against QuantLib, on random days: steps, rolling and
 * working days.  Usage: quantlib SEED.  Prints a TAP line a kind of question.
 *
 * QuantLib's Nearest is not FpML's: it takes the closer side and, of two as
 * close, the following, so a lone Tuesday holiday goes to Wednesday where
 * FpML's goes to Monday.  Ours is FpML's: on a Sunday or a Monday QuantLib's
 * Following, on other days its Preceding.
 */
#include <ql/time/calendars/bespokecalendar.hpp>
#include <ql/time/calendars/jointcalendar.hpp>
#include <ql/time/calendars/nullcalendar.hpp>
#include <ql/time/calendars/unitedkingdom.hpp>

#include <cstdio>
#include <cstdlib>
#include <functional>
#include <random>
#include <set>
#include <vector>

extern "C" {
#include "day.h"
#include "isoweek.h"
#include "step.h"
#include "work_calendar.h"

#include "uk_holidays.h"
}

namespace ql = QuantLib;

namespace {

/* QuantLib counts days as spreadsheets do: 1970-01-01 is 25569. */
const int kEpoch = 25569;

ql::Date
to_theirs(day_t d)
{
    return ql::Date(ql::Date::serial_type(d + kEpoch));
}

day_t
to_ours(const ql::Date &d)
{
    return day_t(d.serialNumber() - kEpoch);
}

/* Their answer, or no day when it lies beyond 2199, which both refuse. */
day_t
theirs(const std::function<ql::Date()> &question)
{
    try {
        return to_ours(question());
    } catch (const std::exception &) {
        return DAY_NONE;
    }
}

class Random {
  public:
    explicit Random(unsigned seed) : engine_(seed)
    {
    }

    int
    between(int low, int high)
    {
        return std::uniform_int_distribution<int>(low, high)(engine_);
    }

    /* QuantLib begins in 1901; steps back from 1905 stay inside. */
    day_t
    day()
    {
        return between(day_of(1905, 1, 1), DAY_LAST);
    }

  private:
    std::mt19937 engine_;
};

/* The cases of one kind of question. */
class Check {
  public:
    explicit Check(const char *name) : name_(name)
    {
    }

    void
    same(day_t d, int n, long got, long want)
    {
        char text[DAY_TEXT];

        cases_++;
        if (got == want)
            return;
        if (wrong_++ < 5)
            std::printf("# %s: %s, %d: ours %ld, theirs %ld\n", name_,
                day_text(d, text), n, got, want);
    }

    /* Print the line; returns the number of cases, or -1. */
    long
    report() const
    {
        bool good = wrong_ == 0 && cases_ > 0;

        std::printf("%s - %s: %ld cases, %ld differ\n", good ? "ok" : "not ok",
            name_, cases_, wrong_);
        return good ? cases_ : -1;
    }

  private:
    const char *name_;
    long cases_ = 0;
    long wrong_ = 0;
};

/* The cases of several checks, or -1 when one of them failed. */
long
sum(const std::vector<long> &cases)
{
    long total = 0;

    for (long n : cases) {
        if (n < 0)
            return -1;
        total += n;
    }
    return total;
}

/* One calendar in both libraries. */
struct Pair {
    work_calendar *ours;
    ql::Calendar theirs;
};

/* Our calendar of a week from Monday to Friday and the holidays of @set. */
work_calendar *
weekdays_but(const holiday_set &set)
{
    const holiday_set *sets[] = {&set};
    work_calendar_plan plan = {};

    plan.works = 0x1f;
    plan.holidays = sets;
    plan.n_holidays = 1;
    return work_calendar_new(&plan);
}

/* Their holidays of 1901 to 2199 become days added to a set of ours. */
Pair
united_kingdom()
{
    ql::UnitedKingdom uk(ql::UnitedKingdom::Settlement);
    std::vector<named_day> added;

    for (const ql::Date &d :
        uk.holidayList(ql::Date::minDate(), ql::Date::maxDate(), false))
        added.push_back({to_ours(d), "holiday"});
    holiday_set set = {};
    set.added = added.data();
    set.n_added = added.size();
    set.known_until = DAY_NONE;
    return {weekdays_but(set), uk};
}

/* A weekly pattern, some closures and some openings. */
Pair
bespoke(weekdays_t works, Random &random)
{
    ql::BespokeCalendar their;
    std::vector<named_day> closed;
    std::vector<day_t> open;
    std::set<day_t> taken;

    for (int i = 0; i < 7; i++) /* theirs count from Sunday as 1 */
        if (!(works >> i & 1))
            their.addWeekend(ql::Weekday((i + 1) % 7 + 1));
    for (int i = 0; i < 3000; i++) {
        day_t d = random.day();
        if (!taken.insert(d).second)
            continue;
        if (i % 3 == 0) {
            open.push_back(d);
            their.removeHoliday(to_theirs(d));
        } else {
            closed.push_back({d, "closed"});
            their.addHoliday(to_theirs(d));
        }
    }
    work_calendar_plan plan = {};
    plan.works = works;
    plan.closed = closed.data();
    plan.n_closed = closed.size();
    plan.open = open.data();
    plan.n_open = open.size();
    return {work_calendar_new(&plan), their};
}

long
check_days()
{
    Check check("days from 1901 to 2199");

    for (day_t d = day_of(1901, 1, 1); d <= DAY_LAST; d++) {
        ql::Date t = to_theirs(d);
        ymd o = day_ymd(d);
        check.same(d, 1, o.year, t.year());
        check.same(d, 2, o.month, t.month());
        check.same(d, 3, o.day, t.dayOfMonth());
        check.same(d, 4, day_weekday(d), (t.weekday() + 5) % 7);
        check.same(d, 5, day_of(o.year, o.month, o.day), d);
        check.same(d, 6, step_month_last(d), to_ours(ql::Date::endOfMonth(t)));
    }
    return check.report();
}

long
check_steps(Random &random)
{
    Check check("steps of days, weeks, months and years");
    ql::NullCalendar null;

    for (int i = 0; i < 150000; i++) {
        day_t d = random.day();
        int n = random.between(-40, 240);
        auto unit = step_unit(random.between(STEP_DAYS, STEP_YEARS));
        auto rule = month_end(random.between(0, 1));
        if (unit == STEP_YEARS)
            n = random.between(-3, 40);
        static const ql::TimeUnit units[] = {
            ql::Days, ql::Weeks, ql::Months, ql::Years};
        /* Looking for a month's end, theirs asks for the day after. */
        if (d == DAY_LAST && rule == MONTH_END_STICKY)
            continue;
        day_t want = theirs([&] {
            return null.advance(to_theirs(d), n, units[unit], ql::Unadjusted,
                rule == MONTH_END_STICKY);
        });
        check.same(d, n, step_span(d, span{n, unit}, 1, rule), want);
    }
    return check.report();
}

void
check_roll(Check &check, const Pair &pair, day_t d)
{
    ql::Date t = to_theirs(d);
    auto adjust = [&](ql::BusinessDayConvention convention) {
        return theirs([&] { return pair.theirs.adjust(t, convention); });
    };
    int weekday = day_weekday(d);

    check.same(
        d, 1, work_calendar_is_open(pair.ours, d), pair.theirs.isBusinessDay(t));
    check.same(d, 2, work_calendar_preceding(pair.ours, d), adjust(ql::Preceding));
    check.same(d, 3, work_calendar_following(pair.ours, d), adjust(ql::Following));
    check.same(d, 4, work_calendar_nearest(pair.ours, d),
        adjust(weekday == 6 || weekday == 0 ? ql::Following : ql::Preceding));
}

void
check_count(Check &check, const Pair &pair, day_t d, Random &random)
{
    ql::Date t = to_theirs(d);
    int n = random.between(-60, 60);
    int span = random.between(0, 200);
    day_t to = d > DAY_LAST - span ? DAY_LAST : d + span;

    check.same(d, n, work_calendar_add(pair.ours, d, n), theirs([&] {
        return pair.theirs.advance(t, n, ql::Days, ql::Unadjusted);
    }));
    if (to > d)
        check.same(d, span, work_calendar_between(pair.ours, d, to),
            pair.theirs.businessDaysBetween(t, to_theirs(to), false, true));
}

void
check_days_of(Check &check, const Pair &pair, int days, Random &random)
{
    for (int i = 0; i < days && pair.ours != nullptr; i++) {
        day_t d = random.day();
        check_roll(check, pair, d);
        check_count(check, pair, d, random);
    }
}

/* The United Kingdom's calendar, and every weekly pattern but the one that
 * never works, alone and together with it. */
long
check_calendars(const Pair &uk, Random &random)
{
    Check kingdom("working days of the United Kingdom");
    Check alone("working days of 127 weekly patterns");
    Check together("working days of two calendars at once");

    check_days_of(kingdom, uk, 20000, random);
    for (weekdays_t works = 1; works <= WEEKDAYS_ALL; works++) {
        Pair pair = bespoke(works, random);
        check_days_of(alone, pair, 250, random);
        if (pair.ours != nullptr && (works & 0x1f) != 0) {
            Pair both = {work_calendar_both(uk.ours, pair.ours),
                ql::JointCalendar(uk.theirs, pair.theirs, ql::JoinHolidays)};
            check_days_of(together, both, 50, random);
            work_calendar_free(both.ours);
        }
        work_calendar_free(pair.ours);
    }
    return sum({kingdom.report(), alone.report(), together.report()});
}

/* Our rules for England and Wales, a substitute for each weekend, against
 * theirs, which are written as one condition a holiday. */
long
check_rules()
{
    Check check("holiday rules of England and Wales, 2015 to 2199");
    ql::UnitedKingdom uk(ql::UnitedKingdom::Settlement);
    work_calendar *ours = weekdays_but(uk_nations[0].holidays);

    for (day_t d = day_of(2015, 1, 1); ours != nullptr && d <= DAY_LAST; d++)
        check.same(
            d, 0, work_calendar_is_open(ours, d), uk.isBusinessDay(to_theirs(d)));
    work_calendar_free(ours);
    return check.report();
}

} // namespace

int
main(int argc, char **argv)
{
    unsigned seed = argc > 1 ? unsigned(std::strtoul(argv[1], nullptr, 10)) : 1;
    Random random(seed);

    std::printf("# seed %u\n", seed);
    Pair uk = united_kingdom();
    long total = sum({check_days(), check_steps(random),
        check_calendars(uk, random), check_rules()});
    work_calendar_free(uk.ours);
    std::printf("# %ld cases in all\n", total);
    return total < 0;
}
