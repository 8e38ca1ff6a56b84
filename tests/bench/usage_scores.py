"""How good forecasts were where the truth is known, beside two straight lines
through the same readings."""
from statistics import mean, median

NEVER = 10 ** 6


def first_and_last(case):
    """The day by the line through the first and the last reading."""
    (a, low), (b, high) = case.readings[0], case.readings[-1]
    if b == a or high <= low:
        return NEVER
    return b + (case.due - high) * (b - a) / (high - low)


def least_squares(case):
    """The day by the line of least squares."""
    n = len(case.readings)
    day = sum(d for d, _ in case.readings) / n
    value = sum(v for _, v in case.readings) / n
    across = sum((d - day) ** 2 for d, _ in case.readings)
    both = sum((d - day) * (v - value) for d, v in case.readings)
    return day + (case.due - value) * across / both if both > 0 else NEVER


class Score:
    """Of some cases.  One without a forecast counts as never."""

    HEAD = (f"{'':30}{'cases':>6}{'early':>7}{'late':>7}{'range':>7}"
            f"{'likely':>8}{'line':>7}{'squares':>9}")

    def __init__(self):
        self.early, self.late, self.range = [], [], []
        self.off, self.line, self.squares = [], [], []

    def add(self, case, early, likely, late):
        early, likely, late = (NEVER if day is None else day
                               for day in (early, likely, late))
        self.early.append(early <= case.truth)
        self.late.append(late >= case.truth)
        self.range.append(late - early)
        self.off.append(abs(likely - case.truth))
        self.line.append(abs(first_and_last(case) - case.truth))
        self.squares.append(abs(least_squares(case) - case.truth))

    def held(self):
        """In how many of a hundred cases the early day was not too late."""
        return 100 * mean(self.early)

    def smaller(self, than):
        """By how many in a hundred the likely day's median error is smaller."""
        return 100 * (1 - median(self.off) / median(than))

    def row(self, name):
        return (f"{name:30}{len(self.off):6}{self.held():6.1f}%"
                f"{100 * mean(self.late):6.1f}%{median(self.range):7.0f}"
                f"{median(self.off):8.1f}{median(self.line):7.1f}"
                f"{median(self.squares):9.1f}"
                f"{self.smaller(self.line):7.0f}%"
                f"{self.smaller(self.squares):5.0f}%")


def scores(cases, forecasts, keys):
    """A score for each of the keys that a case has, in order."""
    out = {}
    for case, (_, _, *days) in zip(cases, forecasts):
        for key in keys(case):
            out.setdefault(key, Score()).add(case, *days)
    return out
