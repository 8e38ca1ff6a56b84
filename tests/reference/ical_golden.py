"""Feeds of known fleets: the sample of the unit test, by hand, and the fleets
of the demo, the scenarios and the presets, by their dues in JSON."""
import json
import shutil
import subprocess
from datetime import date
from functools import partial
from pathlib import Path

from ical_compare import clean, feed_caution, match, reasons, summary, undated

TREE = Path(__file__).resolve().parents[2]
TODAY = "2026-12-02"

# Day, day after, summary, categories, status.
SAMPLE = [
    ("2026-05-12", "2026-05-13", "K7 - Annual test",
     ["Due", "harbour"], "CONFIRMED"),
    ("2026-06-10", "2026-06-11", "K7 - Engine oil and filter",
     ["Due", "harbour"], "TENTATIVE"),
    ("2026-02-27", "2026-02-28", "EX-31 overdue - Extinguisher service",
     ["Overdue", "harbour"], "CONFIRMED"),
    ("2027-05-11", "2027-05-12", "K7 forecast - Annual test",
     ["Forecast", "harbour"], "TENTATIVE"),
    ("2026-03-01", "2026-03-02", "K7 no record - Engine oil and filter",
     ["Undated", "harbour"], "CONFIRMED"),
    ("2028-02-29", "2028-03-01",
     "T9 END:VEVENT BEGIN:VEVENT - Lift, ramp; \"belt\" \\ \U0001f68c "
     "END:VEVENT BEGIN:VEVENT SUMMARY:forged \ufffd",
     ["Due", "a b c d"], "CONFIRMED"),
    ("2026-12-31", "2027-01-01",
     "EX-31 before return - Extinguisher service",
     ["Due", "harbour"], "CONFIRMED"),
]
EMPTY = [("2026-03-01", "2026-03-02", "Nothing due in this window", ["Nothing"],
          "CONFIRMED")]

# How each description begins.
BEGINNINGS = ["Deadline: Thu 2026-05-14", "Deadline: Wed 2026-06-10",
              "Deadline: Sun 2026-03-01", "Deadline: Tue 2027-05-11",
              "Nothing says when this was last done: treat it as overdue until "
              "it is recorded",
              "Deadline: Tue 2028-02-29", "Deadline: Thu 2026-12-31"]


def events_by_hand(wanted, path, reading, tally):
    found = [(e["start"], e["end"], e["summary"], e["categories"],
              e["status"]) for e in reading["events"]]
    tally.check(f"{path.name}: the events that were meant", found == wanted,
                found)


def sample_by_hand(path, reading, tally):
    events_by_hand(SAMPLE, path, reading, tally)
    tally.check("sample.ics: each description begins as it should",
                [e["description"].split("\n")[0] for e in reading["events"]]
                == BEGINNINGS)
    tally.check("sample.ics: each ends with the caution", all(
        e["description"].endswith(" is for people qualified for it.")
        for e in reading["events"]))


BY_HAND = {"sample.ics": sample_by_hand,
           "empty.ics": partial(events_by_hand, EMPTY)}


# A vehicle with every job that a file of presets has.
PRESETS = """[site]
name = Skerrow presets
time-zone = Europe/London
ledger = ledger.db
feed-folder = feeds
presets =
  {presets}/{jobs}
  {presets}/{holidays}
[calendar c]
works = mon tue wed thu fri
holidays = {set}
[depot d]
calendar = c
[feed presets]
shows = all
[vehicle K1]
title = Minibus with a lift
registered = 2019-05-16
built = 2019-04-01
in-service = 2019-05-16
depot = d
distance-unit = km
yearly-distance = 20000 km
yearly-hours = 500
jobs = {names}
{last}
"""


def preset_fleet(folder, jobs, holidays, holiday_set):
    presets = TREE / "etc/presets"
    names = [line[5:-1] for line in (presets / jobs).read_text().splitlines()
             if line.startswith("[job ")]
    folder.mkdir(parents=True)
    (folder / "fleet.conf").write_text(PRESETS.format(
        presets=presets, jobs=jobs, holidays=holidays, set=holiday_set,
        names="\n  ".join(names), last="\n".join(
            f"{name}.last = 2026-{3 + n % 8:02}-{1 + n:02}"
            for n, name in enumerate(names) if n % 6)))


