"""A second fold over the life of defects, written from the design alone: the
table of states and the thirteen rules of its section 8.  It reads the protocol
of `second-defects` and prints what the program prints.

Where the page can be read in two ways, this takes the one that stops a vehicle
or refuses to lift a stop:

"Not to be driven is said by an open stopping defect"; "released ... the vehicle
may be used again"
    A repair lifts nothing: what is repaired is undecided and stops by its grade
    (rule 12), and a minor where it was stopped, or its deferral lapses.  Seen
    again after the repair, it still stops: rule 1 goes before the table, or a
    driver's report of a minor would lift the stop of whoever decided.
"repaired, seen again: if it happened later"
    The same minute counts as later.  Later than the newest repair by time.
Rule 1: "what imposes one needs nothing"
    A verdict `stop` needs a known person and no right.
Rule 2: "Reporter and lifter, repairer and releaser differ"
    Whoever reported or mended the defect at any time counts, not the last
    alone.  A release, and `nothing` from repaired, is a lift in this and in
    rule 1, though it be of a minor.
Rule 3: "not before the time of the report"
    Of the newest report that stands.  A decision other than `stop` dated before
    it is refused likewise, and a release before the repair.
Rule 5: "joins the defect that was open at that time; else it opens one"
    A closed defect is joined by what says nothing new: within its time, before
    its repair, no worse than its grade.  All else opens another.  An open one
    is joined by a live report whenever it was; by paper only from its first
    report on.  "Stops now" is read with rule 12: by its grade.
Rule 6: "`until` always has a day"
    It counts from the day of the decision, and is not before that day.  A
    deferral by distance whose early day is too late is refused, not cut.
Rule 7: "moving it off opens `missing`, unless another arrives that day"
    Graded `stops`; another of the same item, still there, and one for one;
    before or after it in order of entry, as long as nobody acted on the missing
    one.  A move has no time: it may have been at any of that day.  "Moving it on
    needs --sure" where it has an open defect.  A move before the last one of the
    same equipment is refused.
Table: "void of the last act"
    An older act is not voided, nor a void; a sighting that joined a closed
    defect is no act on it.  A move is voided while it is the last of its
    equipment and stands in for no other.
Rule 1 and a clock: lapsed or not is asked of the newest day that was entered
or asked for, or of the act's own where that is later.
"""
import sys
from datetime import date, timedelta

GRADES = ["minor", "major", "stops"]
DECIDED = ("stop", "until", "watch")
GONE = (None, "closed", "void")


class Refused(Exception):
    """The event is not allowed."""


def need(condition):
    if not condition:
        raise Refused


class Event:
    """One line `event`, with what it was found to be when it was entered."""

    def __init__(self, words):
        self.number, self.kind, self.words = words[0], words[1], words[2:]
        self.defect = None      # the number of the defect it is about
        self.check = None       # the check a report was found in
        self.excuses = None     # the missing defect that an arrival undoes
        self.rests_on = None    # the arrival that excused a departure
        self.by = self.grade = self.verdict = self.until = None
        self.first = self.last = None   # from when to when it may have been
        self.alone = self.paper = False

    def at(self, day, minute=None):
        self.first = f"{day} {minute or '00:00'}"
        self.last = f"{day} {minute or '23:59'}"

    @property
    def day(self):
        return self.first[:10]


