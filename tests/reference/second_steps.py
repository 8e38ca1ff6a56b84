"""Days, spans and calendar rules of the second calculator."""
import calendar
import functools
import itertools
from collections import namedtuple
from datetime import date, datetime, timedelta

from dateutil.relativedelta import relativedelta
from dateutil.rrule import rrulestr

DAY = timedelta(1)
MONTHS = [name.lower() for name in calendar.month_abbr]
WEEKDAYS = [name.lower() for name in calendar.day_abbr]
LAST_YEAR = 2045  # no rule is asked for a day beyond it


class Span(namedtuple("Span", "n unit")):
    """So many days, weeks, months or years; the unit in the singular."""

    def in_days(self):
        """At the least, as a share of it is counted."""
        return self.n * {"day": 1, "week": 7, "month": 28,
                         "year": 365}[self.unit]


def parse_day(text):
    return date.fromisoformat(text)


def parse_span(text):
    n, unit = text.split()
    return Span(int(n), unit.rstrip("s"))


def parse_month(text):
    return MONTHS.index(text[:3].lower())


def parse_weekday(text):
    return WEEKDAYS.index(text[:3].lower())


def is_month_end(day):
    return (day + DAY).day == 1


def month_end(day):
    return day + relativedelta(day=31)


def clamped(day, span):
    """The corresponding date, or the last day of a month without it."""
    return day + relativedelta(**{span.unit + "s": span.n})


def corresponding(day, span, sticky):
    there = clamped(day, span)
    if sticky and span.unit in ("month", "year") and is_month_end(day):
        return month_end(there)
    return there


def ends(day, span, how, sticky):
    """The last day of an interval that runs from day."""
    if how == "month end":
        return month_end(clamped(day, span))
    if how == "week end":
        there = clamped(day, span)
        return there + (calendar.SUNDAY - there.weekday()) * DAY
    if how == "day before":
        there = clamped(day, span)
        missing = span.unit in ("month", "year") and there.day != day.day
        return there if missing else there - DAY
    return corresponding(day, span, sticky)


def parse_interval(text):
    """("span", Span), ("within", (times, Span, the most apart)), ("yearly", (month, day)) or
    ("rule", (RRULE, first day))."""
    parts = text.split()
    if parts[0] == "yearly":
        return "yearly", (parse_month(parts[3]), int(parts[2]))
    if parts[0] == "rule":
        return "rule", (parts[1], parse_day(parts[3]))
    if parts[1] == "within":
        span, _, apart = " ".join(parts[2:]).partition(", apart ")
        return "within", (int(parts[0]), parse_span(span),
                          parse_span(apart) if apart else None)
    return "span", parse_span(text)


def yearly(month, day):
    for year in itertools.count(1990):
        yield date(year, month, 1) + relativedelta(day=day)


def by_rule(rule, first):
    for there in rrulestr(rule, dtstart=datetime(*first.timetuple()[:3])):
        yield there.date()


@functools.lru_cache(100)
def occurrences(kind, what):
    """The days of a calendar rule, in order."""
    days = yearly(*what) if kind == "yearly" else by_rule(*what)
    return list(itertools.takewhile(lambda d: d.year < LAST_YEAR, days))
