"""Vehicles whose use is known to the day, and what people wrote down of it.

Nothing here knows how a forecast is made.  A case is what was known on one
day: the readings up to then, the spells off the road, the yearly use as stated
or 0, the due reading, and the day on which the meter truly got there.
"""
import math
from bisect import bisect_left
from collections import namedtuple

Case = namedtuple("Case", "pattern wrong readings spells yearly due truth")

START = 18000  # 2019-04-14, a Sunday
DAYS = 9 * 365
WRONG = (0, 2, 5, 10)  # readings in a hundred that are wrong


def day_of_year(day):
    return (day - 17897) % 365.2425  # from 1 January 2019


# How the vehicle is used: kilometres a day.

def level(rng, monthly, jumps_a_year=0.0, jump=0.0):
    """A factor a day that drifts, and now and then jumps."""
    log, out = 0.0, []
    for _ in range(DAYS):
        log += rng.gauss(0, monthly / math.sqrt(30)) - log * 0.0005
        if rng.random() < jumps_a_year / 365:
            log += rng.gauss(0, jump)
        out.append(math.exp(log))
    return out


def depot(rng):
    """A bus on its rounds, six days a week, now and then on others."""
    base, trend = rng.uniform(50, 160), level(rng, 0.03, 0.5, 0.25)
    for n in range(DAYS):
        share = (1, 1, 1, 1, 1, 0.6, 0.05)[(START + n + 3) % 7]
        yield base * trend[n] * share * rng.lognormvariate(0, 0.2)


def van(rng):
    """A van that goes when somebody needs it; some days none."""
    base, trend = rng.uniform(20, 90), level(rng, 0.06, 0.3, 0.3)
    for n in range(DAYS):
        yield base * trend[n] * (rng.gammavariate(1.5, 1 / 0.6)
                                 if rng.random() < 0.4 else 0)


def school(rng):
    """A school's minibus: terms, and next to nothing in between."""
    base, trend = rng.uniform(40, 120), level(rng, 0.03, 0.3, 0.15)
    for n in range(DAYS):
        there = day_of_year(START + n) + rng.uniform(-3, 3)
        holiday = (there < 6 or 45 < there < 53 or 92 < there < 108
                   or 148 < there < 155 or 204 < there < 246
                   or 298 < there < 306 or there > 354)
        weekend = (START + n + 3) % 7 > 4
        share = 0.05 if holiday else 0.15 if weekend else 1
        yield base * trend[n] * share * rng.lognormvariate(0, 0.25)


def visitors(rng):
    """An island's bus: full in summer, a few trips a week in winter."""
    base, trend = rng.uniform(15, 40), level(rng, 0.03, 0.3, 0.15)
    peak = rng.uniform(190, 220)
    for n in range(DAYS):
        away = abs(day_of_year(START + n) - peak)
        summer = math.exp(-0.5 * (min(away, 365.2425 - away) / 45) ** 2)
        yield base * trend[n] * (1 + 4 * summer) * rng.lognormvariate(0, 0.5)


def swapped(rng):
    """Between routes of its own, for months at a time."""
    routes = [rng.uniform(30, 150) for _ in range(3)]
    trend, route = level(rng, 0.02), rng.choice(routes)
    for n in range(DAYS):
        if rng.random() < 1 / 240:
            route = rng.choice(routes)
        share = 0.1 if (START + n + 3) % 7 > 4 else 1
        yield route * trend[n] * share * rng.lognormvariate(0, 0.25)


# When somebody reads the meter: the days to the next reading.

def daily(rng, _):
    return 1 if rng.random() < 0.8 else rng.randint(2, 4)


def monthly(rng, _):
    return 30 + rng.randint(-4, 4) + (30 if rng.random() < 0.12 else 0)


def now_and_then(rng, _):
    return rng.randint(8, 35)


def in_season(rng, day):
    busy = 120 < day_of_year(day) < 280
    return rng.randint(10, 30) if busy else rng.randint(25, 60)


