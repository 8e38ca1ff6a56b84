"""A history: what happens to a fleet, step by step, and after each step the
pass, whose feeds are judged."""
import json
import os
import shutil
import subprocess
from datetime import date, timedelta
from pathlib import Path

from feed_history_calm import Calm
from feed_history_dues import Names, Picture
from feed_history_fleet import HORIZONS, OTHERWISE, Fleet
from feed_history_rules import Judge, day_of, is_due, read, require

OSTLER = Path(os.environ.get("BUILD", "build")).resolve() / "ostler"
FEW = 4


class File:
    """A feed's file as it is at one time."""

    def __init__(self, path, last=None):
        self.path = path
        self.there = path.exists()
        self.octets = path.read_bytes() if self.there else b""
        status = path.stat() if self.there else None
        self.mark = status and (status.st_ino, status.st_mtime_ns)
        if last and last.octets == self.octets:
            self.events, self.own = last.events, last.own
        elif self.octets.startswith(b"BEGIN"):
            self.events, self.own = read(self.octets)
        else:
            self.events, self.own = {}, None

    def says(self):
        """All but what it was read into."""
        return {uid: e[:4] for uid, e in self.events.items()}

    def dues(self):
        return sum(map(is_due, self.events.values()))


class History:
    def __init__(self, rng, folder, tally):
        self.rng = rng
        self.folder = folder
        self.tally = tally
        self.today = date(2026, 1, 1) + timedelta(rng.randrange(700))
        self.fleet = Fleet(rng, self.today)
        self.judges = {name: Judge() for name in self.fleet.feeds}
        self.files = {}
        self.names = Names()
        self.calm = Calm()
        self.records = []
        self.copies = []  # of the ledger, with what it knew
        self.old = []  # files of feeds
        self.told = []
        self.undo = None  # what ends a loss
        self.away = {}  # feeds that are not in the fleet file now
        self.ledger = folder / "ledger.db"

    # --- The program ---

    def run(self, *words):
        return subprocess.run(
            [OSTLER, "-c", "fleet.conf", "--today", str(self.today),
             *map(str, words)],
            cwd=self.folder, text=True, capture_output=True, check=False)

    def enter(self, *words):
        """A record; one that is refused is no matter, for a wrong reading is
        part of life."""
        done = self.run(*words)
        require(done.returncode in (0, 64, 65), "a record is taken or refused",
                words, done.stderr)
        self.tally["refused"] += done.returncode != 0
        for line in done.stdout.splitlines():
            if line.startswith("record "):
                self.records.append(int(line.split()[1].rstrip(":")))
        return " ".join(map(str, words)) + (" (refused)" * (
            done.returncode != 0))

    # --- One step and its pass ---

    def step(self):
        rng = self.rng
        choices = STEPS if self.told else [(1, first)]
        what, = rng.choices([s for _, s in choices],
                            [weight for weight, _ in choices])
        self.what = what
        said = what(self)
        self.told.append(f"{self.today} {what.__name__}: {said}")
        self.tally["steps"] += 1
        (self.folder / "fleet.conf").write_text(self.fleet.text(),
                                                encoding="utf-8")
        self.look()
        unchanged = {n: (f.octets, f.mark) for n, f in self.files.items()} \
            if what is nothing else None
        self.night()
        if unchanged is not None:
            self.tally["same"] += 1
            require(unchanged == {n: (f.octets, f.mark)
                                  for n, f in self.files.items()},
                    "when nothing has changed no file is touched")

    def look(self):
        for name in self.fleet.feeds:
            self.files[name] = File(self.folder / "feeds" / f"{name}.ics",
                                    self.files.get(name))

    def night(self):
        done = self.run("nightly")
        require(done.returncode in (0, 65), "the pass goes well",
                done.returncode, done.stderr)
        # Of many that are held back the message names only some.
        held = [name for name in self.fleet.feeds
                if f"feed {name} --accept" in done.stderr
                or "; and more" in done.stderr and self.is_loss(name)]
        require((done.returncode == 65) == bool(held), "held back or well",
                done.stderr)
        dues = self.dues()
        self.calm.look(self.fleet, dues, self.what in STEADY)
        for name in self.fleet.feeds:
            self.judge(name, dues, name in held)
        if held and self.what is not nothing and self.rng.random() < 0.4:
            name = self.rng.choice(held)
            done = self.run("feed", name, "--accept")
            require(done.returncode == 0, "a loss is accepted", done.stderr)
            self.told.append(f"{self.today} accept {name}")
            self.tally["accepted"] += 1
            self.judge(name, dues, False, accepted=True)
        elif self.rng.random() < 0.05:
            self.compare_printed(held)

    def dues(self):
        done = self.run("due", "--json")
        require(done.returncode == 0, "the dues are told", done.stderr)
        return json.loads(done.stdout)["dues"]

    def judge(self, name, dues, held, accepted=False):
        before = self.files[name]
        after = File(before.path, before)
        judge = self.judges[name]
        require(after.there or held, "the file is there", name)
        if held:
            require(before.mark == after.mark, "held back is left alone", name)
            require(self.is_loss(name),
                    "only a loss of more than half is held back", name)
            self.tally["held"] += 1
        else:
            lost = before.dues() >= FEW and after.dues() * 2 < before.dues()
            require(accepted or not lost, "more than half is held back", name,
                    before.dues(), after.dues())
            if before.own == after.own and before.says() == after.says():
                require(before.mark == after.mark,
                        "the same events leave the file alone", name)
                self.tally["steady"] += 1
        if held:
            judge.learn(before.events)
        else:
            judge.published(before.events, after.events)
            picture = Picture(self.fleet, name, after.events, dues, self.today)
            picture.judge(self.names)
            self.calm.judge(name, picture)
            shown = {(str(e.component["SUMMARY"]), day_of(e))
                     for e in after.events.values()}
            require(len(shown) == len(after.events) or picture.form == "to-dos",
                    "no two events of a day read the same", name)
        self.tally["lost"] += judge.lost
        judge.lost = 0
        self.tally["published"] += before.octets != after.octets
        if after.octets != before.octets:
            self.old.append((name, after.octets, after.mark[1]))
        self.files[name] = after

    def printed(self, name):
        """What `feed` prints; it stamps what it shows, so the ledger is put
        back."""
        kept = self.ledger.read_bytes()
        done = self.run("feed", name)
        self.ledger.write_bytes(kept)
        require(done.returncode == 0, "a feed is printed", done.stderr)
        return done.stdout.encode().replace(b"\r\n", b"\n").replace(
            b"\n", b"\r\n")

    def is_loss(self, name):
        """What the feed has now is less than half of what its file has."""
        before = self.files[name].dues()
        events, _ = read(self.printed(name))
        return before >= FEW and sum(map(is_due, events.values())) * 2 < before

    def compare_printed(self, held):
        for name in set(self.fleet.feeds) - set(held):
            require(self.printed(name) == self.files[name].octets,
                    "a feed is printed as it is published", name)


