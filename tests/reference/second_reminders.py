"""Who is told what, worked out a second time.

A slow, plain model written from REMINDERS in ostler(1) and from job and person
in ostler-fleet(5) alone, so that it shares no thinking with the program.
second-reminders compares the two.  The dues of each day are taken from
"ostler due --json": they have a second calculator of their own.
"""
import itertools
from collections import namedtuple
from datetime import date, timedelta

from second_fleet import words
from second_steps import Span, clamped, parse_span, parse_weekday

DAY = timedelta(1)
LONG = timedelta(90)
OUTLOOK = timedelta(weeks=4)
MISSING = ("no-record", "needs-reading")
CLASSES = ["law", "recommendation", "maker", "own"]



class Stage(namedtuple("Stage", "day name overdue")):
    """day is when it is reached."""

    def of(self, due):
        """What makes it one and the same: its deadline is part of that,
        except of a week without one, and of a failure."""
        undated = self.name.startswith(MISSING + ("failed",))
        return self.name, None if undated else due.deadline


# What a message says of a due.  old is the day its deadline moved from.
Told = namedtuple("Told", "subject job deadline old")


class Message:
    """What one person gets from one run."""

    def __init__(self, outlook=None):
        self.groups = {}        # {heading: [Told]}, each told in full
        self.under_way = []     # [Told] that are only named
        self.outlook = outlook  # the last day of the outlook, or None
        self.listed = []        # [Told] that the outlook adds
        self.worst = set()      # of these one heads the subject


class Due:
    """A due of "ostler due --json", its days as dates.  The state of one that
    failed is what it is besides."""

    def __init__(self, due):
        for key in ("subject", "job", "title", "class", "state", "cycle"):
            setattr(self, key.replace("class", "asked_by"), due[key])
        for key in ("deadline", "plan_day", "book_by"):
            setattr(self, key,
                    due[key] and date.fromisoformat(due[key]))
        self.warnings = {w["warning"] for w in due["warnings"]}
        self.failed = due["failed"] and due["failed"]["record"]
        self.state = due["besides"] or self.state

    def failure(self, today):
        """The stage that it failed: told once a failure."""
        return Stage(today, f"failed {self.failed}", False)

    @property
    def waits_for_return(self):
        return (self.state == "before-return" and not self.plan_day
                and "no-working-day" not in self.warnings)

    def heading(self):
        if self.failed:
            return "Failed"
        if self.state == "ahead":
            return "Book now" if "book-now" in self.warnings else "Coming"
        return {"no-record": "No record", "overdue": "Overdue",
                "needs-reading": "Needs a reading", "due": "This week",
                "before-return": "Before return"}[self.state]

    def needs_somebody_now(self):
        return bool(self.heading() != "Coming"
                    or "done-later" in self.warnings)

    def told(self, old=None):
        return Told(self.subject, self.job, self.deadline,
                    old if old != self.deadline else None)


def before(day, span):
    return clamped(day, Span(-span.n, span.unit))


def iso_week(day):
    year, week, _ = day.isocalendar()
    return f"{year}-W{week:02d}", day - day.weekday() * DAY


class Person:
    def __init__(self, name, keys, fleet):
        self.name, self.fleet = name, fleet
        self.mail = keys["mail"][0]
        self.scopes = [part.split() for line in keys["told"]
                       for part in line.split(",") if part.strip()]
        self.stages = " ".join(keys.get("stages", [])).split()[:-1]
        self.days = set(map(parse_weekday, words(keys.get("days")))) or set(
            range(7))
        self.calendar = fleet.working.named.get(
            keys.get("calendar", [None])[0])
        self.urgent = keys.get("urgent") == ["law overdue"]
        self.outlooks = set(map(parse_weekday, words(keys.get("outlook"))))

    def hears_of(self, due):
        carrier = self.fleet.carrier(due.subject)
        depot = (self.fleet.key(due.subject, "depot") or (
            self.fleet.key(carrier, "depot") if carrier else None) or [None])
        return any(scope in (["all"], ["depot", depot[0]], ["job", due.job],
                             ["subject", due.subject], ["subject", carrier])
                   for scope in self.scopes)

    def is_written_to(self, day):
        return day.weekday() in self.days and (
            not self.calendar or self.calendar.working(day))

    def horizon(self, today):
        """The last day whose stages are told today: the day before they are
        next written to."""
        for day in itertools.count(1):
            if day > 400 or self.is_written_to(today + day * DAY):
                return today + (day - 1) * DAY
        return None