def weekly(rng, _):
    return rng.choice((7, 7, 7, 14, 21))


PATTERNS = {
    "depot, read daily": (depot, daily),
    "van, read monthly": (van, monthly),
    "school terms": (school, now_and_then),
    "summer visitors": (visitors, in_season),
    "swapped between routes": (swapped, weekly),
}


# What goes wrong when a reading is written down.

def transposed(rng, text):
    at = rng.randrange(len(text) - 1)
    return text[:at] + text[at + 1] + text[at] + text[at + 2:]


def digit_too_many(rng, text):
    at = rng.randrange(len(text))
    return text[:at] + text[at] + text[at:]


def digit_missing(rng, text):
    at = rng.randrange(len(text))
    return text[:at] + text[at + 1:]


def other_digit(rng, text):
    at = rng.randrange(len(text))
    return text[:at] + rng.choice("0123456789") + text[at + 1:]


def other_vehicle(rng, text):
    return str(int(int(text) * rng.uniform(0.3, 2)))


def mistake(rng, value):
    text = str(value)
    if len(text) < 2:
        return value
    how = rng.choice((transposed, digit_too_many, digit_missing, other_digit,
                      other_vehicle))
    return int(how(rng, text) or 0)


class Vehicle:
    """What it truly did, the spells it was away, and when it was read."""

    def __init__(self, rng, pattern):
        use, self.gap = PATTERNS[pattern]
        self.rng, self.pattern = rng, pattern
        self.spells = self.make_spells()
        away = {day for first, last in self.spells
                for day in range(first, last + 1)}
        self.shown, total = [], rng.uniform(0, 180000)
        for n, km in enumerate(use(rng)):
            total += 0 if START + n in away else km
            self.shown.append(int(total))
        self.unit = rng.choice((1, 1, 1, 10, 100))

    def make_spells(self):
        spells, day = [], START
        while self.rng.random() < 0.5:
            day += self.rng.randint(100, 900)
            until = day + self.rng.randint(10, 70)
            spells.append((day, until))
            day = until
        return spells

    def true_at(self, day):
        return self.shown[day - START]

    def days_read(self, first, now):
        """From the first day on, with a long silence here and there."""
        day, days = first, []
        while day <= now:
            if not any(a <= day <= b for a, b in self.spells):
                days.append(day)
            day += self.gap(self.rng, day)
            if self.rng.random() < 0.01:
                day += self.rng.randint(40, 120)
        return days

    def yearly(self):
        """As somebody stated it, if anybody did."""
        if self.rng.random() < 0.5:
            return 0
        year = (self.shown[-1] - self.shown[0]) / (DAYS / 365)
        return int(year * self.rng.lognormvariate(0, 0.25))

    def cases(self):
        """One day of asking, with each share of wrong readings."""
        rng, yearly = self.rng, self.yearly()
        history = rng.choice((120, 240, 365, 550, 800, 1000, 1400))
        now = START + rng.randint(history, DAYS - 1300)
        read = self.days_read(now - history, now)
        if not read:
            return
        year = max(1000, (self.true_at(now + 364) - self.true_at(now - 100)))
        every = min((5000, 8000, 10000, 15000, 20000, 30000),
                    key=lambda km: abs(km - year * rng.uniform(0.3, 1)))
        due = self.true_at(now) + int(every * rng.uniform(0.05, 1)) + 1
        truth = START + bisect_left(self.shown, due)
        if truth >= START + DAYS:
            return
        known = [(a, b) for a, b in self.spells if a <= now]
        for share in WRONG:
            readings = [
                (day, mistake(rng, value) if rng.random() * 100 < share
                 else value)
                for day in read
                for value in [self.true_at(day) // self.unit * self.unit]]
            yield Case(self.pattern, share, readings, known, yearly, due, truth)


def cases(rng, vehicles):
    """So many vehicles of each pattern."""
    for pattern in PATTERNS:
        for _ in range(vehicles):
            yield from Vehicle(rng, pattern).cases()
