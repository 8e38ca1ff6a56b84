"""One job of one subject: its rules, and the facts that bear on it."""
from collections import namedtuple
from datetime import date, timedelta

from second_fleet import words
from second_steps import parse_day, parse_span

DAY = timedelta(1)


class Fact(namedtuple("Fact", "day order cycle job")):
    """A completion; order puts several of one day in the order of entry."""

    @property
    def recorded(self):
        """It stands in the ledger."""
        return self.order > 0


def stated(day, job=""):
    """What stands in for a completion: a day of the fleet file."""
    return Fact(day, 0, f"d{day}", job)


def in_order(fact):
    """By day; what the fleet file states comes last of its day."""
    return fact.day, not fact.recorded, fact.order, fact.job


class Task:
    """One job of one subject."""

    def __init__(self, fleet, subject, job, records):
        self.fleet, self.subject, self.job = fleet, subject, job
        voided = {record.voids for record in records}
        self.records = [r for r in records if r.id not in voided]
        self.carriers = self.carried_by()
        fleet.working.carriers[subject] = self.carriers[-1][2]
        self.how = self.get("ends", "same day")
        self.sticky = self.get("month-end") == "sticky"
        self.spells = self.spells_off_the_road()

    def lines(self, key):
        """The lines of a rule: subject before type before job."""
        own = self.fleet.key(self.subject, f"{self.job}.{key}")
        return own if own is not None else self.fleet.jobs[self.job].get(key)

    def get(self, key, default=None):
        lines = self.lines(key)
        return " ".join(lines) if lines else default

    def day_of(self, key):
        """A day that the fleet file states for this very job."""
        lines = self.fleet.subjects[self.subject][1].get(f"{self.job}.{key}")
        return parse_day(lines[0]) if lines else None

    def span_of(self, key):
        text = self.get(key)
        return parse_span(text) if text else None

    def origin(self, name):
        keys = self.fleet.subjects[self.subject][1]
        names = [name] if name != "earliest" else [
            "registered", "built", "in-service"]
        days = [parse_day(keys[n][0]) for n in names if n in keys]
        return min(days, default=None)

    # What was done.

    def done(self, job):
        """Completions of a job, its wider ones included: those of the ledger
        and those that the fleet file states, unless one is on record."""
        names = self.fleet.wider(job)
        records = [r for r in self.records if r.kind == "completed"
                   and r.subject == self.subject and r.job in names]
        on_record = {(r.job, r.day) for r in records}
        keys = self.fleet.subjects[self.subject][1]
        return [Fact(r.day, r.id, f"r{r.id}", r.job) for r in records] + [
            stated(day, name) for name in self.fleet.jobs_of(self.subject)
            if name in names and f"{name}.last" in keys
            for day in [parse_day(keys[f"{name}.last"][0])]
            if (name, day) not in on_record]

    def completions(self):
        """Those of this job, in order; a day's own statement comes last."""
        return sorted(self.done(self.job), key=in_order)

    def carried_by(self):
        """[(first day, last day, vehicle or None)]: who carries it, first as
        the fleet file says, then as each record of a move does."""
        out = [(date.min, date.max, self.fleet.carrier(self.subject))]
        for r in sorted((r for r in self.records if r.kind == "moved"
                         and r.subject == self.subject),
                        key=lambda r: (r.day, r.id)):
            out[-1] = (out[-1][0], r.day - DAY, out[-1][2])
            out.append((r.day, date.max, r.other))
        return [part for part in out if part[0] <= part[1]]

    def spells_off_the_road(self):
        """[first day, last day or date.max] of the subject's own spells and
        its carrier's; overlapping and adjoining ones are one."""
        away = [(r.subject, r.day, r.until or date.max)
                for r in self.records if r.kind == "off-road"]
        own = [spell[1:] for spell in away if spell[0] == self.subject]
        shared = [(max(first, since), min(last, until))
                  for since, until, carrier in self.carriers
                  for who, first, last in away
                  if who == carrier and first <= until and since <= last]
        joined = []
        for first, last in sorted(own + shared):
            if joined and (joined[-1][1] == date.max
                           or first <= joined[-1][1] + DAY):
                joined[-1][1] = max(joined[-1][1], last)
            else:
                joined.append([first, last])
        return joined
