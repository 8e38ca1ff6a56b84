"""Random sequences of the protocol of `second-defects`, made to be awkward:
few things and few instants, so that acts meet, and a clock that likes midnight.

What is accepted so far is asked of the second fold, only so that most acts are
about something that is there: a sequence of refusals shows nothing."""
from datetime import datetime, timedelta

from second_defects import Fold

MONDAY = datetime(2026, 3, 2, 7, 30)
RIGHTS = [
    # one person alone, two, and rights that are spread
    {"ann": "assess repair release", "cai": "", "dot": ""},
    {"ann": "assess repair release", "bea": "assess repair release",
     "cai": ""},
    {"ann": "assess repair release", "bea": "release", "eve": "assess",
     "fin": "repair", "cai": ""},
    {"ann": "assess release", "fin": "repair", "cai": ""},
    {"eve": "assess", "fin": "repair", "cai": ""},
]
STEPS = [0, 0, 1, 1, 20, 45, 240, 600]
DAYS = [1, 1, 1, 2, 3, 7, 30]
KINDS = ["reported"] * 6 + ["assessed"] * 6 + ["repaired"] * 4 + [
    "released"] * 7 + ["voided"] * 3 + ["checked"] * 2 + ["moved"] * 2 + ["ask"]
OPEN = ("reported", "until", "watch", "stop")
FITS = {"assessed": OPEN, "repaired": OPEN, "released": ("repaired",)}


