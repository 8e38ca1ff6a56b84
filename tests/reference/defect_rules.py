"""What must hold of a fold of defects, however the page is read: rules of the
design, section 8, seen from outside, in what is answered to a sequence.

No state is kept here but what the answers said, and who may: so this does not
share the mistakes of a fold."""
from datetime import date, timedelta

GRADES = ["minor", "major", "stops"]
OPEN = ("reported", "stop", "until", "watch", "repaired")
AFTER = {"repaired": "repaired", "released": "closed"}


def asked_after_each(lines):
    """The events, and after each what became of everything, asked for the
    newest day: then only an event changes anything, or the end of a day."""
    newest, out = "2026-01-01", []
    for line in lines:
        words = line.split()
        if words[0] == "ask":
            newest = max(newest, words[1])
            continue
        out.append(line)
        if words[0] == "event":
            newest = max([newest] + [w for w in words if is_day(w)])
            out.append(f"ask {newest} 23:59")
    return out


def is_day(word):
    return len(word) == 10 and word[4] == word[7] == "-"


class Shown:
    """What is answered to one ask."""

    def __init__(self, day, lines):
        self.day, self.defects, self.stopped = day, {}, {}
        for line in lines:
            word, name, *rest = line.split()
            if word == "vehicle":
                self.stopped[name] = rest[0] == "stopped"
            else:
                self.defects[name] = rest

    def __eq__(self, other):
        return (self.defects, self.stopped) == (other.defects, other.stopped)