# --- What may happen; each returns what it did ---

def first(h):
    return "the first pass"


def nothing(h):
    return ""


def days(h):
    h.today += timedelta(h.rng.choice([1, 1, 1, 2, 5, 12, 30, 75]))
    return ""


def record(h):
    subject, job = h.rng.choice(h.fleet.tasks())
    on = h.today - timedelta(h.rng.choice([0, 0, 1, 8, 40]))
    words = ["record", subject, job, "--on", on]
    if h.rng.random() < 0.15:
        words += ["--result", "failed"]
    keys = h.fleet.subjects[subject]
    if keys["kind"] == "vehicle" and h.rng.random() < 0.5:
        words += ["--reading", odometer(h, keys, on)]
    return h.enter(*words)


def odometer(h, keys, on):
    """More use in summer, and now and then a wrong digit."""
    shown = h.fleet.odometer(keys, on) + int(
        keys["#rate"] * 20 * (1 + abs(on.timetuple().tm_yday - 182) / -91))
    return shown if h.rng.random() < 0.97 else shown + 900


def due_work(h):
    """The most urgent due is done."""
    dues = [d for d in h.dues() if d["state"] in ("due", "overdue")]
    if not dues:
        return days(h)
    return h.enter("record", dues[0]["subject"], dues[0]["job"], "--on",
                   h.today)


