"""The forecast of a meter, a second time, from ostler-fleet(5) alone, of a cycle
that began before all readings.

Slow and plain where the program is neither: it searches all pairs, counts days
one by one and knows no arrays of fixed size but those that are the rule.
"""
import math
from bisect import bisect_right

import numpy

NONE, STATED, READINGS, REACHED = range(4)
LAST_DAY = 84005  # 2199-12-31
NEW_YEAR = 10957  # 2000-01-01
PART = 365.2425 / 12


def median_slope(readings, apart):
    """Of at most 24 readings, evenly spread."""
    n = len(readings)
    if n > 24:
        readings = [readings[i * (n - 1) // 23] for i in range(24)]
    slopes = [(later[1] - early[1]) / (later[0] - early[0])
              for i, early in enumerate(readings) for later in readings[i + 1:]
              if later[0] - early[0] >= apart]
    return float(numpy.median(slopes)) if slopes else 0


def fastest(readings):
    """Ten times the usual rate, lately or all the time."""
    usual = [median_slope(readings, 14)]
    if len(readings) > 5:
        others = readings[:-1]
        lately = [r for r in others if r[0] >= others[-1][0] - 91]
        usual.append(median_slope(max(lately, others[-5:], key=len), 14))
    return 10 * max(usual) if max(usual) > 0 else 1e9


def kept(readings):
    """The longest chain that neither falls nor rises too fast."""
    readings = list(dict(readings).items())[-1024:]
    most = fastest(readings)
    points = sorted((value, most * day - value, day)
                    for day, value in readings)
    length, before = [], []
    newest = {}  # the point that last ended a chain of that length
    for i, (_, behind, _) in enumerate(points):
        # Chains of a length end the lower the newer: the newest goes first.
        n = max((k for k, j in newest.items() if points[j][1] <= behind),
                default=0)
        length.append(n + 1)
        before.append(newest.get(n))
        newest[n + 1] = i
    chain, i = [], newest[max(newest)]
    while i is not None:
        chain.append((points[i][2], points[i][0]))
        i = before[i]
    return chain[::-1]


class Meter:
    """What is known of it, and what follows."""

    def __init__(self, readings, spells, yearly):
        self.raw, self.spells, self.yearly = readings, spells, yearly
        self.readings = kept(readings)
        self.days = [day for day, _ in self.readings]
        self.shares = self.profile()
        self.measure()

    def off(self, day):
        return any(a <= day <= b for a, b in self.spells)

    def shown(self, day):
        return float(numpy.interp(day, self.days,
                                  [value for _, value in self.readings]))

    # The time of year.

    def profile(self):
        end = math.floor((self.days[-1] - NEW_YEAR) / PART)
        begins = [math.ceil(NEW_YEAR + k * PART) for k in range(end - 24,
                                                                end + 1)]
        parts = list(zip(begins, begins[1:]))
        if self.days[0] > begins[0] or sum(
                any(a <= day < b for day in self.days)
                for a, b in parts) < 16:
            return None
        rates = []
        for a, b in parts:
            road = sum(not self.off(day) for day in range(a, b))
            rates.append((self.shown(b) - self.shown(a)) / road
                         if road >= 7 else None)
        for k in range(24):
            if rates[k] is None:
                rates[k] = rates[(k + 12) % 24]
        if None in rates or not sum(rates[:12]) or not sum(rates[12:]):
            return None
        years = numpy.array(rates, dtype=float).reshape(2, 12)
        years /= years.mean(axis=1, keepdims=True)
        if not years.std(axis=1).all():
            return None
        r = numpy.corrcoef(years)[0, 1]
        if r < 0.497:
            return None
        share = 1 + 2 * r / (1 + r) * (years.mean(axis=0) - 1)
        share = numpy.maximum(share, 0.05)
        share = numpy.roll(share, (end - 24) % 12)
        return share / share.mean()

    def profile_at(self, day):
        """Days since 2000 by their shares, at the end of a day."""
        if self.shares is None:
            return day
        parts = (day + 1 - NEW_YEAR) / PART
        year, rest = divmod(parts, 12)
        whole = int(rest)
        return PART * (year * 12 + sum(self.shares[:whole])
                       + (rest - whole) * self.shares[whole])

    def wear(self, day):
        lost = sum(self.profile_at(min(b, day)) - self.profile_at(a - 1)
                   for a, b in self.spells if a <= day)
        return self.profile_at(day) - lost

    # The rate, and what forecasts by it were worth.

    def rates(self):
        """[(wear, rate)] after each reading."""
        total = weight = 0.0
        if self.yearly:
            weight = 1 - math.exp(-1)
            total = weight * self.yearly / 365.25
        out = []
        before = None
        for day, value in self.readings:
            at = self.wear(day)
            if before and at > before[0]:
                fade = math.exp(-(at - before[0]) / 91)
                rate = (value - before[1]) / (at - before[0])
                total = total * fade + rate * (1 - fade)
                weight = weight * fade + 1 - fade
            before = at, value
            out.append((at, total / weight if weight else 0))
        return out

    def misses(self, rates, period):
        """The variance summed, how often, and the fastest use seen."""
        squares = times = most = 0
        # The last reading of each period, by the first in the next one.
        ends = [0] + [i for i in range(1, len(self.days))
                      if self.days[i] // period
                      != self.days[i - 1] // period]
        for n, (i, j) in enumerate(zip(ends, ends[1:])):
            days = rates[j][0] - rates[i][0]
            rate = rates[i][1] if n else 0
            if rate <= 0 or days < period / 2:
                continue
            use = (self.readings[j][1] - self.readings[i][1]) / days
            off = math.log(use / rate) if use > 0 else -1.5
            fade = math.exp(-days / 730)
            squares = squares * fade + min(max(off, -1.5), 1.5) ** 2
            times = times * fade + 1
            most = max(most, use)
        return squares, times, most

    def measure(self):
        rates = self.rates()
        self.rate = rates[-1][1]
        self.basis = READINGS
        if self.days[-1] - self.days[0] < 14 or self.rate <= 0:
            self.rate = self.yearly / 365.25
            self.basis = STATED if self.yearly else NONE
            return
        seen = rates[-1][0] - rates[0][0]
        unseen = 0.10 * max(0, 1 - seen / 365.25)
        times = 1 if self.shares is None else 2
        month, often, fast = self.misses(rates, 28)
        self.month = times * (3 * (0.02 + unseen) + month) / (3 + often)
        quarter, often, _ = self.misses(rates, 91)
        self.quarter = times * (3 * (0.01 + unseen) + quarter) / (3 + often)
        self.freedom = 3 + often
        young = self.shares is None and seen < 730.5
        self.fast = fast if young else 0

    def doubt(self, left):
        power = math.log(self.month / self.quarter, 91 / 28)
        power = min(max(power, 0), 1)
        spread = math.sqrt(self.quarter * (91 * self.rate / left) ** power)
        # Student's ninth tenth from the normal one, Abramowitz and Stegun.
        z = 1.28155
        student = (z + (z ** 3 + z) / 4 / self.freedom
                   + (5 * z ** 5 + 16 * z ** 3 + 3 * z) / 96
                   / self.freedom ** 2)
        return max(math.exp(min(student * spread, 2)), self.fast / self.rate)

    # The day.

    def day(self, start, days):
        """The last day that ends before so much wear is over, or with it."""
        goal = self.wear(start) + days
        if self.wear(LAST_DAY) < goal - 1e-6:
            return None
        span = range(start, LAST_DAY + 1)
        first = start + bisect_right(span, goal - 1e-6, key=self.wear)
        while first > start and self.wear(first - 1) >= goal - 1e-6:
            first -= 1
        past = self.wear(first) > goal + 1e-6
        return first - 1 if past and first > start else first

    def forecast(self, due):
        """(basis, seasonal, early, likely, late)"""
        for day, value in self.readings + self.raw[-1:]:
            if value >= due:
                return REACHED, self.shares is not None, day, day, day
        seasonal = self.shares is not None
        if self.basis == NONE:
            return NONE, seasonal, None, None, None
        day, value = self.readings[-1]
        left = due - value
        fast, slow = 1.5, 0.7
        if self.basis == READINGS:
            fast = self.doubt(left)
            slow = 1 / fast
        likely = self.day(day, left / self.rate)
        late = self.day(day, left / (self.rate * slow))
        if self.raw[-1][0] > day and self.raw[-1][1] > value:
            day, left = self.raw[-1][0], due - self.raw[-1][1]
            fast = self.doubt(left) if self.basis == READINGS else fast
        early = self.day(day, left / (self.rate * fast))
        newest = self.raw[-1][0]
        return (READINGS if self.basis == READINGS else STATED, seasonal,
                *(None if d is None else max(d, newest)
                  for d in (early, likely, late)))