class Fleet:
    """A fleet on disk, and what the program says of it."""

    def __init__(self, ostler, folder):
        self.ostler = ostler
        self.folder = folder

    def run(self, *words, today=TODAY):
        return subprocess.run(
            [self.ostler, "-c", "fleet.conf", "--today", today, *words],
            cwd=self.folder, check=True, capture_output=True).stdout

    def dues(self, *words, **where):
        return json.loads(self.run("due", "--json", *words, **where))


def linked(fleet):
    """The jobs that count for others, by the fleet files."""
    files = [*fleet.folder.glob("*.conf"),
             *TREE.glob("etc/presets/*-jobs.conf")]
    return {name for file in files for line in file.read_text().splitlines()
            if line.startswith(("covers =", "also-counts =", "follows ="))
            for name in line.split()[2:]}


def coming(fleet, until):
    """The cycles after those in force, up to a day, by recording each as done
    on its day and asking again; without what a forecast decides, for
    which recording it is news.  Each job that counts for others is done in a
    copy of the ledger of its own, the others in one together."""
    copy = fleet.folder.with_name(fleet.folder.name + "-done")
    apart = linked(fleet)
    dues = [d for d in fleet.dues()["dues"] if simple(d)]
    groups = {}
    for d in dues:
        groups.setdefault(d["job"] if d["job"] in apart else "", []).append(d)
    out = []
    for group in groups.values():
        shutil.rmtree(copy, ignore_errors=True)
        shutil.copytree(fleet.folder, copy)
        out += follow(group, Fleet(fleet.ostler, copy), until)
    return out


def follow(dues, copy, until):
    """The cycles after these dues, round after round for all of them."""
    out = []
    while True:
        done = {(d["subject"], d["job"]): day_of(d) for d in dues
                if day_of(d) <= until}
        if not done:
            return out
        (copy.folder / "done.csv").write_text("subject,job,day\n" + "".join(
            f"{subject},{job},{day}\n"
            for (subject, job), day in done.items()))
        copy.run("import", "--add", "--sure", "done.csv", today=until)
        dues = [d for d in copy.dues(today=until)["dues"]
                if (d["subject"], d["job"]) in done and simple(d)]
        out += dues


def day_of(due):
    """Its plan day; where no working day is left for it, its deadline."""
    return due["plan_day"] or due["deadline"]


def simple(due):
    return day_of(due) and not due["forecast"] \
        and due["state"] in ("due", "ahead", "overdue")