def reading(h):
    subject = h.rng.choice(h.fleet.vehicles())
    on = h.today - timedelta(h.rng.choice([0, 0, 0, 2]))
    return h.enter("reading", subject,
                   odometer(h, h.fleet.subjects[subject], on), "--on", on)


def void(h):
    if not h.records:
        return nothing(h)
    number = h.rng.choice(h.records[-6:])
    return h.enter("record", "--void", number, "--note", "wrong")


def off_road(h):
    subject = h.rng.choice(list(h.fleet.subjects))
    if h.rng.random() < 0.5:
        until = h.today + timedelta(h.rng.choice([-1, 0, 20]))
        return h.enter("off-road", subject, "--until", until)
    words = ["off-road", subject, "--from",
             h.today - timedelta(h.rng.choice([0, 5]))]
    if h.rng.random() < 0.4:
        words += ["--until", h.today + timedelta(h.rng.randint(0, 60))]
    return h.enter(*words)


def move(h):
    carried = [n for n in h.fleet.subjects if n not in h.fleet.vehicles()]
    if not carried:
        return off_road(h)
    return h.enter("move", h.rng.choice(carried),
                   h.rng.choice(h.fleet.vehicles()), "--on", h.today)


def clock_back(h):
    h.today -= timedelta(h.rng.choice([1, 3, 10, 200]))
    return ""


def edit_title(h):
    if h.rng.random() < 0.5:
        job = h.rng.choice(list(h.fleet.jobs))
        h.fleet.jobs[job]["title"] = h.rng.choice(
            ["Service", f"{job}; long, and \u00e4 " + "very " * 12 + "long",
             f"The {job}"])
        return f"job {job}"
    subject = h.rng.choice(list(h.fleet.subjects))
    h.fleet.subjects[subject]["title"] = f"anew {h.rng.randrange(9)}"
    return f"subject {subject}"


def edit_interval(h):
    job = h.rng.choice(list(OTHERWISE))
    h.fleet.jobs[job]["every"] = h.rng.choice(OTHERWISE[job])
    return f"{job} every {h.fleet.jobs[job]['every']}"


def edit_subjects(h):
    before = set(h.fleet.subjects)
    h.rng.choice([h.fleet.add_vehicle, h.fleet.add_equipment,
                  lambda day: h.fleet.remove_vehicle()])(h.today)
    return " ".join(sorted(before ^ set(h.fleet.subjects)))


def edit_deadline(h):
    subject, job = h.rng.choice([
        task for task in h.fleet.tasks()
        if task[1] not in ("wheel-off", "retorque", "winter")]
        or [(None, None)])
    if subject is None:
        return nothing(h)
    key = f"{job}.deadline"
    keys = h.fleet.subjects[subject]
    day = h.today + timedelta(h.rng.randint(-10, 200))
    if keys.pop(key, None) is None and day >= keys.get(f"{job}.last", day):
        keys[key] = day
    return f"{subject} {key} {keys.get(key)}"


def edit_depot(h):
    if h.rng.random() < 0.3:
        subject = h.rng.choice(h.fleet.vehicles())
        keys = h.fleet.subjects[subject]
        keys["depot"] = "hill" if keys["depot"] == "harbour" else "harbour"
        return f"{subject} to {keys['depot']}"
    closed = h.fleet.closed[h.rng.choice(["harbour", "hill"])]
    for _ in range(h.rng.randint(1, 4)):
        day = h.today + timedelta(h.rng.randint(0, 120))
        closed[day] = "Regatta, day"
    # Where an event stands is where a closure moves it.
    some = h.rng.choice(list(h.fleet.feeds))
    for event in h.files[some].events.values():
        if event.component.name == "VEVENT" and h.rng.random() < 0.2:
            closed[event.component["DTSTART"].dt] = "Stocktaking"
    while len(closed) > 12:
        closed.pop(h.rng.choice(list(closed)))
    return " ".join(map(str, closed))


