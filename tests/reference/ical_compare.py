"""Readings of a feed against one another and against what was meant."""
import json
import re
from datetime import date, timedelta

from ical_hostile import clean, escape
from ical_rfc5545 import house_rules, problems

DAY = timedelta(1)


def feed_caution(dues):
    """The caution that ends each event: that of the JSON but for the sentence on
    what "fit" means, for a feed of dues calls nothing so."""
    return clean(re.sub(r'^"Fit" means [^.]*\. ', "", dues["caution"]))


class Tally:
    """Checks by what they are of, each with the first that failed."""

    def __init__(self):
        self.count = {}
        self.failures = {}

    def check(self, what, ok, seen=""):
        self.count[what] = self.count.get(what, 0) + 1
        if not ok:
            self.failures.setdefault(what, []).append(str(seen))

    @property
    def failed(self):
        return bool(self.failures)

    def finish(self):
        for what, count in self.count.items():
            bad = self.failures.get(what, [])
            print("not ok" if bad else "ok", "-", what,
                  f"({len(bad)} of {count} are not)" if bad else
                  f"({count} times)" if count > 1 else "")
            for seen in bad[:3]:
                print("#", seen[:1500].replace("\n", "\n# "))
        return int(self.failed)


def check_octets(path, tally, name="hostile fleets"):
    octets = path.read_bytes()
    found = problems(octets)
    tally.check(f"{name}: RFC 5545, octet by octet", not found,
                f"{path}: {found}")
    found = house_rules(octets)
    tally.check(f"{name}: nothing that subscribers suffer from", not found,
                f"{path}: {found}")


# Two readers undo the escapes of a text in the wrong order, and so misread a
# backslash before another character; Python's icalendar also takes %2C, %3A,
# %3B and %5C for escapes of its own.  Their own words for it, step by step:

def as_icalendar(text):
    text = escape(text)
    for escaped, code in (("\\,", "%2C"), ("\\:", "%3A"), ("\\;", "%3B"),
                          ("\\\\", "%5C")):
        text = text.replace(escaped, code)
    for code, char in (("%2C", ","), ("%3A", ":"), ("%3B", ";"),
                       ("%5C", "\\")):
        text = text.replace(code, char)
    return text.replace("\\N", "\\n").replace("\\n", "\n") \
        .replace("\\,", ",").replace("\\;", ";").replace("\\\\", "\\")


def as_node_ical(text):
    # A line that speaks of a TZID loses its quotes.
    if "TZID=" in text and '"(' not in text:
        text = text.replace('"', "")
    text = escape(text).replace("\\,", ",").replace("\\;", ";")
    return re.sub(r"\\[nN]", "\n", text).replace("\\\\", "\\")


MISREAD = {"icalendar": as_icalendar, "node-ical": as_node_ical}
MISREADS = re.compile(r"\\|%(2C|3A|3B|5C)|TZID=")


def as_read_by(reader, reading):
    """What a reader with a defect makes of a reading that is right."""
    how = MISREAD.get(reader)
    if not how:
        return reading

    def text(value):
        return how(value) if value and MISREADS.search(value) else value

    return {"name": text(reading["name"]), "events": [
        {**e, "summary": text(e["summary"]),
         "description": text(e["description"])} for e in reading["events"]]}


def by_uid(events):
    return sorted(events, key=lambda e: (e["uid"], str(e)))


def agree(path, readings, tally, name="hostile fleets"):
    """All five read the same, and no event is lost between them."""
    right = readings["libical"]
    tally.check(f"{name}: libical finds nothing broken",
                right["broken"] == 0, path)
    uids = {e["uid"] for e in right["events"]}
    tally.check(f"{name}: no UID twice",
                len(uids) == len(right["events"]) > 0, path)
    for reader, reading in readings.items():
        wanted = as_read_by(reader, right)
        pairs = list(zip(by_uid(wanted["events"]), by_uid(reading["events"])))
        differ = [pair for pair in pairs if pair[0] != pair[1]]
        tally.check(
            f"{name}: {reader} reads the same",
            not differ and len(wanted["events"]) == len(reading["events"])
            and wanted["name"] == reading["name"],
            f"{path}: {wanted['name']!r} {reading['name']!r} "
            f"{len(wanted['events'])} {len(reading['events'])} "
            f"{reading.get('broken')} {differ[:1]}")


