"""Random fleets with everything in them, for invariants: what
second_fleets.py makes, and meters, moves, bookings and a plan with limits
besides."""
import copy
import random
import re
from datetime import date

from second_fleets import DAY, Maker

EPOCH = date(1970, 1, 1)
SEEN_BY = """[feed all]
shows = all
horizon = 2 years
most-events = 100000
most-kilobytes = 100000
[person manager]
mail = manager@skerrow.example
told = all
outlook = mon tue wed thu fri sat sun
[mail]
from = dates@skerrow.example
by = folder mail
"""


class AllMaker(Maker):
    """With what the second calculator's fleets leave out."""

    def timing(self, law):
        keys = dict(super().timing(law))
        if self.chance(0.15) and "within" not in keys["every"]:
            keys["every"] += f" or {self.rng.randint(3, 30) * 1000} km"
            self.metered = True
        if self.chance(0.3):
            keys["remind"] = self.rng.choice(
                ["4 weeks, 0 days, overdue every 1 week",
                 "2 weeks, 1 week, 0 days, overdue every 1 day"])
        if self.chance(0.4):
            keys["takes"] = self.rng.choice(["30 minutes", "2 hours"])
        if self.chance(0.1):
            keys["early"] = self.span("day week")
        return keys.items()

    def calendars(self):
        for part in super().calendars():
            yield from part if isinstance(part, tuple) else (part,)
            text = part[0] if isinstance(part, tuple) else part
            if text.startswith("[calendar ") and self.chance(0.3):
                yield f"vehicles-a-day = {self.rng.randint(1, 3)}"
            if text.startswith("[calendar ") and self.chance(0.2):
                yield "hours-a-day = 8"

    def subject(self, kind, name, carriers):
        for line in super().subject(kind, name, carriers):
            yield line
            if line.startswith("[vehicle "):
                yield "distance-unit = km"
                if self.chance(0.6):
                    yield f"yearly-distance = {self.rng.randint(4, 60)}000 km"
            elif line.startswith(("[equipment ", "[driver ")):
                yield "distance-unit = km"

    def fleet_file(self):
        self.metered = False
        text = super().fleet_file()
        site = "[site]\n"
        if self.chance(0.5):
            site += "planner = on\n"
        if self.chance(0.3):
            text += f"[limit most]\nof = all\naway = {self.rng.randint(1, 2)}\n"
        return text.replace("[site]\n", site, 1) + SEEN_BY


def sections_of(text):
    """[[header, key, ...], ...]; a key has the indented lines after it."""
    return [re.findall(r"(?m)^[^ \n].*\n(?:[ ].*\n)*", part)
            for part in re.split(r"(?m)^(?=\[)", text) if part]


class Case:
    """A fleet file in parts, the records of its ledger, today, bookings."""

    def __init__(self, seed):
        self.rng = random.Random(seed)
        maker = AllMaker(self.rng)
        self.sections = sections_of(maker.fleet_file())
        self.files = maker.files
        self.today = date(2027, 1, 1) + self.rng.randrange(400) * DAY
        self.seed = seed
        self.records = list(self.made_records())
        self.bookings = [(*self.rng.choice(self.tasks()),
                          self.today + self.rng.randint(0, 60) * DAY)
                         for _ in range(self.rng.choice([0, 0, 1, 3]))]

    def copy(self):
        return copy.deepcopy(self)

    def text(self):
        return "".join("".join(section) for section in self.sections)

    def keys_of(self, section, key):
        return [word for line in section[1:]
                if line.split("=")[0].strip() == key
                for word in line.split("=", 1)[1].split()]

    def subjects(self, *kinds):
        return [section[0].split()[1].strip("]\n") for section in self.sections
                if section[0][1:].split()[0].strip("]\n") in kinds]

    def tasks(self):
        jobs, found = {}, []
        for section in self.sections:
            kind, *name = section[0].strip("[]\n").split()
            if kind == "type":
                jobs[name[0]] = self.keys_of(section, "jobs")
        for section in self.sections:
            kind, *name = section[0].strip("[]\n").split()
            if kind in ("vehicle", "equipment", "driver"):
                shared = [job for of in self.keys_of(section, "type")
                          for job in jobs.get(of, [])]
                found += [(name[0], job) for job in dict.fromkeys(
                    shared + self.keys_of(section, "jobs"))]
        return found

    def some_day(self, first=2023):
        start = date(first, 1, 1)
        return start + self.rng.randrange((self.today - start).days + 1) * DAY

    def made_records(self):
        rng = self.rng
        for subject, job in self.tasks():
            for _ in range(rng.choice([0, 1, 1, 2, 3])):
                yield {"kind": rng.choice(["completed"] * 5 + ["failed"]),
                       "subject": subject, "job": job, "day": self.some_day()}
        for vehicle in self.subjects("vehicle"):
            yield from self.spells(vehicle)
            rate = rng.randint(10, 120)
            for _ in range(rng.choice([0, 0, 2, 6])):
                day = self.some_day(2024)
                yield {"kind": "reading", "subject": vehicle, "day": day,
                       "meter": "distance", "reading":
                       1000 + (day - date(2023, 1, 1)).days * rate}
        for thing in self.subjects("equipment"):
            if rng.random() < 0.3:
                yield {"kind": "moved", "subject": thing,
                       "day": self.some_day(2025),
                       "other": rng.choice(self.subjects("vehicle"))}

    def spells(self, vehicle):
        day = self.some_day(2025)
        for _ in range(self.rng.choice([0, 0, 1, 2])):
            until = day + self.rng.randint(0, 60) * DAY
            if self.rng.random() < 0.2 and day <= self.today:
                yield {"kind": "off-road", "subject": vehicle, "day": day}
                return
            yield {"kind": "off-road", "subject": vehicle, "day": day,
                   "until": until}
            day = until + self.rng.randint(1, 150) * DAY

    # What the shrinking leaves out.

    def smaller(self):
        """Cases with less in them: half of a list, a quarter, and so on down
        to one thing; then with one key less, and one word less of a key."""
        for name in ("sections", "records", "bookings"):
            size = len(getattr(self, name)) // 2
            while size:
                for i in range(0, len(getattr(self, name)), size):
                    less = self.copy()
                    del getattr(less, name)[i:i + size]
                    yield less
                size //= 2
        for i, section in enumerate(self.sections):
            for k in range(len(section) - 1, 0, -1):
                less = self.copy()
                del less.sections[i][k]
                yield less
                for shorter in one_word_less(section[k]):
                    less = self.copy()
                    less.sections[i][k] = shorter
                    yield less

    def shuffled(self):
        """The same fleet, its sections and their keys in another order."""
        other, rng = self.copy(), random.Random(self.seed)
        first = [s for s in other.sections if s[0].startswith("[site]")]
        rest = [s for s in other.sections if not s[0].startswith("[site]")]
        rng.shuffle(rest)
        other.sections = rest[:1] + first + rest[1:]
        for section in other.sections:
            keys = section[1:]
            rng.shuffle(keys)
            section[1:] = keys
        return other


def one_word_less(key):
    name, _, value = key.partition("=")
    if name.strip() in ("jobs", "covers", "follows", "holidays"):
        words = value.split()
        for i in range(len(words)):
            if len(words) > 1:
                yield f"{name}= {' '.join(words[:i] + words[i + 1:])}\n"
    if name.strip().split(".")[-1] in ("every", "within") and " or " in value:
        parts = value.strip().split(" or ")
        for i in range(len(parts)):
            yield f"{name}= {' or '.join(parts[:i] + parts[i + 1:])}\n"
