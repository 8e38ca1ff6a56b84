"""Holidays and working days of the second calculator."""
import calendar
import os
from datetime import timedelta

from dateutil.easter import easter
from dateutil.relativedelta import relativedelta, weekday

from second_steps import date, parse_day, parse_month, parse_weekday

DAY = timedelta(1)
NTH = {"first": 1, "second": 2, "third": 3, "fourth": 4, "fifth": 5}
YEARS = range(2010, 2050)
FAR = 1500  # days without a working day: there is none


def rule_day(rule, year):
    """The day of a holiday rule in a year, or None."""
    parts = rule.lower().split()
    if parts[0] == "easter":
        return easter(year) + int("".join(parts[1:]) or "0") * DAY
    if parts[0] == "last":
        return date(year, parse_month(parts[3]), 1) + relativedelta(
            day=31, weekday=weekday(parse_weekday(parts[1]))(-1))
    if parts[0] in NTH:
        month = parse_month(parts[3])
        day = date(year, month, 1) + relativedelta(
            weekday=weekday(parse_weekday(parts[1]))(NTH[parts[0]]))
        return day if day.month == month else None
    try:
        return date(year, parse_month(parts[1]), int(parts[0]))
    except ValueError:
        return None


def published(keys, folder):
    """The days of a holiday file: of its all-day events, both ends of each
    unfolded line by line."""
    days, event = set(), None
    for name in keys.get("file", []):
        with open(os.path.join(folder, name), encoding="utf-8") as file:
            text = file.read().replace("\n ", "")
        for line in text.splitlines():
            what, _, value = line.partition(":")
            what = what.split(";")[0]
            if line == "BEGIN:VEVENT":
                event = {}
            elif line == "END:VEVENT":
                if event.get("STATUS") != "CANCELLED":
                    days.update(event_days(event))
            elif event is not None:
                event[what] = value
    return days


def event_days(event):
    """DTEND is the day after the last; no end is one day (RFC 5545, 3.6.1)."""
    if "T" in event["DTSTART"]:
        return []
    first = date.fromisoformat(event["DTSTART"])
    length = 1
    if "DTEND" in event:
        length = (date.fromisoformat(event["DTEND"]) - first).days
    elif "DURATION" in event:
        n, unit = int(event["DURATION"][1:-1]), event["DURATION"][-1]
        length = n * {"D": 1, "W": 7}[unit]
    return [first + n * DAY for n in range(length)]


def known_until(keys, folder):
    """Stated, or the end of the last year that the file tells of."""
    if "known-until" in keys:
        return parse_day(keys["known-until"][0])
    if "file" in keys:
        return date(max(published(keys, folder)).year, 12, 31)
    return date.max


def holidays(keys, folder):
    """The days of a holiday set."""
    days, moved = set(), []
    for line in keys.get("day", []):
        rule, *options = (part.strip() for part in line.split(","))
        for year in YEARS:
            day = rule_day(rule, year)
            if day and "substitute" in options and day.weekday() >= 5:
                moved.append(day)
            elif day:
                days.add(day)
    for day in sorted(moved):
        while day in days or day.weekday() >= 5:
            day += DAY
        days.add(day)
    days.update(parse_day(line.split()[0]) for line in keys.get("add", []))
    days.update(published(keys, folder))
    removed = " ".join(keys.get("remove", [])).replace(",", " ").split()
    return days - set(map(parse_day, removed))


def closures(keys):
    for line in keys.get("closed", []):
        first, _, last = line.split()[0].partition("..")
        day = parse_day(first)
        while day <= parse_day(last or first):
            yield day
            day += DAY


class Calendar:
    def __init__(self, keys, sets, known):
        def listed(key):
            return " ".join(keys.get(key, [])).replace(",", " ").split()
        self.known = min(map(known.get, listed("holidays")),
                         default=date.max)
        self.works = set(map(parse_weekday, listed("works")))
        self.open = set(map(parse_day, listed("open")))
        self.shut = set(closures(keys)).union(
            *(sets[name] for name in listed("holidays")))

    def working(self, day):
        return day in self.open or (
            day.weekday() in self.works and day not in self.shut)


class Calendars:
    """Which days a job of a subject may be done on."""

    def __init__(self, sections, folder):
        self.sections = sections
        self.carriers = {}  # by the records
        stated = sections.get("holidays", {})
        sets = {name: holidays(keys, folder) for name, keys in stated.items()}
        known = {name: known_until(keys, folder)
                 for name, keys in stated.items()}
        self.named = {name: Calendar(keys, sets, known)
                      for name, keys in sections.get("calendar", {}).items()}

    def subject_key(self, subject, key):
        for kind in ("vehicle", "equipment", "driver"):
            keys = self.sections.get(kind, {}).get(subject)
            if keys and key in keys:
                return keys[key][0]
            if keys and "type" in keys:
                shared = self.sections["type"][keys["type"][0]]
                return shared.get(key, [None])[0]
        return None

    def calendars(self, subject, job):
        depot = self.subject_key(subject, "depot")
        carrier = (self.carriers.get(subject)
                   or self.subject_key(subject, "carried-by"))
        if not depot and carrier:
            depot = self.subject_key(carrier, "depot")
        names = []
        if depot:
            names += self.sections["depot"][depot]["calendar"]
        names += self.sections["job"][job].get("calendar", [])
        return [self.named[name] for name in names]

    def unknown(self, subject, job, day):
        """Whether the holidays around that day are not known yet."""
        return any(day > c.known for c in self.calendars(subject, job))

    def beyond(self, subject, job, day, way):
        """The working day on or beyond day, going way, or None."""
        needed = self.calendars(subject, job)
        for _ in range(FAR):
            if all(c.working(day) for c in needed):
                return day
            day += way
        return None

    def preceding(self, subject, job, day):
        return self.beyond(subject, job, day, -DAY)

    def rolled(self, subject, job, day, how):
        """Nearest is FpML's: a Sunday or Monday goes on, the rest back."""
        if how == "nearest" and day.weekday() not in (calendar.SUNDAY,
                                                      calendar.MONDAY):
            return self.preceding(subject, job, day) or day
        return self.beyond(subject, job, day, DAY) or day
