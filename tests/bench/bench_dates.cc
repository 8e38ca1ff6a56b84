/*
 * Date steps against QuantLib (libquantlib0-dev), in one run and on the same
 * random dates: so many months and the working day before, so many weeks and
 * the working day before, so many working days.  Prints both rates and their
 * ratio; the sums show that both did the same work.
 */
#include <ql/time/calendars/unitedkingdom.hpp>
#include <ql/time/date.hpp>

#include <chrono>
#include <cstdio>
#include <random>
#include <vector>

extern "C" {
#include "step.h"
#include "work_calendar.h"
}

namespace ql = QuantLib;

/* QuantLib counts days from 1899-12-30, as spreadsheets do. */
static const int epoch = 25569;

static double
seconds()
{
    using clock = std::chrono::steady_clock;
    return std::chrono::duration<double>(clock::now().time_since_epoch())
        .count();
}

struct question {
    day_t day;
    int n;
};

static std::vector<question>
questions(size_t count, int most)
{
    std::mt19937 random(20261125);
    std::uniform_int_distribution<int> day(
        day_of(1975, 1, 1), day_of(2100, 12, 31));
    std::uniform_int_distribution<int> n(1, most);
    std::vector<question> out(count);

    for (auto &q : out)
        q = {day(random), n(random)};
    return out;
}

/* Time @answer over the questions: rate a second; adds up the answers. */
template <typename F>
static double
rate(const std::vector<question> &qs, F answer, long long *sum)
{
    double start = seconds();

    *sum = 0;
    for (const auto &q : qs)
        *sum += answer(q);
    return (double)qs.size() / (seconds() - start);
}

template <typename Ours, typename Theirs>
static int
compare(const char *what, int most, Ours ours, Theirs theirs)
{
    auto many = questions(20000000, most);
    std::vector<question> few(many.begin(), many.begin() + 200000);
    long long all;
    long long a;
    long long b;

    rate(few, ours, &a);
    double our_rate = rate(many, ours, &all);
    double their_rate = rate(few, theirs, &b);
    std::printf("%-28s ours %7.1f M/s   QuantLib %6.3f M/s   ratio %5.0f   %s\n",
        what, our_rate / 1e6, their_rate / 1e6, our_rate / their_rate,
        a == b ? "same answers" : "ANSWERS DIFFER");
    return a == b ? 0 : 1;
}

int
main()
{
    ql::UnitedKingdom uk(ql::UnitedKingdom::Settlement);
    std::vector<named_day> closed;

    for (day_t d = day_of(1970, 1, 1); d <= day_of(2110, 12, 31); d++) {
        ql::Date date(d + epoch);
        if (day_weekday(d) < 5 && !uk.isBusinessDay(date))
            closed.push_back({d, "holiday"});
    }
    work_calendar_plan plan = {};
    plan.works = 0x1f;
    plan.closed = closed.data();
    plan.n_closed = closed.size();
    work_calendar *c = work_calendar_new(&plan);
    if (c == nullptr)
        return 71;

    auto theirs = [&](ql::TimeUnit unit) {
        return [&uk, unit](const question &q) -> long long {
            return uk.advance(ql::Date(q.day + epoch), q.n, unit,
                         ql::Preceding)
                       .serialNumber() -
                   epoch;
        };
    };
    int bad = compare(
        "months, working day before", 60,
        [c](const question &q) -> long long {
            return work_calendar_preceding(
                c, step_months(q.day, q.n, MONTH_END_CLAMP));
        },
        theirs(ql::Months));
    bad |= compare(
        "weeks, working day before", 60,
        [c](const question &q) -> long long {
            return work_calendar_preceding(c, step_days(q.day, 7 * q.n));
        },
        theirs(ql::Weeks));
    bad |= compare(
        "so many working days", 20,
        [c](const question &q) -> long long {
            return work_calendar_add(c, q.day, q.n);
        },
        theirs(ql::Days));
    work_calendar_free(c);
    return bad;
}