class Reminders:
    """What everybody was told, over all runs so far."""

    def __init__(self):
        self.told = set()        # (person, subject, job, cycle, Stage.of)
        self.deadlines = {}      # {(person, subject, job, cycle): last told}
        self.outlooks = set()    # (person, day)
        self.written_to = set()  # persons

    def run(self, fleet, today, dues):
        """{person: Message} of a run; dues as in JSON."""
        self.fleet, self.today = fleet, today
        dues = [Due(due) for due in dues]
        persons = [Person(name, keys, fleet) for name, keys in
                   fleet.sections.get("person", {}).items()]
        found = {person.name: self.message(person, [
            due for due in dues if person.hears_of(due)])
            for person in persons}
        return {name: message for name, message in found.items() if message}

    # The stages of a due.

    def working_day(self, due, day):
        return self.fleet.working.preceding(due.subject, due.job, day) or day

    def remind(self, due):
        """([SPAN before], SPAN between two overdue or None), or None for a
        job that lists no stages."""
        own = self.fleet.key(due.subject, f"{due.job}.remind")
        lines = own or self.fleet.jobs[due.job].get("remind")
        if not lines:
            return None
        parts = [part.strip() for line in lines for part in line.split(",")
                 if part.strip()]
        overdue = [parse_span(part.removeprefix("overdue every "))
                   for part in parts if part.startswith("overdue")]
        return ([parse_span(part) for part in parts
                 if not part.startswith("overdue")],
                overdue[0] if overdue else None)

    def stages_before(self, due, spans):
        for span in spans:
            day = before(due.deadline, span)
            yield day, Stage(self.working_day(due, day),
                             f"{span.n} {span.unit} before", False)

    def stages_overdue(self, due, every):
        first = due.deadline + DAY
        yield Stage(first, "overdue 0", True)
        if not every:
            return
        # Of those long past, a later one has been reached since.
        past = (self.today - due.deadline - LONG).days
        most = {"day": 1, "week": 7, "month": 31, "year": 366}[every.unit]
        for n in itertools.count(max(1, past // (every.n * most))):
            day = clamped(due.deadline, Span(n * every.n, every.unit))
            if day > self.today + LONG:
                return
            yield Stage(max(first, self.working_day(due, day)),
                        f"overdue {n}", True)

    def stages(self, person, due):
        """Those that this person hears of, in order."""
        overdue_only = person.stages[:1] == ["overdue"]
        if due.state == "no-record" or (
                due.state == "needs-reading" and not overdue_only):
            name, monday = iso_week(self.today)
            yield Stage(monday, f"{due.state} {name}", False)
        if not due.deadline:
            return
        if due.waits_for_return:
            if not overdue_only:
                yield Stage(self.working_day(due, due.deadline),
                            "before return", False)
            return
        remind = self.remind(due)
        if not remind:
            return
        if not overdue_only:
            since = before(due.deadline, parse_span(" ".join(
                person.stages))) if person.stages else date.min
            yield from (stage for day, stage in sorted(
                self.stages_before(due, remind[0])) if day >= since)
        yield from self.stages_overdue(due, remind[1])

    def climbed(self, person, due, horizon):
        """Whether what is overdue has come as far as this person."""
        if len(person.stages) < 2 or person.stages[0] != "overdue":
            return True
        return horizon >= clamped(due.deadline, parse_span(
            " ".join(person.stages[1:])))

    def latest(self, person, due, horizon):
        """[the stages to tell]: the latest of its deadline, the week of
        what is missing, and that it failed."""
        found, weekly = None, []
        failed = [due.failure(self.today)] if due.failed else []
        for stage in self.stages(person, due):
            if stage.name.startswith(MISSING):
                weekly = [stage]
            elif stage.day <= horizon and (not stage.overdue or (
                    due.deadline < self.today
                    and self.climbed(person, due, horizon))):
                if not found or stage.day >= found.day:
                    found = stage
        return failed + weekly + ([found] if found else [])

    # The message to a person.

    def message(self, person, dues):
        if not person.is_written_to(self.today):
            return self.compose(person, [
                due for due in dues if self.has_just_failed(person, due)
                or person.urgent and due.asked_by == "law"
                and due.state == "overdue"], self.today, False)
        return self.compose(person, dues, person.horizon(self.today), True)

    def has_just_failed(self, person, due):
        """Nobody has a day or a stage on which they do not hear of that."""
        return bool(due.failed) and (
            person.name, due.subject, due.job, due.cycle,
            *due.failure(self.today).of(due)) not in self.told

    def compose(self, person, dues, horizon, in_full):
        outlook = self.outlook(person, horizon) if in_full else None
        message = Message(outlook)
        first = person.name not in self.written_to
        mentioned = set()
        for due in dues:
            self.tell(person, due, horizon, first, message)
        for group in message.groups.values():
            mentioned.update((told.subject, told.job) for told in group)
        if outlook:
            message.listed = [due.told() for due in dues
                              if self.is_listed(due, outlook)
                              and (due.subject, due.job) not in mentioned]
        message.worst = worst(dues, mentioned)
        if not (message.groups or message.under_way or outlook):
            return None
        self.written_to.add(person.name)
        return message

    def tell(self, person, due, horizon, first, message):
        key = (person.name, due.subject, due.job, due.cycle)
        reached = self.latest(person, due, horizon)
        new = [stage for stage in reached
               if key + stage.of(due) not in self.told]
        old = self.deadlines.get(key)
        moved = old and due.deadline != old
        if not new and not moved:
            return
        self.told.update(key + stage.of(due) for stage in reached)
        self.deadlines[key] = due.deadline
        if (first and not due.needs_somebody_now()
                and all(stage.day < self.today for stage in new)):
            message.under_way.append(due.told())
        else:
            message.groups.setdefault(due.heading(), []).append(
                due.told(old if moved else None))

    # The outlook.

    def outlook(self, person, horizon):
        """Up to which day, when one is to be told."""
        days = [horizon - n * DAY for n in range(7)
                if (horizon - n * DAY).weekday() in person.outlooks]
        if not days or (person.name, days[0]) in self.outlooks:
            return None
        self.outlooks.add((person.name, days[0]))
        return days[0] + OUTLOOK

    def is_listed(self, due, until):
        day = due.plan_day or due.deadline
        return (due.failed or due.state in MISSING + ("before-return",)
                or day <= until)


def worst(dues, mentioned):
    """What may head the subject: of what failed the first of the classes, else
    of what is overdue or without a record, or anything when nothing is."""
    told = [due for due in dues if (due.subject, due.job) in mentioned]
    bad = [due for due in told if due.failed] or [due for due in told if due.state in ("overdue", "no-record")]
    if bad:
        rank = min(CLASSES.index(due.asked_by) for due in bad)
        told = [due for due in bad if CLASSES.index(due.asked_by) == rank]
    return {(due.subject, due.title) for due in told}
