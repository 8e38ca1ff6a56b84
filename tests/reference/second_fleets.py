"""Random fleets and ledgers for second-calculator, leaning to the dates
where calculators go wrong."""
import calendar
from datetime import date, timedelta

from second_calculator import Calculation
from second_fleet import Record
from second_steps import WEEKDAYS, Span, by_rule, clamped, parse_interval

DAY = timedelta(1)
NASTY = [date(2024, 2, 28), date(2024, 2, 29), date(2024, 3, 1),
         date(2024, 3, 31), date(2024, 12, 31), date(2025, 1, 31),
         date(2025, 2, 28), date(2025, 4, 20), date(2025, 8, 31),
         date(2025, 11, 30), date(2026, 1, 1), date(2026, 2, 28),
         date(2026, 4, 5), date(2026, 5, 31), date(2026, 12, 25),
         date(2026, 12, 28), date(2027, 1, 3), date(2027, 3, 28),
         date(2028, 2, 29), date(2028, 12, 31)]
RULES = ["FREQ=MONTHLY;BYMONTHDAY=15", "FREQ=MONTHLY;BYMONTHDAY=-1",
         "FREQ=MONTHLY;BYDAY=2TU", "FREQ=YEARLY;BYMONTH=4,10;BYDAY=1MO",
         "FREQ=WEEKLY;INTERVAL=6;BYDAY=SU", "FREQ=MONTHLY;INTERVAL=3"]
HOLIDAYS = ["1 jan, substitute", "2 January, substitute, Second day",
            "easter -2", "easter +1", "easter, Easter Sunday", "easter +39",
            "first monday of may", "last Mon of August", "29 feb",
            "fifth monday of mar", "25 dec, substitute, Christmas",
            "26 dec, substitute", "31 Dec", "third fri of Jun, Fair"]
ORIGINS = ["registered", "built", "in-service"]
LENGTHS = {"day": (5, 10, 28, 30, 90, 365), "week": (1, 2, 6, 8, 13, 52),
           "month": (1, 2, 3, 6, 10, 12, 14, 24), "year": (1, 2, 3)}