# What stands between the subject and the title, by the category; a due without
# a day says why it has none.
MARKS = {"Due": "", "Overdue": " overdue", "Failed": " failed",
         "Forecast": " forecast"}
STATES = {"overdue": "overdue", "before-return": "before return"}
UNDATED = {"no-record": " no record", "needs-reading": " needs a reading",
           "before-return": " before return"}


def summary(due, kind, shared=()):
    """As the issue asks: it begins with the subject.  Where jobs share a title
    it ends with the job, so that no two events look alike."""
    if kind == "Undated":
        mark = UNDATED.get(due["state"], " no day")
    elif kind == "Forecast":
        mark = MARKS[kind]
    else:
        mark = in_force(due) or MARKS[kind]
    end = f" ({due['job']})" if due["title"] in shared else ""
    return f"{due['subject']}{mark} - {clean(due['title'])}{end}"


def in_force(due):
    """What a due in force is, before the title: ostler(1), CALENDAR FEEDS."""
    failed = due["state"] == "failed"
    state = STATES.get(due["besides"] if failed else due["state"])
    said = ["failed"] * failed + [state] * bool(state)
    return f" {' and '.join(said)}" if said else ""


def undated(dues, shared=()):
    """The dues without any day stand on that on which they were last news."""
    return [{"day": dues["today"], "is": "Undated", "depot": d["depot"],
             "summary": summary(d, "Undated", shared),
             "within": [], "lines": reasons(d) + [feed_caution(dues)]}
            for d in dues["dues"] if not d["plan_day"] and not d["deadline"]]


def in_order(lines, text):
    """Whether the lines stand in the text, whole and in that order."""
    rest = iter(text.split("\n"))
    return all(line in rest for line in lines)


def reasons(due):
    return [clean(r["text"]) for r in due["reasons"]]


def check_event(event, wanted, tally, name):
    """One event against the due that it stands for."""
    tally.check(f"{name}: each has its categories",
                event["categories"] == [wanted["is"], wanted["depot"]],
                (event, wanted))
    end = (date.fromisoformat(wanted["day"]) + DAY).isoformat()
    tally.check(f"{name}: each ends on the day after its plan day",
                event["end"] == end, event)
    tally.check(f"{name}: each description is whole",
                in_order(wanted["lines"], event["description"])
                and all(t in event["description"] for t in wanted["within"]),
                (event["description"], wanted))


def match(events, wanted, tally, name, path):
    """The events are those that are wanted, whole, and no others."""
    found = {(e["start"], e["summary"]): e for e in events}
    meant = {(w["day"], w["summary"]): w for w in wanted}
    tally.check(f"{name}: the events, days and titles that are meant",
                found.keys() == meant.keys()
                and len(events) == len(wanted) == len(meant),
                f"{path}: {len(events)} {len(wanted)}: "
                f"{[k for k in found if k not in meant][:2]} "
                f"{[k for k in meant if k not in found][:2]}")
    for key, w in meant.items():
        if key in found:
            check_event(found[key], w, tally, name)


def check_hostile(expected, reading, tally):
    """A hostile fleet: the generator's days and texts, the JSON's reasons."""
    name = "hostile fleets"
    dues = json.loads(expected.dues)
    current = {(d["subject"], d["job"]): d for d in dues["dues"]}
    wanted = undated(dues)
    for e in expected.events:
        due = current[e["subject"], e["job"]]
        now = e["is"] != "Forecast"
        if now:
            tally.check(f"{name}: the JSON has the generator's days",
                        (due["plan_day"], due["deadline"])
                        == (e["day"], e["deadline"].isoformat()), (e, due))
        wanted.append({
            "day": e["day"], "is": e["is"], "depot": "d",
            "summary": summary(due, e["is"]),
            "within": [expected.authority[e["job"]]],
            "lines": (reasons(due) if now else [])
            + [expected.caution[e["job"]], feed_caution(dues)]})
    if wanted:
        match(reading["events"], wanted, tally, name, expected.path)
    else:
        # A feed is never empty: one event says so, on the day it became so.
        tally.check(f"{name}: an event of its own when nothing is due",
                    [(e["start"], e["categories"]) for e in reading["events"]]
                    == [(dues["today"], ["Nothing"])], reading)
    tally.check(f"{name}: the name of the calendar",
                reading["name"] == expected.name,
                (reading["name"], expected.name))