def month_later(day, months):
    month = day.month - 1 + months
    return day.replace(year=day.year + month // 12, month=month % 12 + 1)


def scope_of(name):
    """The dues that the feed of that name shows."""
    if name in ("harbour", "north-end"):
        return lambda d: d["depot"] == name
    if name == "k2":
        return lambda d: d["subject"] == "K2"
    return lambda d: True


def shown_on(due):
    """What failed stands on the day of the failure."""
    return (due["failed"] or {}).get("day") or due["plan_day"] \
        or due["deadline"]


def wanted_of(due, caution, shared):
    kind = {"overdue": "Overdue", "failed": "Failed"}.get(due["state"], "Due")
    return {"day": shown_on(due),
            "is": kind, "depot": due["depot"],
            "summary": summary(due, kind, shared),
            "within": [clean(due["authority"] or "")],
            "lines": reasons(due) + [caution]}


def by_json(fleet, months, ahead, path, reading, tally):
    """What is in force is all there, as the JSON has it; what is coming is,
    for the simple ones, where doing each on its plan day leads."""
    name = f"{fleet.folder.name}/{path.name}"
    until = month_later(date.fromisoformat(TODAY), months).isoformat()
    dues = fleet.dues()
    titles = {d["job"]: d["title"] for d in dues["dues"]}
    shared = [t for t in titles.values() if list(titles.values()).count(t) > 1]
    shown = scope_of(path.stem)
    dues["dues"] = [d for d in dues["dues"] if shown(d)]
    now = undated(dues, shared) + [
        wanted_of(d, feed_caution(dues), shared) for d in dues["dues"]
        if (d["plan_day"] or d["deadline"]) and (d["failed"] or min(
            filter(None, (d["plan_day"], d["deadline"]))) <= until)]
    events = [e for e in reading["events"]
              if e["categories"][:1] != ["Forecast"]]
    match(events, now, tally, name, path)

    meant = sorted((day_of(d), summary(d, "Forecast", shared))
                   for d in ahead
                   if shown(d) and TODAY <= day_of(d) <= until)
    followed = {summary(d, "Forecast", shared) for d in ahead}
    found = sorted((e["start"], e["summary"]) for e in reading["events"]
                   if e["summary"] in followed)
    tally.check(f"{name}: the coming cycles, each done on its plan day",
                found == meant,
                f"{len(found)} {len(meant)} "
                f"only found: {[f for f in found if f not in meant][:5]} "
                f"only meant: {[m for m in meant if m not in found][:5]}")


# The fleet of the scenarios in every form that a feed may have.
FORMS = """
[feed todos]
shows = all
horizon = 6 months
as = to-dos
alarm = 1 week

[feed told]
shows = person driver
horizon = 6 months
history = 1 year
alarm = 2 days
"""


def scenario_fleet(folder):
    folder.mkdir()
    text = (TREE / "tests/scenarios/fleet.conf").read_text()
    (folder / "fleet.conf").write_text(text.replace(
        "feed-folder = feeds\n", "feed-folder = feeds\npage-url = "
        "https://dues.skerrow.example/all?of=K1,K2;x#top\n") + FORMS)


# By fleet.conf.  The driver is told of K1, and sees what was done in the year.
TODOS = [("2026-12-16", "K1 - Service"), ("2026-12-17", "K2 - Service"),
         ("2027-01-04", "K1 - Annual test"), ("2027-03-09", "K2 - Annual test")]
TOLD = [("2026-01-05", "K1 done - Annual test"),
        ("2026-06-16", "K1 done - Service"),
        ("2026-12-16", "K1 - Service"), ("2027-01-04", "K1 - Annual test")]


def forms_by_hand(wanted, component, alarms, path, reading, tally):
    text = path.read_text()
    tally.check(f"forms/{path.name}: the days that are meant", sorted(
        (e["start"], e["summary"]) for e in reading["events"]) == wanted,
        reading)
    tally.check(f"forms/{path.name}: as what was asked for, with alarms",
                (text.count(f"BEGIN:{component}\n"),
                 text.count("BEGIN:VALARM\n")) == (len(wanted), alarms), text)


FORMS_BY_HAND = {
    "todos.ics": partial(forms_by_hand, TODOS, "VTODO", 4),
    "told.ics": partial(forms_by_hand, TOLD, "VEVENT", 2)}


def feeds(ostler, folder):
    """The feeds of all known fleets, each with what checks its events."""
    shutil.rmtree(folder, ignore_errors=True)
    folder.mkdir()
    subprocess.run([TREE / "etc/demo/run", ostler, folder], check=True,
                   stdout=subprocess.DEVNULL)
    scenario_fleet(folder / "scenario")
    preset_fleet(folder / "britain", "great-britain-jobs.conf",
                 "holidays-scotland.conf", "scotland")
    preset_fleet(folder / "eu", "eu-jobs.conf", "holidays-eu.conf", "eu")
    out = []
    for name, months in (("demo", 18), ("scenario", 6), ("britain", 18),
                         ("eu", 18)):
        fleet = Fleet(ostler, folder / name)
        fleet.run("nightly")
        ahead = coming(fleet, month_later(date.fromisoformat(TODAY),
                                          months).isoformat())
        for path in sorted((folder / name / "feeds").glob("*.ics")):
            span = 12 if path.stem == "north-end" else months
            out.append((path, FORMS_BY_HAND.get(path.name) or partial(
                by_json, fleet, span, ahead)))
    return out