class State:
    """What standing events, in order of entry, make of one defect."""

    def __init__(self, number, events):
        self.number = number
        self.state = self.grade = self.until = None
        self.held = None    # the day after which a stop goes on
        self.last, self.idle = None, set()  # the last act, and what was none
        self.opened = self.seen = self.mended = self.closed = None
        self.reporters, self.menders = set(), set()
        for event in events:
            if self.state == "closed":
                self.idle.add(event.number)
            else:
                self.last = event.number
            getattr(self, event.kind)(event)
        if self.state is None:
            self.state = "void"

    def reported(self, event):
        worse = self.grade and rank(event) > GRADES.index(self.grade)
        later = self.mended and event.last >= self.mended
        if (self.state is None or self.state in DECIDED and worse
                or self.state == "repaired" and later):
            self.state = "reported"
        if not self.grade or worse:
            self.grade = event.grade
        self.opened = min(self.opened or event.first, event.first)
        self.seen = max(self.seen or event.first, event.first)
        self.reporters.add(event.by)

    def assessed(self, event):
        self.state, self.until = event.verdict, event.until
        if event.verdict == "nothing":
            self.state, self.closed = "closed", event.first

    def repaired(self, event):
        if self.state in DECIDED:
            self.held = {"stop": "", "until": self.until}.get(self.state)
        self.state = "repaired"
        self.mended = max(self.mended or event.first, event.first)
        self.menders.add(event.by)

    def released(self, event):
        self.state, self.closed = "closed", event.first

    def moved(self, event):
        """Opens the missing one where it left, or undoes it on arrival."""
        if event.excuses == self.number:
            self.state = "void"
        else:
            self.reported(event)

    def open(self):
        return self.state not in GONE

    def lapsed(self, today):
        return self.state == "until" and today > self.until

    def stops(self, today):
        if self.state in ("reported", "repaired"):
            return (self.grade != "minor"
                    or self.held is not None and today > self.held)
        return self.state == "stop" or self.lapsed(today)


def rank(event):
    return GRADES.index(event.grade)


class Defect:
    def __init__(self, number, subject, item, again):
        self.number, self.subject, self.item = number, subject, item
        self.again, self.grade = again, None
        self.events = []        # of every kind, voided ones too