def edit_feed(h):
    name = h.rng.choice(list(h.fleet.feeds))
    feed = h.fleet.feeds[name]
    key, values = h.rng.choice([
        ("title", [None, "Dues; north", "Another"]),
        ("horizon", HORIZONS), ("history", [None, "2 months"]),
        ("as", ["events", "to-dos"]), ("alarm", [None, "1 week"])])
    value = h.rng.choice(values)
    if value is None:
        feed.pop(key, None)
    else:
        feed[key] = value
    return f"{name} {key} {value}"


def edit_feeds(h):
    """A feed is taken out, and its file stays; or comes back."""
    if h.away:
        name, feed = h.away.popitem()
        h.fleet.feeds[name] = feed
        return f"{name} is back"
    name = h.rng.choice(list(h.fleet.feeds))
    h.away[name] = h.fleet.feeds.pop(name)
    return f"{name} is taken out"


def edit_site(h):
    """Every UID is another one from now on."""
    h.fleet.site["name"] = h.rng.choice(["Skerrow, north", "Skerrow south"])
    return h.fleet.site["name"]


def edit_url(h):
    h.fleet.site["page-url"] = "https://dues.skerrow.example/" + h.rng.choice(
        "ab")
    return h.fleet.site["page-url"]


def loss(h):
    """Most of a feed is gone by mistake, for some passes."""
    if h.undo:
        feed, h.undo = h.undo, None
        if feed[0] in h.fleet.feeds:
            h.fleet.feeds[feed[0]].update(feed[1])
        return f"{feed[0]} mended"
    name = h.rng.choice(list(h.fleet.feeds))
    h.undo = name, dict(h.fleet.feeds[name])
    h.fleet.feeds[name].update(h.rng.choice([
        {"shows": "job retorque"}, {"horizon": "1 week"},
        {"horizon": "3 days"}]))
    return f"{name} {h.fleet.feeds[name]}"


def backup(h):
    copy = h.folder / f"copy-{len(h.copies)}"
    if h.rng.random() < 0.5:
        done = h.run("backup", copy)
        require(done.returncode == 0, "a backup is made", done.stderr)
    else:
        shutil.copyfile(h.ledger, copy)
    h.copies.append((copy, {name: dict(j.ledger)
                            for name, j in h.judges.items()}))
    return copy.name


def restore(h):
    if not h.copies:
        return backup(h)
    copy, knew = h.rng.choice(h.copies[-3:])
    if h.rng.random() < 0.3:
        done = h.run("restore", copy, "--drop-newer")
        require(done.returncode == 0, "a backup is restored", done.stderr)
    else:
        shutil.copyfile(copy, h.ledger)
    forget(h, knew)
    return copy.name


def forget(h, knew):
    for name, judge in h.judges.items():
        judge.ledger = dict(knew.get(name, {}))
    h.calm.forget()


def no_ledger(h):
    h.ledger.unlink()
    h.records = []
    forget(h, {})
    return ""


def old_file(h):
    if not h.old:
        return nothing(h)
    name, octets, written = h.rng.choice(h.old[-8:])
    if name not in h.fleet.feeds:
        return nothing(h)
    path = h.folder / "feeds" / f"{name}.ics"
    path.write_bytes(octets)
    kept = h.rng.random() < 0.5
    if kept:
        os.utime(path, ns=(written, written))
    return name + " with its time" * kept


def spoil_file(h):
    name = h.rng.choice(list(h.fleet.feeds))
    path = h.folder / "feeds" / f"{name}.ics"
    if h.rng.random() < 0.5:
        path.unlink(missing_ok=True)
    else:
        path.write_bytes(b"<html>502 Bad Gateway</html>\n")
    return name


# What leaves every job as it was, but for how far its vehicle has been.
STEADY = {nothing, days, reading, clock_back, edit_title, edit_feed, edit_feeds,
          edit_url, loss, backup, old_file, spoil_file}

STEPS = [(6, nothing), (16, days), (9, record), (7, due_work), (7, reading),
         (5, void), (4, off_road), (1, move), (3, clock_back), (2, edit_title),
         (3, edit_interval), (2, edit_subjects), (3, edit_deadline),
         (4, edit_depot), (4, edit_feed), (1, edit_url), (1, edit_site),
         (2, edit_feeds), (4, loss),
         (4, backup), (4, restore), (1, no_ledger), (3, old_file),
         (1, spoil_file)]