class Sequence:
    """One sequence while it is made up."""

    def __init__(self, rng):
        self.rng, self.lines, self.fold = rng, [], Fold()
        self.now, self.instants, self.count = MONDAY, [MONDAY], 0
        self.vehicles = ["K7", "M2", "P4"][:rng.randint(1, 3)]
        self.equipment = ["X1", "X2", "Y3"][:rng.choice([0, 0, 1, 2, 3])]
        self.rights = rng.choice(RIGHTS)
        self.head()
        for _ in range(rng.randint(4, 40)):
            self.something()
            if rng.random() < 0.25:
                self.ask()
        self.ask()

    def head(self):
        for person, rights in self.rights.items():
            self.say(f"rights {person} {rights}".strip())
        for vehicle in self.vehicles:
            self.say(f"vehicle {vehicle}")
        for one in self.equipment:
            self.say(f"carried {one} {self.rng.choice(self.vehicles)} "
                     f"{'F1' if one[0] == 'X' else 'G1'}")
        for vehicle in self.vehicles:
            if self.rng.random() < 0.7:
                day = MONDAY + timedelta(self.rng.choice([2, 5, 20, 40]))
                self.say(f"inspection {vehicle} {day:%Y-%m-%d}")
        if self.rng.random() < 0.7:
            self.say(f"defer-at-most {self.rng.choice([1, 7, 28])}")

    def say(self, line):
        self.lines.append(line)
        self.fold.line(line)

    def event(self, *words):
        self.count += 1
        self.say(f"event {self.count} "
                 + " ".join(str(w) for w in words if w != ""))

    # When.

    def live(self):
        """Time goes on, often to the edge of a day."""
        rng = self.rng
        if rng.random() < 0.25:
            days = timedelta(rng.choice(DAYS))
            self.now = (self.now + days).replace(hour=7, minute=0)
        elif rng.random() < 0.15:
            self.now = self.now.replace(hour=23, minute=59)
        elif rng.random() < 0.15:
            day = self.now + timedelta(1)
            self.now = day.replace(hour=0, minute=0)
        else:
            self.now += timedelta(minutes=rng.choice(STEPS))
        self.instants.append(self.now)
        return f"{self.now:%Y-%m-%d %H:%M}"

    def late(self):
        """At, just before or just after something else, or between two."""
        rng = self.rng
        at = rng.choice(self.instants)
        at += timedelta(minutes=rng.choice([-1, 0, 0, 1, -30, 30, -1440]))
        return f"{min(at, self.now):%Y-%m-%d %H:%M}"

    def when(self, late):
        return self.late() if self.rng.random() < late else self.live()

    # Who and what.

    def by(self, right=None):
        """Mostly somebody who may."""
        may = [p for p, rights in self.rights.items()
               if right and right in rights]
        if may and self.rng.random() < 0.9:
            return self.rng.choice(may)
        return self.rng.choice(list(self.rights) + ["key", "zoe"])

    def reporter(self):
        """Mostly a driver, so that somebody is left who may lift."""
        drivers = [p for p, rights in self.rights.items() if not rights]
        return self.rng.choice(drivers * 3 + ["key"] + list(self.rights))

    def alone(self):
        return self.rng.choice(["", "alone"])

    def number(self, *states):
        """A defect, mostly one that can take the act."""
        known = [d.number for d in self.fold.defects]
        fit = [d.number for d in self.fold.defects
               if self.fold.state(d).state in states]
        if fit and self.rng.random() < 0.9:
            return self.rng.choice(fit)
        return self.rng.choice(known + [len(known) + 1])

    def something(self):
        """An event of a kind; mostly one for which there is a defect."""
        kind = self.rng.choice(KINDS)
        for act, states in FITS.items():
            if kind == act and self.rng.random() < 0.9 and not any(
                    self.fold.state(d).state in states
                    for d in self.fold.defects):
                kind = "reported"
        getattr(self, kind)()

    # What happens.

    def reported(self, *more):
        rng = self.rng
        subject = rng.choice(self.vehicles * 8 + self.equipment * 4 + ["Q9"])
        items = {"X": ["F1"], "Y": ["G1"]}.get(subject[0], ["T1", "T1", "L1"])
        if subject in self.vehicles and self.equipment and rng.random() < 0.15:
            items = ["F1"]
        grade = rng.choice(["minor", "minor", "major", "stops"])
        paper = rng.random() < 0.4
        self.event("reported", subject, rng.choice(items), grade,
                   self.when(0.85 if paper else 0.05), self.reporter(),
                   "paper" if paper else "live", *more)

    def checked(self):
        rng = self.rng
        watched = [d.number for d in self.fold.defects
                   if self.fold.state(d).state == "watch"]
        paper = rng.random() < 0.4
        found = rng.random() < 0.6
        vehicles = self.vehicles
        if watched and rng.random() < 0.7:
            vehicles = [self.fold.carrier(self.fold.defects[watched[0] - 1]
                                          .subject)]
            watched = [n for n in watched if rng.random() < 0.7]
        self.event("checked", rng.choice(vehicles * 8 + ["Q9"]),
                   self.when(0.8 if paper else 0), self.by(),
                   "defects" if found else "nil",
                   "paper" if paper else "live",
                   *(["answered"] + watched if watched else []))
        if found and str(self.count) in self.fold.events:
            check = self.count
            for _ in range(rng.randint(1, 2)):
                self.reported("check", check)

    def assessed(self):
        rng = self.rng
        when = self.when(0.15)
        day = datetime.fromisoformat(when[:10])
        day += timedelta(rng.choice([-1, 0, 0, 1, 2, 4, 7, 8, 28, 29]))
        verdict = rng.choice(["stop", "watch", "watch", "nothing",
                              f"until:{day:%Y-%m-%d}",
                              f"until:{day:%Y-%m-%d}",
                              f"km:400:{day:%Y-%m-%d}"])
        right = rng.choice(["assess", "release"])
        self.event("assessed",
                   self.number(*OPEN), verdict, when, self.by(right),
                   self.alone())

    def repaired(self):
        self.event("repaired", self.number(*OPEN), self.when(0.3),
                   self.by("repair"), self.alone())

    def released(self):
        self.event("released", self.number("repaired"), self.when(0.15),
                   self.by("release"), self.alone())

    def voided(self):
        """The last event, an older one, one that is void, one that never
        was."""
        rng = self.rng
        known = [n for n, e in self.fold.events.items() if e.kind != "voided"]
        last = known[-3:]
        which = rng.choice(last * 3 + known + [self.count + 5])
        self.event("voided", which, self.by("release"))

    def moved(self):
        if not self.equipment:
            return
        rng = self.rng
        when = self.when(0.15)[:10]
        one = rng.choice(self.equipment * 8 + ["Q9"])
        others = [v for v in self.vehicles if v != self.fold.carrier(one)]
        if not others or rng.random() < 0.1:
            others = self.vehicles + ["Q9"]
        self.event("moved", one, rng.choice(others), when,
                   rng.choice(["", "sure", "sure"]))

    def ask(self):
        rng = self.rng
        at = self.now
        if rng.random() < 0.1:
            at -= timedelta(rng.choice([1, 3]))
        elif rng.random() < 0.3:
            at = at.replace(hour=23, minute=59)
            self.now = at
        self.say(f"ask {at:%Y-%m-%d %H:%M}")


def smallest(lines, fails):
    """The lines without any that it fails without, one by one; what a line
    names stays as long as the line."""
    changed = True
    while changed:
        changed = False
        for i in range(len(lines) - 1, -1, -1):
            less = lines[:i] + lines[i + 1:]
            word, name, *rest = lines[i].split()
            if rest[:1] == ["checked"]:
                name = f"check {name}"
            if (word in ("vehicle", "carried") or rest[:1] == ["checked"]) and (
                    f" {name} " in f"{' '.join(less)} "):
                continue
            if fails(less):
                lines, changed = less, True
    return lines