class Fold:
    """The whole ledger of one sequence."""

    def __init__(self):
        self.rights, self.vehicles, self.inspection = {}, set(), {}
        self.most = 28
        self.start, self.items = {}, {}     # of equipment
        self.events, self.void = {}, set()
        self.defects = []
        self.now = "0000-00-00"     # the newest day entered or asked for

    # What stands.

    def standing(self, events):
        return [e for e in events if e.number not in self.void]

    def state(self, defect, *more):
        return State(defect.number,
                     self.standing(defect.events) + list(more))

    def moves(self, equipment):
        return [e for e in self.standing(self.events.values())
                if e.kind == "moved" and e.words[0] == equipment]

    def carrier(self, subject):
        if subject not in self.start:
            return subject
        moves = self.moves(subject)
        return moves[-1].words[1] if moves else self.start[subject]

    def stops(self, today):
        """{(vehicle, number)}: which defect stops which vehicle."""
        return {(self.carrier(d.subject), d.number) for d in self.defects
                if self.state(d).stops(today)}

    # Entering.

    def enter(self, words):
        event = Event(words)
        need(event.number not in self.events)
        count = len(self.defects)
        try:
            getattr(self, event.kind)(event, *event.words)
        except Refused:
            del self.defects[count:]
            raise
        self.events[event.number] = event
        if event.first:
            self.now = max(self.now, event.day)

    def act(self, event, defect):
        event.defect = defect.number
        defect.events.append(event)
        if defect.grade is None:
            defect.grade = event.grade

    def checked(self, event, vehicle, day, minute, by, *rest):
        event.by, event.paper = by, rest[1] == "paper"
        event.at(day, minute)
        need(vehicle in self.vehicles)
        answered = {int(n) for n in rest[3:]}
        watched = {d.number for d in self.defects
                   if self.carrier(d.subject) == vehicle
                   and self.state(d).state == "watch"}
        need(event.paper or watched <= answered)

    def reported(self, event, subject, item, grade, day, minute, by, *rest):
        event.by, event.grade, event.paper = by, grade, rest[0] == "paper"
        event.at(day, minute)
        need(subject in self.vehicles or subject in self.start)
        if rest[1:]:
            event.check = rest[2]
            check = self.events.get(event.check)
            need(check and check.kind == "checked"
                 and check.number not in self.void)
        self.report(event, subject, item)

    def report(self, event, subject, item):
        """The defect that it is a sighting of, or a new one."""
        alike = [d for d in self.defects
                 if (d.subject, d.item) == (subject, item)]
        found = [d for d in alike if self.joins(event, d)]
        closed = any(self.state(d).state == "closed" for d in alike)
        if not found:
            found = [Defect(len(self.defects) + 1, subject, item, closed)]
            self.defects += found
        # Where several were open, one that it undoes, or the oldest.
        best = max(found, key=lambda d: (self.state(d).open(),
                                         self.undoes(event, d), -d.number))
        self.act(event, best)

    def undoes(self, event, defect):
        before, after = self.state(defect), self.state(defect, event)
        return before.state != after.state == "reported"

    def joins(self, event, defect):
        state = self.state(defect)
        if state.open():
            return not event.paper or event.first >= state.opened
        return (state.state == "closed" and event.paper
                and state.opened <= event.first < state.closed
                and (not state.mended or event.first < state.mended)
                and rank(event) <= GRADES.index(state.grade))

    def find(self, number):
        need(number.isdigit() and 1 <= int(number) <= len(self.defects))
        return self.defects[int(number) - 1]

    def known(self, by, *rights):
        need(by in self.rights and self.rights[by].issuperset(rights))

    def lift(self, event, barred):
        """Rules 1 and 2 for what lifts a stop, or releases."""
        self.known(event.by, "release")
        holders = [p for p, may in self.rights.items() if "release" in may]
        if event.by in barred:
            need(len(holders) < 2 and event.alone)

    def assessed(self, event, number, verdict, day, minute, by, *rest):
        event.by, event.alone = by, bool(rest)
        event.at(day, minute)
        event.verdict, _, detail = verdict.partition(":")
        if event.verdict in ("until", "km"):
            event.verdict, event.until = "until", detail.split(":")[-1]
        defect = self.find(number)
        before, after = self.state(defect), self.state(defect, event)
        need(before.open())
        need(before.state != "repaired" or event.verdict == "nothing")
        self.known(by)
        if event.verdict != "stop":
            need(event.first >= before.seen)
            need(before.state != "repaired" or event.first >= before.mended)
            today = max(self.now, day)
            lifts = before.stops(today) and not after.stops(today)
            if lifts or before.state == "repaired":
                self.lift(event, self.barred(before))
            else:
                self.known(by, "assess")
        if event.until:
            self.in_limits(event, self.carrier(defect.subject))
        self.act(event, defect)

    def barred(self, before):
        """Who reported it does not lift, who mended it does not release."""
        return before.reporters | (before.menders
                                   if before.state == "repaired" else set())

    def in_limits(self, event, vehicle):
        most = date.fromisoformat(event.day) + timedelta(self.most)
        limit = min(most.isoformat(),
                    self.inspection.get(vehicle, "9999-12-31"))
        need(event.day <= event.until <= limit)

    def repaired(self, event, number, day, minute, by, *_):
        event.by = by
        event.at(day, minute)
        defect = self.find(number)
        before = self.state(defect)
        self.known(by, "repair")
        need(before.open() and event.first >= before.seen)
        self.act(event, defect)

    def released(self, event, number, day, minute, by, *rest):
        event.by, event.alone = by, bool(rest)
        event.at(day, minute)
        defect = self.find(number)
        before = self.state(defect)
        need(before.state == "repaired" and event.first >= before.mended)
        self.lift(event, self.barred(before))
        self.act(event, defect)

    # Moves.

    def moved(self, event, equipment, vehicle, day, *sure):
        event.grade = "stops"
        event.at(day)
        need(equipment in self.start and vehicle in self.vehicles)
        moves, left = self.moves(equipment), self.carrier(equipment)
        need(vehicle != left and (not moves or moves[-1].day <= day))
        need(sure or not any(self.state(d).open() for d in self.defects
                             if d.subject == equipment))
        undone = self.missing(event, vehicle)
        event.rests_on = self.arrived(event, left)
        if not event.rests_on:
            self.report(event, left, self.items[equipment])
        if undone:
            event.excuses = undone.number
            undone.events.append(event)

    def missing(self, event, vehicle):
        """What another that left on that day opened, and nobody acted on."""
        for defect in self.defects:
            acts = self.standing(defect.events)
            if ((defect.subject, defect.item)
                    == (vehicle, self.items[event.words[0]])
                    and len(acts) == 1 and acts[0].kind == "moved"
                    and acts[0].day == event.day
                    and acts[0].words[0] != event.words[0]):
                return defect
        return None

    def arrived(self, event, vehicle):
        """Another that arrived on that day, is there still, and stands in for
        none yet."""
        equipment = event.words[0]
        used = {e.rests_on for e in self.standing(self.events.values())}
        for other in self.start:
            last = (self.moves(other) or [None])[-1]
            if (other != equipment and last
                    and self.items[other] == self.items[equipment]
                    and last.words[1] == vehicle and last.day == event.day
                    and last.excuses is None and last.number not in used):
                return last.number
        return None

    # Voids.

    def voided(self, event, number, by, *rest):
        event.by, event.alone = by, bool(rest)
        self.known(by)
        target = self.events.get(number)
        need(target and target.kind != "voided" and number not in self.void)
        self.last_act(target)
        before = self.stops(self.now)
        states = {d.number: self.state(d) for d in self.defects}
        self.void.add(number)
        try:
            for _, lifted in before - self.stops(self.now):
                self.lift(event, states[lifted].reporters)
        except Refused:
            self.void.remove(number)
            raise

    def last_act(self, target):
        """Nothing that stands rests on it."""
        standing = self.standing(self.events.values())
        if target.kind == "checked":
            need(all(e.check != target.number for e in standing))
        if target.kind == "moved":
            need(self.moves(target.words[0])[-1] is target)
            need(all(e.rests_on != target.number for e in standing))
            need(target.excuses is None)
        if target.defect:
            state = self.state(self.defects[target.defect - 1])
            need(state.last == target.number or target.number in state.idle
                 or state.state == "void")

    # Asking.

    def ask(self, day):
        self.now = max(self.now, day)
        for d in self.defects:
            state = self.state(d)
            words = ["defect", d.number, d.subject, d.item, state.state,
                     state.grade or d.grade]
            words += ["again"] * d.again + ["lapsed"] * state.lapsed(self.now)
            yield " ".join(map(str, words))
        stopped = {vehicle for vehicle, _ in self.stops(self.now)}
        for v in sorted(self.vehicles):
            yield f"vehicle {v} {'stopped' if v in stopped else 'drive'}"

    # The protocol.

    def line(self, text):
        """What is answered to one line."""
        word, *rest = text.split()
        if word == "event":
            try:
                self.enter(rest)
                return [f"{rest[0]} ok"]
            except Refused:
                return [f"{rest[0]} refused"]
        if word == "ask":
            return list(self.ask(rest[0]))
        if word == "rights":
            self.rights[rest[0]] = set(rest[1:])
        elif word == "vehicle":
            self.vehicles.add(rest[0])
        elif word == "carried":
            self.start[rest[0]], self.items[rest[0]] = rest[1:]
        elif word == "inspection":
            self.inspection[rest[0]] = rest[1]
        elif word == "defer-at-most":
            self.most = int(rest[0])
        else:
            raise ValueError(text)
        return []


def answers(lines):
    """What the whole sequence is answered, a list of lines for each."""
    fold = Fold()
    return [fold.line(line) for line in lines]


if __name__ == "__main__":
    for said in answers(filter(str.strip, sys.stdin)):
        for one in said:
            print(one)