class Rules:
    """The rules, held to one sequence; `broken` says which are not kept."""

    def __init__(self, lines, answers):
        self.broken, self.rights, self.limits, self.most = [], {}, {}, 28
        self.start, self.moves = {}, {}
        self.found, self.mended, self.past = {}, {}, {}
        self.before, self.shown, answers = None, None, list(answers)
        for line in lines:
            word, *rest = line.split()
            if word == "event":
                self.event, self.ok = rest, answers.pop(0).endswith(" ok")
            elif word == "ask":
                size = next((i for i, a in enumerate(answers)
                             if a.split()[0] not in ("defect", "vehicle")),
                            len(answers))
                self.before = self.shown or Shown("", [])
                self.shown = Shown(rest[0], answers[:size])
                del answers[:size]
                self.look()
            else:
                self.head(word, rest)

    def head(self, word, rest):
        if word == "rights":
            self.rights[rest[0]] = set(rest[1:])
        elif word == "inspection":
            self.limits[rest[0]] = rest[1]
        elif word == "defer-at-most":
            self.most = int(rest[0])
        elif word == "carried":
            self.start[rest[0]] = rest[1]

    def hold(self, rule, condition):
        if not condition:
            self.broken.append(f"{rule}: event {' '.join(self.event)}")

    def may(self, by, right):
        return right in self.rights.get(by, ())

    def carrier(self, subject):
        moves = dict(self.moves.values())   # the last of each
        return moves.get(subject, self.start.get(subject, subject))

    def look(self):
        number, kind, *words = self.event
        if self.ok:
            if kind == "moved":
                self.moves[number] = words[:2]
            elif kind == "voided":
                self.moves.pop(words[0], None)
            getattr(self, kind)(number, *words)
        else:
            self.nothing_changes("refused")
        self.conditions()
        for n, defect in self.shown.defects.items():
            self.past.setdefault(n, set()).add(tuple(defect[2:4]))

    # What an accepted event may do.

    def nothing_changes(self, why):
        if self.shown.day == self.before.day:
            self.hold(f"{why}: nothing changes", self.shown == self.before)
        for n, defect in self.before.defects.items():
            self.hold(f"{why}: no state changes",
                      self.shown.defects[n][2:4] == defect[2:4])

    def others(self, number):
        """No defect but this one changes."""
        for n, defect in self.before.defects.items():
            self.hold("an act is about one defect", n == number
                      or self.shown.defects[n][:4] == defect[:4])

    def checked(self, *_):
        self.nothing_changes("rules 4 and 8, a check")

    def reported(self, _, subject, item, grade, day, minute, by, *_rest):
        old, new = self.before.defects, self.shown.defects
        changed = [n for n in new if old.get(n, [])[:4] != new[n][:4]]
        self.hold("a report is of one defect", len(changed) <= 1)
        for n in changed:
            self.hold("rule 12: reported as what it is",
                      new[n][:3] == [subject, item, "reported"]
                      or old.get(n, [0] * 3)[2] == new[n][2] != "void")
            self.hold("the grade only rises", rise(old.get(n), new[n]))
            if n not in old:
                self.found[n] = (f"{day} {minute}", by)
                self.hold("a new one has its grade", new[n][3] == grade)
        self.imposes()

    def imposes(self):
        for vehicle, stopped in self.before.stopped.items():
            self.hold("this lifts no stop",
                      self.shown.stopped[vehicle] >= stopped)

    def lifts(self, by):
        for vehicle, stopped in self.before.stopped.items():
            if stopped and not self.shown.stopped[vehicle]:
                self.hold("rule 1: needs release", self.may(by, "release"))

    def assessed(self, _, n, verdict, day, _minute, by, *rest):
        was, now = self.before.defects[n], self.shown.defects[n]
        word = verdict.split(":")[0].replace("km", "until")
        word = {"nothing": "closed"}.get(word, word)
        self.hold("table: assessed", was[2] in OPEN and now[2] == word
                  and (was[2] != "repaired" or word == "closed"))
        self.hold("rule 1: a known person", by in self.rights)
        self.others(n)
        self.lifts(by)
        if word == "until":
            until = verdict.split(":")[-1]
            most = date.fromisoformat(day) + timedelta(self.most)
            vehicle = self.carrier(was[0])
            self.hold("rule 6: within the limits", until <= str(most)
                      and until <= self.limits.get(vehicle, until))
        if (was[2:4] == ["reported", "stops"] and word != "stop"
                and "lapsed" not in now):
            self.differ(self.found.get(n, (0, 0))[1], by, rest)

    def differ(self, one, by, rest):
        holders = sum("release" in rights for rights in self.rights.values())
        self.hold("rule 2: two people, or alone",
                  one != by or holders < 2 and "alone" in rest)

    def repaired(self, _, n, day, minute, by, *_rest):
        self.hold("table: repaired", self.before.defects[n][2] in OPEN)
        self.hold("repair is for who may", self.may(by, "repair"))
        self.hold("rule 3: not before the report",
                  f"{day} {minute}" >= self.found.get(n, ("",))[0])
        self.after(n, "repaired", by)
        self.mended[n] = by

    def released(self, _, n, _day, _minute, by, *rest):
        self.hold("table: released",
                  self.before.defects[n][2] == "repaired")
        self.hold("release is for who may", self.may(by, "release"))
        self.differ(self.mended.get(n), by, rest)
        self.differ(self.found.get(n, (0, 0))[1], by, rest)
        self.after(n, "released", by)

    def after(self, n, kind, by):
        self.hold(f"table: after {kind}",
                  self.shown.defects[n][2] == AFTER[kind])
        self.others(n)
        self.lifts(by)

    def voided(self, _, _which, by, *_rest):
        self.hold("rule 1: a known person", by in self.rights)
        self.lifts(by)
        for n, defect in self.shown.defects.items():
            self.hold("table: a void leads back",
                      defect[2] == "void" or tuple(defect[2:4]) in self.past[n]
                      or defect[2:4] == self.before.defects[n][2:4])
            self.mended.pop(n, None)

    def moved(self, _, equipment, _vehicle, _day, *sure):
        self.hold("rule 7: needs sure", sure or not any(
            d[0] == equipment and d[2] in OPEN
            for d in self.before.defects.values()))
        self.hold("rule 7: one missing at most",
                  len(self.shown.defects) <= len(self.before.defects) + 1)

    # What holds at any time.

    def conditions(self):
        numbers = list(self.shown.defects)
        self.hold("numbered 1, 2, 3",
                  numbers == [str(i + 1) for i in range(len(numbers))])
        clear = {v: True for v in self.shown.stopped}
        for subject, _, state, grade, *rest in self.shown.defects.values():
            vehicle = self.carrier(subject)
            self.hold("only `until` lapses",
                      "lapsed" not in rest or state == "until")
            if state in OPEN:
                clear[vehicle] = False
            stops = (state == "stop" or "lapsed" in rest
                     or state in ("reported", "repaired") and grade == "stops"
                     or state == "reported" and grade == "major")
            if stops:
                self.hold("a stop stops", self.shown.stopped[vehicle])
        for vehicle, nothing in clear.items():
            self.hold("nothing open, nothing stops",
                      not (nothing and self.shown.stopped[vehicle]))


def rise(old, new):
    return not old or GRADES.index(new[3]) >= GRADES.index(old[3])