class Maker:
    def __init__(self, rng):
        self.rng = rng
        self.files = {}  # what the fleet file names

    # Odds and days.

    def chance(self, odds):
        return self.rng.random() < odds

    def some(self, items, least=0):
        return self.rng.sample(items, self.rng.randint(least, len(items)))

    def day(self, first=2023, last=2027):
        if self.chance(0.6):
            day = self.rng.choice(NASTY)
            year = min(max(day.year, first), last)
            ends = calendar.monthrange(year, day.month)[1]
            day = day.replace(year=year, day=min(day.day, ends))
            return day + self.rng.choice([-1, 0, 0, 0, 1]) * DAY
        day = date(first, 1, 1)
        return day + self.rng.randrange((last - first + 1) * 365) * DAY

    def span(self, units="day week month year"):
        unit = self.rng.choice(units.split())
        return show(Span(self.rng.choice(LENGTHS[unit]), unit))

    # The fleet file.

    def calendars(self):
        self.sets = [f"h{n}" for n in range(self.rng.randint(0, 2))]
        for name in self.sets:
            yield f"[holidays {name}]", lines("day", self.some(HOLIDAYS, 1))
            removed, *added = sorted({
                self.day() for _ in range(self.rng.randint(0, 3))}) or [None]
            yield lines("add", [f"{day} Added day" for day in added])
            yield lines("remove", [removed] if removed else [])
            if self.chance(0.4):
                self.files[f"{name}.ics"] = self.published()
                yield f"file = {name}.ics"
            if self.chance(0.4):
                yield f"known-until = {self.day(2025, 2028)}"
        self.named = [f"c{n}" for n in range(self.rng.randint(1, 3))]
        for name in self.named:
            week = WEEKDAYS[:5]
            if self.chance(0.4):
                week = sorted({"tue", *self.some(WEEKDAYS)})
            yield f"[calendar {name}]", f"works = {' '.join(week)}"
            yield flat("holidays", self.some(self.sets))
            yield lines("closed", [self.closure()
                                   for _ in range(self.rng.randint(0, 2))])
            yield flat("open", [self.day()
                                for _ in range(self.rng.randint(0, 2))])
        self.depots = [f"d{n}" for n in range(self.rng.randint(1, 2))]
        for name in self.depots:
            yield (f"[depot {name}]",
                   f"calendar = {self.rng.choice(self.named)}")

    def published(self):
        """A holiday file: events of a day or several, all day or not."""
        text = "BEGIN:VCALENDAR\nVERSION:2.0\nPRODID:-//Skerrow//EN\n"
        for n in range(self.rng.randint(1, 4)):
            first = self.day()
            last = first + self.rng.choice([1, 1, 2, 7]) * DAY
            ends = ["", f"DTEND;VALUE=DATE:{last:%Y%m%d}\n",
                    f"DURATION:P{(last - first).days}D\n", "DURATION:P1W\n"]
            start, end = f";VALUE=DATE:{first:%Y%m%d}", self.rng.choice(ends)
            if n > 0 and self.chance(0.2):
                start, end = f":{first:%Y%m%d}T090000Z", ""
            off = "STATUS:CANCELLED\n" if n > 0 and self.chance(0.2) else ""
            text += (f"BEGIN:VEVENT\nUID:{n}@skerrow.example\nDTSTART{start}\n"
                     f"{end}{off}SUMMARY:Published on pa\n per\nEND:VEVENT\n")
        return text + "END:VCALENDAR\n"

    def closure(self):
        first = self.day()
        if self.chance(0.3):
            return f"{first} Shut"
        return f"{first}..{first + self.rng.randint(1, 40) * DAY} Shut"

    def every(self, units):
        kind = self.rng.random()
        parts = self.rng.choice([1, 1, 1, 2, 3])
        if kind < 0.2:
            return self.so_often(units)
        kinds = [lambda: self.span(units)]
        if kind < 0.4 and units != "week":
            kinds += [self.season] * 2
        return " or ".join(self.rng.choice(kinds)() for _ in range(parts))

    def so_often(self, units):
        within, apart = sorted(
            (parse_interval(self.span(units))[1] for _ in range(2)),
            key=Span.in_days, reverse=True)
        words = f"{self.rng.randint(2, 5)} within {show(within)}"
        if self.chance(0.5) and apart.in_days() * 1.2 < within.in_days():
            words += f", apart {show(apart)}"
        return words

    def season(self):
        day = self.rng.choice(["29 feb", "31 dec", "1 jan", "30 Jun"])
        return self.rng.choice([f"yearly on {day}", self.rule()])

    def rule(self):
        """A rule from one of its own days: RFC 5545, 3.8.5.3 leaves any
        other start undefined."""
        rule = self.rng.choice(RULES)
        return f"rule {rule} from {next(by_rule(rule, self.day()))}"

    def timing(self, law):
        """Keys that a job states and a subject may override."""
        units = "week" if self.chance(0.2) else "day week month year"
        how = ["same day", "day before", "month end"]
        if units == "week":
            how = ["week end", "week end", "same day"]
        every = self.every(units)
        season = "yearly" in every or "rule" in every
        yield "every", every
        if self.chance(0.7):
            yield "ends", self.rng.choice(how)
        if self.chance(0.2):
            yield "first-ends", self.rng.choice(how)
        if self.chance(0.6) and units != "week":
            yield "month-end", self.rng.choice(["clamp", "sticky", "sticky"])
        if self.chance(0.8):
            yield "first", self.first(units)
        yield from self.season_window() if season else self.running()
        steps = list(self.steps(every, units))
        if steps and self.chance(0.6):
            yield "from-age", ", ".join(steps)
            yield "age-from", self.rng.choice(self.known + ["earliest"])
        if self.chance(0.4):
            yield "off-road", self.rng.choice(["waits", "runs on"])
        if self.chance(0.4) and not law:
            yield "roll", self.rng.choice(["following", "nearest"])
        if self.chance(0.5):
            yield "lead", self.rng.choice(
                ["1 week", "1 month", "3 days", "1 working day",
                 "10 working days"])

    def steps(self, every, units):
        """Ages, each with a shorter interval than the one before."""
        if any(word in every for word in ("yearly", "rule", "within")):
            return
        least = min(parse_interval(text)[1].in_days()
                    for text in every.split(" or "))
        for age in sorted(self.rng.sample([1, 2, 3, 4, 12], 2)):
            shorter = [span for unit in units.split()
                       for span in (Span(n, unit) for n in LENGTHS[unit])
                       if span.in_days() * 1.2 < least]
            if shorter:
                span = self.rng.choice(shorter)
                least = span.in_days()
                yield f"{age} years: {show(span)}"

    def first(self, units):
        if self.chance(0.3):
            return f"on {self.day()}"
        return (f"{self.span(units)} from "
                f"{self.rng.choice(ORIGINS + ['earliest'])}")

    def window(self):
        yield "window", self.rng.choice(
            ["1 month", "1 month", "2 months", "28 days", "1 week"])
        yield "window-opens", self.rng.choice(
            ["safer", "day after", "same day"])

    def season_window(self):
        return self.window() if self.chance(0.4) else ()

    def running(self):
        runs = self.rng.choice(
            ["completion", "deadline", "keeping the date"])
        yield "runs-from", runs
        if runs == "deadline":
            yield from self.season_window()
        if runs == "keeping the date":
            yield from self.window()
            if self.chance(0.5):
                yield "first-kept", self.rng.choice(["yes", "no"])
            if self.chance(0.5):
                yield "late", "keeps the date"
                if self.chance(0.7):
                    yield "shortest", self.rng.choice(
                        ["1 month", "10 days", "6 months"])

    def job_sections(self):
        self.jobs = [f"j{n}" for n in range(self.rng.randint(2, 7))]
        self.law, self.follow_ons = {}, []
        for n, name in enumerate(self.jobs):
            kind = self.rng.choice(["law", "own", "maker", "recommendation"])
            self.law[name] = kind == "law"
            yield f"[job {name}]\ntitle = Job {name}\nclass = {kind}"
            earlier = self.jobs[:n]
            if earlier and self.chance(0.2):
                self.follow_ons.append(name)
                yield flat("follows", self.some(earlier, 1)[:2])
                yield "within = " + " or ".join(
                    self.span() for _ in range(self.rng.randint(1, 2)))
            elif self.chance(0.1):
                yield "every = when needed"
            else:
                timing = dict(self.timing(self.law[name]))
                yield from keys(timing)
                if earlier and "within" in timing["every"]:
                    other = self.rng.choice(earlier)
                    yield f"also-counts = {self.rng.randint(1, 2)} {other}"
            if earlier and self.chance(0.3):
                yield flat("covers", self.some(earlier, 1)[:2])
            if self.chance(0.4):
                yield f"calendar = {self.rng.choice(self.named)}"

    def subject(self, kind, name, carriers):
        yield f"[{kind} {name}]"
        for origin in ORIGINS:
            if origin in self.known or self.chance(0.5):
                yield f"{origin} = {self.day(2020, 2026)}"
        carried = carriers and self.chance(0.8)
        if carried:
            yield f"carried-by = {self.rng.choice(carriers)}"
        if not carried or self.chance(0.3):
            yield f"depot = {self.rng.choice(self.depots)}"
        yield from self.carried_out(name)

    def carried_out(self, name):
        """The jobs of a subject or a type, and what it overrides."""
        jobs = self.some(self.jobs, 1)
        yield flat("jobs", jobs)
        for job in jobs:
            if name[0] != "t":
                yield from self.baseline(job)
            if self.chance(0.1):
                yield f"{job}.lead = {self.rng.randint(0, 5)} working days"
            if self.chance(0.1):
                yield f"{job}.first = {self.first('week')}"

    def baseline(self, job):
        last = self.day(2022, 2026)
        if self.chance(0.3):
            yield f"{job}.last = {last}"
        else:
            last = date(2024, 1, 1)
        if self.chance(0.2) and job not in self.follow_ons:
            deadline = max(last, self.day(2024, 2027))
            yield f"{job}.deadline = {deadline}"

    def text(self):
        self.known = self.some(ORIGINS, 1)
        self.types = [f"t{n}" for n in range(self.rng.randint(0, 2))]
        yield "[site]\nname = Skerrow Isles Transport"
        yield "time-zone = Europe/London\nledger = ledger.db"
        for part in self.calendars():
            yield from part if isinstance(part, tuple) else (part,)
        yield from self.job_sections()
        for name in self.types:
            yield f"[type {name}]"
            yield from self.carried_out(name)
        vehicles = [f"v{n}" for n in range(self.rng.randint(1, 8))]
        for name in vehicles:
            yield from self.subject("vehicle", name, [])
            if self.types and self.chance(0.5):
                yield f"type = {self.rng.choice(self.types)}"
        for n in range(self.rng.randint(0, 3)):
            yield from self.subject("equipment", f"e{n}", vehicles)
        if self.chance(0.3):
            yield from self.subject("driver", "p0", [])

    def fleet_file(self):
        return "".join(f"{line}\n" for line in self.text() if line)

    # The ledger.

    def ledger(self, fleet, today):
        """Records up to today, many of them at the edges of what is
        pending."""
        self.records = []
        for subject in fleet.subjects:
            if self.chance(0.25):
                self.off_road(subject, self.day())
            self.move(fleet, subject, today)
            for job in fleet.jobs_of(subject):
                self.work(fleet, subject, job, today)
        if self.records and self.chance(0.5):
            kept = [r for r in self.records if r.kind != "voided"]
            for record in self.rng.sample(kept, min(3, len(kept))):
                self.add("voided", voids=record.id)
        return self.records

    def add(self, kind, *what, voids=None, other=None):
        subject, job, day, until = what or (None,) * 4
        self.records.append(Record(len(self.records) + 1, kind, subject,
                                   job, day, until, voids, other))

    def move(self, fleet, subject, today):
        """Equipment comes to other vehicles, perhaps while one is away."""
        vehicles = [name for name, (kind, _) in fleet.subjects.items()
                    if kind == "vehicle"]
        edges = [day for r in self.records if r.kind == "off-road"
                 for day in (r.day, r.until) if day]
        while fleet.subjects[subject][0] == "equipment" and self.chance(0.5):
            day = self.rng.choice(edges or [self.day()]) + self.rng.choice(
                [-1, 0, 1]) * DAY
            if day <= today:
                self.add("moved", subject, None, day, None,
                         other=self.rng.choice(vehicles))

    def off_road(self, subject, near):
        first = near - self.rng.choice([0, 0, 1, 5, 20]) * DAY
        earlier = [r.until for r in self.records if r.until]
        if earlier and self.chance(0.3):
            first = earlier[-1] + self.rng.choice([0, 1, 1, 2]) * DAY
        until = first + self.rng.choice([0, 1, 5, 20, 60]) * DAY
        if self.chance(0.2):
            until = None
        self.add("off-road", subject, None, first, until)

    def work(self, fleet, subject, job, today):
        for _ in range(self.rng.choice([0, 1, 1, 2, 3, 4])):
            task = Calculation(fleet, subject, job, self.records)
            pending = task.pending()[1]
            day = self.edge(task, pending)
            if day > today:
                break
            kind = "completed" if self.chance(0.85) else "failed"
            for _ in range(self.rng.choice([1, 1, 1, 2])):
                self.add(kind, subject, job, day, None)
        pending = Calculation(fleet, subject, job, self.records).pending()[1]
        if pending and self.chance(0.15):
            self.off_road(subject, pending.day)

    def edge(self, task, pending):
        """A day of work where one answer gives way to another."""
        if not pending or self.chance(0.1):
            return self.day(2022, 2026)
        day, opens = pending.day, task.window_opens(pending.day)
        window = task.span_of("window") or Span(1, "month")
        shortest = task.span_of("shortest") or Span(1, "month")
        span = parse_interval((task.get("every") or task.get("within"))
                              .split(" or ")[0])[1]
        after = clamped(day, span) if isinstance(span, Span) else day
        return self.rng.choice([
            day, day + DAY, day - DAY, day - 7 * DAY, day + 20 * DAY,
            opens, opens - DAY, before(day, window) + DAY,
            after, after + DAY, before(after, shortest),
            before(after, shortest) + DAY, pending.previous or day,
            pending.counts_from or day, (pending.counts_from or day) - DAY,
            pending.fact.day, task.day_of("last") or day])


def before(day, span):
    return clamped(day, Span(-span.n, span.unit))


def show(span):
    return f"{span.n} {span.unit}{'s' if span.n > 1 else ''}"


def keys(pairs):
    return [f"{key} = {value}" for key, value in pairs.items()]


def flat(key, items):
    return f"{key} = {' '.join(map(str, items))}" if items else ""


def lines(key, items):
    return "\n".join([f"{key} ="] + [f"  {item}" for item in items]
                     ) if items else ""
